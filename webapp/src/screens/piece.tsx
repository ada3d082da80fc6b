import type { Step } from "../core/job";
import { Frame, Notice } from "../parts/frame";
import { Mark, type Shape } from "../parts/marks";
import { partyName } from "../parts/parties";
import { Stop } from "../parts/stop";
import { useJob, useLoaded } from "../parts/use";
import { foundBy, linkTo } from "../state";
import { type OpenJob, people } from "../store/jobs";
import { nextItem } from "./item";
import { nextOf } from "./job";
import { Notes, PassedOn } from "./notes";
import { TagLine } from "./tagging";

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
        <PassedOn job={job} piece={pieceId} />
        {blocked.length > 0 && <Stop job={job} blocked={blocked} />}
        {step && blocked.length === 0 && (
          <a class="button main" href={firstTap(job, pieceId, step)}>
            {step.name} <span>{progressText(job, pieceId, next.step)} ›</span>
          </a>
        )}
        <Ladder job={job} piece={pieceId} now={next.step} />
        {job.progress.piece(pieceId).repairs > 0 && <p>Repair cycle R{job.progress.piece(pieceId).repairs}</p>}
        <NotCounted job={job} piece={pieceId} />
        <TagLine job={job} piece={pieceId} />
        <Notes job={job} piece={pieceId} />
        <a class="button" href={linkTo("scan")}>
          Scan another tag
        </a>
      </div>
    </Frame>
  );
}

/** Records that are here but do not count: the server would not have them, or was restored and has them no more. */
function NotCounted({ job, piece }: { job: OpenJob; piece: string }) {
  const here = [...job.records.values()].filter((record) => record.piece === piece);
  const [refused, missing] = ["not taken in", "missing"].map(
    (state) => here.filter((record) => record.state === state).length,
  );
  if (!refused && !missing) return null;
  return (
    <Notice kind="care">
      {refused ? <p>Not taken in by the server, and not counted: {refused}.</p> : null}
      {missing ? <p>Not on the server any more since it was restored, and not counted: {missing}.</p> : null}
      <a class="button" href={linkTo("unsent")}>
        See which, and why
      </a>
    </Notice>
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
