/** A reading that is out, recorded as it was found: a photo and a note are asked for, and there are plain ways on. */
import { useState } from "preact/hooks";
import type { Item } from "../core/job";
import type { Why } from "../core/records";
import { OUT } from "../core/verdict";
import { t, word } from "../language";
import { mine } from "../screens/item";
import type { At } from "../screens/step";
import { foundBy, me } from "../state";
import { added } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";
import { Mark } from "./marks";
import { reasonsAgain } from "./why-again";

export interface Found {
  readonly station: string;
  readonly verdict: string;
}

interface OnwardProps {
  at: At;
  item: Item;
  found: Found;
  /** What was saved, in words. */
  saved: string;
  onAgain: (why: Why) => void;
  onLeave: () => void;
}

export function Onward({ at, item, found, saved, onAgain, onLeave }: OnwardProps) {
  const { station, verdict } = found;
  const before = mine(at, item, station) ?? "";
  const missing = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.photoMissing ?? false;
  const shape = verdict === OUT ? "out" : "close";
  return (
    <section class="onward">
      <div class={`verdict ${shape}`} role="status">
        <Mark shape={shape} />
        <div>
          <h2 class="begins">{word("verdict", verdict)}</h2>
          <p class="small">{saved}</p>
        </div>
      </div>
      {missing && <p>{t("onward-photo")}</p>}
      <h2>{t("onward-another")}</h2>
      {reasonsAgain(at, before).map(([why, label]) => (
        <button key={why} type="button" class="button way" onClick={() => onAgain(why)}>
          {label} <span>›</span>
        </button>
      ))}
      <button type="button" class="button way leave" onClick={onLeave}>
        <span>
          {t("onward-leave")}
          <br />
          <span class="small">{t("onward-leave-says")}</span>
        </span>
        <span>›</span>
      </button>
      <NoteOfFinding at={at} item={item} station={station} />
    </section>
  );
}

/** A note at the place of the finding. */
function NoteOfFinding({ at, item, station }: Pick<OnwardProps, "at" | "item"> & { station: string }) {
  const [text, setText] = useState<string | null>(null);
  const [saved, setSaved] = useState(false);
  const keep = async () => {
    const signer = me.value;
    if (!signer || !text?.trim()) return;
    const place = { piece: at.piece, step: at.step.code, item: item.code, ...(station ? { station } : {}) };
    const note = { type: "note" as const, ...place, found_by: foundBy.value, body: { text: text.trim() } };
    await added(await save(signer, at.job, note));
    setSaved(true);
    wake();
  };
  if (saved) return <p class="small">{t("onward-note-saved")}</p>;
  if (text === null) {
    return (
      <button type="button" class="button" onClick={() => setText("")}>
        {t("notes-write")}
      </button>
    );
  }
  return (
    <>
      <label class="field">
        {t("onward-note")}
        <textarea value={text} onInput={(event) => setText(event.currentTarget.value)} />
      </label>
      <button type="button" class="button" disabled={!text.trim()} onClick={() => void keep()}>
        {t("onward-note-save")}
      </button>
    </>
  );
}
