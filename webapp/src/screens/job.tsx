/** A job: its pieces by mark, with search; where each stands. */
import { useState } from "preact/hooks";
import type { Piece } from "../core/job";
import { t } from "../language";
import { Frame, Notice } from "../parts/frame";
import { Mark, type Shape } from "../parts/marks";
import { partyName } from "../parts/parties";
import { useJob, useLoaded } from "../parts/use";
import { fitting } from "../scan/marks";
import { foundBy, linkTo } from "../state";
import { drawingsOf } from "../store/drawings";
import { changes, type OpenJob } from "../store/jobs";

/** So many rows at a time: a job may have thousands of pieces, and a phone draws a screen of them at once. */
const SHOWN = 60;

/** The shape of a piece's next step, and its words. */
export function nextOf(job: OpenJob, piece: string): { shape: Shape; words: string; step: string } {
  const { progress } = job;
  for (const [code, state] of progress.piece(piece).steps) {
    if (state.state === "released") continue;
    const about = progress.job.steps.get(code);
    const step = `${about?.number ?? ""} ${about?.name ?? code}`;
    if (progress.blocked(piece, code).length > 0) {
      return { shape: "blocked", words: t("job-next-stopped", { step }), step: code };
    }
    if (state.state === "flagged") return { shape: "out", words: t("job-next-flagged", { step }), step: code };
    if (state.state === "complete") {
      const party = partyName(state.waiting[0] ?? "");
      return { shape: "waiting", words: t("job-next-waits", { step, party }), step: code };
    }
    return { shape: state.state === "started" ? "started" : "open", words: step, step: code };
  }
  const asked = progress.piece(piece).steps.size > 0;
  return { shape: asked ? "in" : "open", words: t(asked ? "job-released" : "job-of-parts"), step: "" };
}

/** board: the list was opened by the code of the job's tag board, and what is picked was found by it. */
export function JobScreen({ id, board = false }: { id: string; board?: boolean }) {
  const job = useJob(id);
  const drawings = useLoaded(() => drawingsOf(id), [id, changes.value]);
  if (job === undefined) return null;
  if (job === null) {
    return (
      <Frame>
        <div class="body">
          <Notice kind="bad">{t("job-not-here", { job: id })}</Notice>
        </div>
      </Frame>
    );
  }
  return (
    <Frame>
      <div class="body">
        <div>
          <h1>{t("job-title", { job: job.id })}</h1>
          <p class="soft">{job.title}</p>
          {board && <p class="small soft">{t("job-board")}</p>}
        </div>
        {drawings && drawings.length > 0 && (
          <a class="button" href={linkTo("map", job.id)}>
            {t("map-open")}
          </a>
        )}
        <Marks job={job} how={board ? "board" : "list"} />
      </div>
    </Frame>
  );
}

function Marks({ job, how }: { job: OpenJob; how: "board" | "list" }) {
  const [typed, setTyped] = useState("");
  const [shown, setShown] = useState(SHOWN);
  const all = [...job.progress.job.pieces.values()];
  const found = fitting(typed, all, (piece) => [piece.mark, `${piece.name ?? ""} ${piece.kind}`]);
  return (
    <>
      <label class="field">
        {t("job-field")}
        <input
          type="search"
          autocomplete="off"
          value={typed}
          onInput={(event) => {
            setTyped(event.currentTarget.value);
            setShown(SHOWN);
          }}
        />
      </label>
      <p class="small soft" role="status">
        {found.length === 0 ? t("job-none-fits", { typed }) : t("job-count", { count: found.length })}
      </p>
      <ul class="list">
        {found.slice(0, shown).map((piece) => (
          <Row key={piece.id} job={job} piece={piece} how={how} />
        ))}
      </ul>
      {found.length > shown && (
        <button type="button" class="button" onClick={() => setShown(shown + SHOWN)}>
          {t("job-more", { count: Math.min(SHOWN, found.length - shown) })}
        </button>
      )}
    </>
  );
}

export function Row({ job, piece, how }: { job: OpenJob; piece: Piece; how: "board" | "list" }) {
  const next = nextOf(job, piece.id);
  return (
    <li>
      <a
        class="row"
        href={linkTo("piece", job.id, piece.id)}
        onClick={() => {
          foundBy.value = how;
        }}
      >
        <Mark shape={next.shape} />
        <span class="grow">
          <b>{piece.mark}</b> {piece.name}
          <br />
          <span class="small soft">{next.words}</span>
        </span>
      </a>
    </li>
  );
}
