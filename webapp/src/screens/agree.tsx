/** 'Use as is' that has no effect until engineering, the Authorized Inspector or the customer agree. */
import { useState } from "preact/hooks";
import { t, word } from "../language";
import { Mark } from "../parts/marks";
import { partyName } from "../parts/parties";
import { foundBy, linkTo, me } from "../state";
import { added } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";
import { type Asked, agreeingParties } from "./floor-work";

/** One question: what is to be used as it is, and why; Agree is a signed record. */
export function AgreeLine({ asked }: { asked: Asked }) {
  const [sure, setSure] = useState(false);
  const { job, disposition, place } = asked;
  const piece = job.progress.job.pieces.get(place.piece);
  const step = job.progress.job.steps.get(place.step);
  const item = step?.items.find((one) => one.code === place.item);
  const lacking = job.progress.piece(place.piece).standing.lackingAgreement(disposition, place);
  const party = agreeingParties(me.value?.roles ?? []).find((one) => lacking.includes(one));
  const agree = async () => {
    const signer = me.value;
    if (!signer || !party) return;
    const body = { disposition: disposition.id, party };
    const where = { piece: place.piece, found_by: foundBy.value, under: [] };
    await added(await save(signer, job, { type: "agreement", ...where, body }));
    wake();
  };
  const { reason, ncr } = disposition.body;
  return (
    <li>
      <a class="row" href={linkTo("step", job.id, place.piece, place.step)}>
        <Mark shape="close" />
        <span class="grow">
          <b>{piece?.mark}</b> {item?.name ?? step?.name}{" "}
          <span class="small soft">{t("work-in-job", { job: job.id })}</span>
          <br />
          <span class="small">
            {t(ncr ? "agree-what-ncr" : "agree-what", { reason, ncr: ncr ?? "" })}
            <br />
            {item?.binds && t("agree-binds", { binds: word("binds", item.binds) })}
          </span>
        </span>
        ›
      </a>
      {sure ? (
        <div class="pair">
          <button type="button" class="button" onClick={() => void agree()}>
            {t("agree-for", { party: partyName(party ?? "") })}
          </button>
          <button type="button" class="button" onClick={() => setSure(false)}>
            {t("agree-not-now")}
          </button>
        </div>
      ) : (
        <button type="button" class="button" onClick={() => setSure(true)}>
          {t("agree")}
        </button>
      )}
    </li>
  );
}
