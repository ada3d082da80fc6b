/** What stands before a step and each of its items: an open hold, and cautions that have not been read this shift. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { Step } from "../core/job";
import type { Blocked } from "../core/progress";
import { t } from "../language";
import { Notice } from "../parts/frame";
import { Stop } from "../parts/stop";
import { useLoaded } from "../parts/use";
import { foundBy, me } from "../state";
import { added, changes, type OpenJob } from "../store/jobs";
import { save } from "../store/records";
import { hasRead, noteRead, noteTold, wasTold } from "../store/shift";
import { wake } from "../sync/loop";
import type { At } from "./step";

/** Children are shown once nothing stands before them any more; how one came here makes no difference. */
export function Gate({ at, children }: { at: At; children: ComponentChildren }) {
  const { job, piece, step } = at;
  const person = me.value?.person ?? "";
  const [justRead, setJustRead] = useState(false);
  const read = useLoaded(async () => hasRead(person, step), [person, step, changes.value]);
  const blocked = job.progress.blocked(piece, step.code);
  if (blocked.length > 0 && !wasTold(person, piece, step, blocked)) {
    return (
      <>
        <Stop job={job} blocked={blocked} />
        <ToldToGoOn at={at} onTold={() => noteTold(person, piece, step, blocked)} />
      </>
    );
  }
  if (read === undefined) return null;
  if (!read && !justRead) {
    return (
      <ToRead
        step={step}
        onRead={async () => {
          await noteRead(person, step);
          setJustRead(true);
        }}
      />
    );
  }
  return (
    <>
      {blocked.length > 0 && <StillOpen job={job} blocked={blocked} />}
      {children}
    </>
  );
}

/** What can hurt at this step, on a screen of its own until somebody says that they have read it. */
function ToRead({ step, onRead }: { step: Step; onRead: () => void }) {
  return (
    <section class="cautions" aria-labelledby="cautions-title">
      <h2 id="cautions-title">{t("cautions-before")}</h2>
      <Cautions step={step} />
      <button type="button" class="button main" onClick={onRead}>
        {t("cautions-read")} <span aria-hidden="true">›</span>
      </button>
    </section>
  );
}

/** The plan's cautions; they defer to the shop's rules, local codes and licensed practice. */
export function Cautions({ step }: { step: Step }) {
  return (
    <Notice kind="care">
      <ul class="plain-list">
        {(step.cautions ?? []).map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <p class="small">{t("cautions-defer")}</p>
    </Notice>
  );
}

/** The hold stays in sight while somebody goes on past it. */
function StillOpen({ job, blocked }: { job: OpenJob; blocked: readonly Blocked[] }) {
  const places = blocked.map(({ piece, step }) =>
    [job.progress.job.pieces.get(piece)?.mark, job.progress.job.steps.get(step)?.number].filter(Boolean).join(" "),
  );
  return <Notice kind="bad">{t("stop-still-open", { places: places.join(", ") })}</Notice>;
}

/** Somebody was told to go on: it is written down with the reason, and the supervisor sees it. */
function ToldToGoOn({ at, onTold }: { at: At; onTold: () => void }) {
  const [asking, setAsking] = useState(false);
  const [why, setWhy] = useState("");
  const goOn = async () => {
    const signer = me.value;
    if (!signer) return;
    const text = t("told-note", { number: at.step.number, step: at.step.name ?? at.step.code, why: why.trim() });
    const body = { text, pass_on: false };
    await added(
      await save(signer, at.job, { type: "note", piece: at.piece, found_by: foundBy.value, body, under: [] }),
    );
    wake();
    onTold();
  };
  if (!asking) {
    return (
      <>
        <p>{t("told-nothing-before")}</p>
        <button type="button" class="button" onClick={() => setAsking(true)}>
          {t("told-to-go-on")}
        </button>
      </>
    );
  }
  return (
    <>
      <label class="field">
        {t("told-by-whom")}
        <textarea value={why} onInput={(event) => setWhy(event.currentTarget.value)} />
      </label>
      <button type="button" class="button" disabled={why.trim().length < 3} onClick={() => void goOn()}>
        {t("told-record")}
      </button>
    </>
  );
}
