/** A step: its cautions, its items in order, and the sign-off. */
import { useState } from "preact/hooks";
import type { Item, Step } from "../core/job";
import type { Blocked } from "../core/progress";
import { Frame, Notice } from "../parts/frame";
import { Mark, type Shape } from "../parts/marks";
import { Stop } from "../parts/stop";
import { useJob } from "../parts/use";
import { foundBy, linkTo, me } from "../state";
import { added, type OpenJob } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";
import { Calls } from "./calls";
import { SignOff } from "./sign-off";

/** Where a record is being made. */
export interface At {
  job: OpenJob;
  piece: string;
  step: Step;
}

export function StepScreen({ jobId, pieceId, code }: { jobId: string; pieceId: string; code: string }) {
  const job = useJob(jobId);
  const [told, setTold] = useState(false);
  if (job === undefined) return null;
  const step = job?.progress.job.hasStep(pieceId, code) ? job.progress.job.steps.get(code) : undefined;
  if (!job || !step) {
    return (
      <Frame>
        <div class="body">
          <Notice kind="bad">This step is not asked of this piece. Go back and choose another.</Notice>
        </div>
      </Frame>
    );
  }
  const at = { job, piece: pieceId, step };
  const state = job.progress.step(pieceId, code);
  const asked = step.items.filter((item) => state.items.get(item.code)?.state !== "not asked");
  const blocked = job.progress.blocked(pieceId, code);
  const stopped = blocked.length > 0 && !told;
  const mark = job.progress.job.pieces.get(pieceId)?.mark ?? pieceId;
  return (
    <Frame title={mark} back={linkTo("piece", job.id, pieceId)}>
      <div class="body">
        <div>
          <h1>{step.name}</h1>
          <p class="soft">
            {mark} · {step.number}
          </p>
        </div>
        {stopped && <Stop job={job} blocked={blocked} />}
        {blocked.length > 0 && told && <StillOpen job={job} blocked={blocked} />}
        {stopped ? (
          <ToldToGoOn at={at} onTold={() => setTold(true)} />
        ) : (
          <>
            <Cautions step={step} />
            <ol class="list">
              {asked.map((item) => (
                <ItemRow key={item.code} at={at} item={item} />
              ))}
            </ol>
            <Calls at={at} />
            <SignOff at={at} />
          </>
        )}
      </div>
    </Frame>
  );
}

/** What can hurt at this step, set in the plan; it defers to the shop's rules, local codes and licensed practice. */
function Cautions({ step }: { step: Step }) {
  return (
    <>
      {step.note && <Notice>{step.note}</Notice>}
      {step.cautions && step.cautions.length > 0 && (
        <Notice kind="care">
          {step.cautions.map((caution) => (
            <p key={caution}>{caution}</p>
          ))}
        </Notice>
      )}
    </>
  );
}

/** The hold stays in sight while somebody goes on past it. */
function StillOpen({ job, blocked }: { job: OpenJob; blocked: readonly Blocked[] }) {
  const places = blocked.map(
    ({ piece, step }) =>
      `${job.progress.job.pieces.get(piece)?.mark} ${job.progress.job.steps.get(step)?.number ?? ""}`,
  );
  return (
    <Notice kind="bad">Hold still open: {places.join(", ")}. You go on by somebody's word; it is recorded.</Notice>
  );
}

function ItemRow({ at, item }: { at: At; item: Item }) {
  const state = at.job.progress.step(at.piece, at.step.code).items.get(item.code);
  const shapes: Record<string, Shape> = { met: "in", flagged: "out", started: "started", open: "open" };
  const missing = state?.missing.filter(Boolean).length ?? 0;
  const left = [missing > 0 ? `${state?.missing.join(", ")} to do` : "", state?.photoMissing ? "photo asked" : ""];
  return (
    <li>
      <a class="row" href={linkTo("item", at.job.id, at.piece, at.step.code, item.code)}>
        <Mark shape={shapes[state?.state ?? "open"] ?? "open"} />
        <span class="grow">
          <b>{item.name}</b>
          <br />
          <span class="small soft">{left.filter(Boolean).join(" · ") || (item.where ?? state?.state)}</span>
        </span>
        ›
      </a>
    </li>
  );
}

/** Somebody was told to go on: it is written down with the reason, and the supervisor sees it. */
function ToldToGoOn({ at, onTold }: { at: At; onTold: () => void }) {
  const [asking, setAsking] = useState(false);
  const [why, setWhy] = useState("");
  const goOn = async () => {
    const signer = me.value;
    if (!signer) return;
    const text = `Told to go on at ${at.step.number} ${at.step.name}: ${why}`;
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
        <p>
          Nothing may be done here before that. If you were told to go on, say by whom: it is recorded, and the
          supervisor sees it.
        </p>
        <button type="button" class="button" onClick={() => setAsking(true)}>
          I was told to go on
        </button>
      </>
    );
  }
  return (
    <>
      <label class="field">
        By whom, and why
        <textarea value={why} onInput={(event) => setWhy(event.currentTarget.value)} />
      </label>
      <button type="button" class="button" disabled={why.trim().length < 3} onClick={() => void goOn()}>
        Record that, and go on
      </button>
    </>
  );
}
