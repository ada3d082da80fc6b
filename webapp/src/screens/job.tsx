/** A job: its pieces by mark, with search; where each stands. */
import { useState } from "preact/hooks";
import { Frame, Notice } from "../parts/frame";
import { Mark, type Shape } from "../parts/marks";
import { useJob } from "../parts/use";
import { foundBy, linkTo } from "../state";
import type { OpenJob } from "../store/jobs";

/** The shape of a piece's next step, and its words. */
export function nextOf(job: OpenJob, piece: string): { shape: Shape; words: string; step: string } {
  const { progress } = job;
  for (const [code, state] of progress.piece(piece).steps) {
    if (state.state === "released") continue;
    const step = progress.job.steps.get(code);
    const name = `${step?.number ?? ""} ${step?.name ?? code}`;
    if (progress.blocked(piece, code).length > 0) return { shape: "blocked", words: `${name} · stopped`, step: code };
    if (state.state === "flagged") return { shape: "out", words: `${name} · out of tolerance`, step: code };
    if (state.state === "complete")
      return { shape: "waiting", words: `${name} · waits for ${state.waiting[0]}`, step: code };
    return { shape: state.state === "started" ? "started" : "open", words: name, step: code };
  }
  const asked = progress.piece(piece).steps.size > 0;
  return { shape: asked ? "in" : "open", words: asked ? "released" : "finished when its parts are", step: "" };
}

export function JobScreen({ id }: { id: string }) {
  const job = useJob(id);
  const [search, setSearch] = useState("");
  if (job === undefined) return null;
  if (job === null) {
    return (
      <Frame>
        <div class="body">
          <Notice kind="bad">Job {id} is not on this phone. Connect once to fetch it.</Notice>
        </div>
      </Frame>
    );
  }
  const wanted = search.trim().toLowerCase();
  const pieces = [...job.progress.job.pieces.values()].filter((piece) =>
    `${piece.mark} ${piece.name} ${piece.kind}`.toLowerCase().includes(wanted),
  );
  return (
    <Frame>
      <div class="body">
        <div>
          <h1>Job {job.id}</h1>
          <p class="soft">{job.title}</p>
        </div>
        <label class="field">
          Mark or name
          <input type="search" value={search} onInput={(event) => setSearch(event.currentTarget.value)} />
        </label>
        {pieces.length === 0 && <Notice>No mark of this job fits '{search}'. Type less of it.</Notice>}
        <ul class="list">
          {pieces.map((piece) => {
            const next = nextOf(job, piece.id);
            return (
              <li key={piece.id}>
                <a
                  class="row"
                  href={linkTo("piece", job.id, piece.id)}
                  onClick={() => {
                    foundBy.value = "list";
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
          })}
        </ul>
      </div>
    </Frame>
  );
}
