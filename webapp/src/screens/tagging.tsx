/** Where a piece's tag is: put on, taken off for heat or blast, back on, gone inside. */
import { useState } from "preact/hooks";
import type { Tagging } from "../core/records";
import { foundBy, me } from "../state";
import { added, type OpenJob } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";

const NEXT: Readonly<Record<string, readonly Tagging[]>> = {
  "": ["put on"],
  "put on": ["taken off", "gone inside"],
  "taken off": ["back on", "gone inside"],
  "back on": ["taken off", "gone inside"],
  "gone inside": [],
  replaced: ["taken off", "gone inside"],
};
const WHY_OFF = ["heat", "blast"] as const;

/** The code on a piece's tag; '' where it has none. */
export function codeOf(job: OpenJob, piece: string): string {
  return [...job.tags].find(([, tagged]) => tagged === piece)?.[0] ?? "";
}

export function TagLine({ job, piece }: { job: OpenJob; piece: string }) {
  const [asking, setAsking] = useState(false);
  const last = job.progress.piece(piece).tagging;
  const code = codeOf(job, piece);
  const state = last?.body.what ?? "";
  const next = NEXT[state] ?? [];
  const keep = async (what: Tagging, why = "") => {
    const signer = me.value;
    if (!signer) return;
    const body = { code, what, ...(why ? { why } : {}) };
    await added(await save(signer, job, { type: "tagging", piece, found_by: foundBy.value, body, under: [] }));
    wake();
    setAsking(false);
  };
  if (!code) return <p class="small soft">No tag was drawn for this piece.</p>;
  const words = state ? `${state}${last?.body.why ? ` for ${last.body.why}` : ""}` : "not put on yet";
  if (!asking || next.length === 0) {
    return (
      <p class="row plain">
        <span class="grow small">
          Tag <b>{code}</b> · {words}
        </span>
        {next.length > 0 && (
          <button type="button" class="link" onClick={() => setAsking(true)}>
            Change
          </button>
        )}
      </p>
    );
  }
  return (
    <fieldset class="choices">
      <legend>
        Tag {code}, {words}. What is done with it?
      </legend>
      {next.map((what) =>
        what === "taken off" ? (
          WHY_OFF.map((why) => (
            <button key={why} type="button" class="button" onClick={() => void keep(what, why)}>
              Taken off for {why}
            </button>
          ))
        ) : (
          <button key={what} type="button" class="button" onClick={() => void keep(what)}>
            {what.charAt(0).toUpperCase() + what.slice(1)}
          </button>
        ),
      )}
      <button type="button" class="button" onClick={() => setAsking(false)}>
        Leave it
      </button>
    </fieldset>
  );
}
