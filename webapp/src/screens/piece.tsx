/** A piece: the one thing to do next, STOP where a hold is open, and its steps as a ladder. */
import { useState } from "preact/hooks";
import type { Step } from "../core/job";
import { isA } from "../core/judging";
import { Frame, Notice } from "../parts/frame";
import { Mark, type Shape } from "../parts/marks";
import { partyName } from "../parts/parties";
import { Stop } from "../parts/stop";
import { useJob, useLoaded } from "../parts/use";
import { foundBy, linkTo, me } from "../state";
import { added, type OpenJob, people } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";
import { nextItem } from "./item";
import { nextOf } from "./job";

const FOUND: Record<string, string> = {
  scanned: "tag scanned",
  typed: "code typed",
  list: "picked from the list",
  board: "from the tag board",
};

export function PieceScreen({ jobId, pieceId }: { jobId: string; pieceId: string }) {
  const job = useJob(jobId);
  const piece = job?.progress.job.pieces.get(pieceId);
  if (job === undefined) return null;
  if (!job || !piece) {
    return (
      <Frame>
        <div class="body">
          <Notice kind="bad">This piece is not on this phone. Connect once to fetch its job, or scan again.</Notice>
        </div>
      </Frame>
    );
  }
  const marks = (ids: readonly string[] | undefined) =>
    (ids ?? []).map((id) => job.progress.job.pieces.get(id)?.mark ?? id).join(", ");
  const next = nextOf(job, pieceId);
  const blocked = next.step ? job.progress.blocked(pieceId, next.step) : [];
  const step = job.progress.job.steps.get(next.step);
  return (
    <Frame title={`Job ${job.id}`} back={linkTo("job", job.id)}>
      <div class="body">
        <div>
          <h1>{piece.mark}</h1>
          <p>
            {[
              piece.name,
              piece.joins?.length ? `joins ${marks(piece.joins)}` : "",
              piece.part_of?.length ? `part of ${marks(piece.part_of)}` : "",
            ]
              .filter(Boolean)
              .join(" · ")}
          </p>
          <p class="small soft">{FOUND[foundBy.value]}</p>
        </div>
        {blocked.length > 0 && <Stop job={job} blocked={blocked} />}
        {step && blocked.length === 0 && (
          <a class="button main" href={firstTap(job, pieceId, step)}>
            {step.name} <span>{progressText(job, pieceId, next.step)} ›</span>
          </a>
        )}
        <Ladder job={job} piece={pieceId} now={next.step} />
        {job.progress.piece(pieceId).repairs > 0 && <p>Repair cycle R{job.progress.piece(pieceId).repairs}</p>}
        <Notes job={job} piece={pieceId} />
        <a class="button" href={linkTo("scan")}>
          Scan another tag
        </a>
      </div>
    </Frame>
  );
}

/** Notes on the piece, the newest first, and a new one. */
function Notes({ job, piece }: { job: OpenJob; piece: string }) {
  const [text, setText] = useState<string | null>(null);
  const names = useLoaded(people, []);
  const notes = job.progress.piece(piece).records.filter((one) => isA(one, "note"));
  const keep = async () => {
    const signer = me.value;
    if (!signer || !text?.trim()) return;
    const body = { text: text.trim() };
    await added(await save(signer, job, { type: "note", piece, found_by: foundBy.value, body, under: [] }));
    wake();
    setText(null);
  };
  return (
    <>
      {notes.length > 0 && (
        <ul class="list" aria-label="Notes">
          {[...notes].reverse().map((note) => (
            <li key={note.id} class="row">
              <span class="grow">
                {(note.body as { text: string }).text}
                <br />
                <span class="small soft">
                  {names?.get(note.payload.by)?.name} · {note.payload.at.slice(0, 16).replace("T", " ")}
                </span>
              </span>
            </li>
          ))}
        </ul>
      )}
      {text === null ? (
        <button type="button" class="button" onClick={() => setText("")}>
          Write a note
        </button>
      ) : (
        <>
          <label class="field">
            Note
            <textarea value={text} onInput={(event) => setText(event.currentTarget.value)} />
          </label>
          <button type="button" class="button" disabled={!text.trim()} onClick={() => void keep()}>
            Save the note
          </button>
        </>
      )}
    </>
  );
}

/** Straight to the first open item; to the step itself where it has cautions to read or nothing left but to sign. */
function firstTap(job: OpenJob, piece: string, step: Step): string {
  const item = step.cautions?.length ? "" : nextItem({ job, piece, step });
  return item ? linkTo("item", job.id, piece, step.code, item) : linkTo("step", job.id, piece, step.code);
}

function progressText(job: OpenJob, piece: string, code: string): string {
  const items = [...job.progress.step(piece, code).items.values()].filter((item) => item.state !== "not asked");
  return `${items.filter((item) => item.state === "met").length} of ${items.length}`;
}

/** The steps in plan order, each with its state by shape and word, and who signs at it. */
function Ladder({ job, piece, now }: { job: OpenJob; piece: string; now: string }) {
  const names = useLoaded(people, []);
  const own = job.progress.piece(piece);
  return (
    <ol class="list">
      {[...own.steps].map(([code, state]) => {
        const step = job.progress.job.steps.get(code);
        const stopped = state.state !== "released" && job.progress.blocked(piece, code).length > 0;
        const shapes: Record<string, Shape> = {
          released: "in",
          complete: "waiting",
          flagged: "out",
          started: "started",
          open: "open",
        };
        const signed = [...state.signoffs].filter(([, reason]) => reason === "valid");
        const by = signed.map(([id]) => {
          const record = job.progress.records.get(id);
          return names?.get(record?.payload.by ?? "")?.name ?? record?.payload.by;
        });
        const waits = state.state === "complete" ? `waits for ${partyName(state.waiting[0] ?? "")}` : state.state;
        return (
          <li key={code}>
            <a class={code === now ? "row now" : "row"} href={linkTo("step", job.id, piece, code)}>
              <Mark shape={stopped ? "blocked" : (shapes[state.state] ?? "open")} />
              <span class="grow">
                {code === now ? <b>{step?.name}</b> : step?.name}
                <br />
                <span class="small soft">
                  {stopped ? "stopped" : waits}
                  {by.length > 0 && ` · signed by ${by.join(", ")}`}
                </span>
              </span>
              <span class="small soft">
                {step?.points.map((point) => (point.point === "sign" ? "" : point.point)).join(" ")}
              </span>
            </a>
          </li>
        );
      })}
    </ol>
  );
}
