/** Notes on a piece: those for the next shift stay on top until somebody clears them. */
import { useState } from "preact/hooks";
import { isA, type Judged } from "../core/judging";
import { t } from "../language";
import { clockTime } from "../parts/customs";
import { useLoaded } from "../parts/use";
import { foundBy, me } from "../state";
import { added, type OpenJob, people } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";

interface Here {
  job: OpenJob;
  piece: string;
}

type Note = Judged<"note">;

async function keep({ job, piece }: Here, body: Note["body"]): Promise<void> {
  const signer = me.value;
  if (!signer) return;
  await added(await save(signer, job, { type: "note", piece, found_by: foundBy.value, body, under: [] }));
  wake();
}

/** What the last shift left to say. */
export function PassedOn(here: Here) {
  const notes = here.job.progress.piece(here.piece).passedOn;
  if (notes.length === 0) return null;
  return (
    <ul class="list passed-on" aria-label={t("notes-for-shift")}>
      {notes.map((note) => (
        <li key={note.id} class="row">
          <NoteText note={note} />
          <button type="button" class="link" onClick={() => void keep(here, { text: "Seen", clears: note.id })}>
            {t("notes-clear")}
          </button>
        </li>
      ))}
    </ul>
  );
}

function NoteText({ note }: { note: Note }) {
  const names = useLoaded(people, []);
  const name = names?.get(note.payload.by)?.name ?? note.payload.by;
  return (
    <span class="grow">
      {note.body.text}
      <br />
      <span class="small soft">{t("notes-by", { name, at: clockTime(note.payload.at) })}</span>
    </span>
  );
}

/** All notes, the newest first, and a new one. */
export function Notes(here: Here) {
  const [text, setText] = useState<string | null>(null);
  const [passOn, setPassOn] = useState(false);
  const own = here.job.progress.piece(here.piece);
  const notes = own.records.filter((one) => isA(one, "note")).filter((note) => !note.body.clears);
  const saveIt = async () => {
    if (!text?.trim()) return;
    await keep(here, { text: text.trim(), ...(passOn ? { pass_on: true } : {}) });
    setText(null);
    setPassOn(false);
  };
  return (
    <>
      {notes.length > 0 && (
        <ul class="list" aria-label={t("notes")}>
          {[...notes].reverse().map((note) => (
            <li key={note.id} class="row">
              <NoteText note={note} />
            </li>
          ))}
        </ul>
      )}
      {text === null ? (
        <button type="button" class="button" onClick={() => setText("")}>
          {t("notes-write")}
        </button>
      ) : (
        <>
          <label class="field">
            {t("notes-note")}
            <textarea value={text} onInput={(event) => setText(event.currentTarget.value)} />
          </label>
          <label class="check">
            <input type="checkbox" checked={passOn} onInput={(event) => setPassOn(event.currentTarget.checked)} />
            {t("notes-keep-on-top")}
          </label>
          <button type="button" class="button" disabled={!text.trim()} onClick={() => void saveIt()}>
            {t("notes-save")}
          </button>
        </>
      )}
    </>
  );
}
