/** 'Use as is' that has no effect until engineering, the Authorized Inspector or the customer agree. */
import { useState } from "preact/hooks";
import type { Judged, Place } from "../core/judging";
import { type Agreeing, ROLES } from "../core/records";
import { Mark } from "../parts/marks";
import { foundBy, linkTo, me } from "../state";
import { added, type OpenJob } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";

const AGREEING = ["engineering", "AI", "customer"] as const;

type Disposition = Judged<"disposition">;

export interface Asked {
  job: OpenJob;
  disposition: Disposition;
  place: Place;
}

/** The parties whose word a person may give. */
export function agreeingParties(roles: readonly string[]): Agreeing[] {
  return AGREEING.filter((party) => ROLES[party].some((role) => roles.includes(role)));
}

/** The dispositions of a job that wait for one of the parties. */
export function askedOf(job: OpenJob, parties: readonly Agreeing[]): Asked[] {
  const found: Asked[] = [];
  for (const piece of job.progress.job.pieces.keys()) {
    const { standing } = job.progress.piece(piece);
    for (const disposition of standing.dispositions) {
      if (disposition.body.disposition !== "use as is") continue;
      const about = disposition.body.about.records.map((id) => job.progress.records.get(id)?.place);
      const place = disposition.place.item ? disposition.place : (about.find(Boolean) ?? disposition.place);
      const lacking = standing.lackingAgreement(disposition, place);
      if (parties.some((party) => lacking.includes(party))) found.push({ job, disposition, place });
    }
  }
  return found;
}

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
  return (
    <li>
      <a class="row" href={linkTo("step", job.id, place.piece, place.step)}>
        <Mark shape="close" />
        <span class="grow">
          <b>{piece?.mark}</b> {item?.name ?? step?.name} <span class="small soft">job {job.id}</span>
          <br />
          <span class="small">
            Use as is: {disposition.body.reason}
            {disposition.body.ncr ? ` · NCR ${disposition.body.ncr}` : ""}
            {item?.binds ? ` · binds by ${item.binds}` : ""}
          </span>
        </span>
        ›
      </a>
      {sure ? (
        <div class="pair">
          <button type="button" class="button" onClick={() => void agree()}>
            Agree for {party === "AI" ? "the Authorized Inspector" : party}
          </button>
          <button type="button" class="button" onClick={() => setSure(false)}>
            Not now
          </button>
        </div>
      ) : (
        <button type="button" class="button" onClick={() => setSure(true)}>
          Agree
        </button>
      )}
    </li>
  );
}
