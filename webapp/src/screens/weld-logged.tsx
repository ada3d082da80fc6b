/** A pass that was logged: its verdict, the photo of the finished pass, and the way to the next. */
import { useState } from "preact/hooks";
import type { Item } from "../core/job";
import { ADVERSE, isA, type JudgedWord } from "../core/judging";
import { IN, type Verdict } from "../core/verdict";
import { t, word } from "../language";
import { Notice } from "../parts/frame";
import { Mark } from "../parts/marks";
import { shapeOf } from "../parts/reading";
import { reasonText } from "../parts/reasons";
import { useLoaded } from "../parts/use";
import { people } from "../store/jobs";
import { PhotoError, shrink } from "../store/photos";
import { NotSavedError } from "../store/records";
import { record } from "./item";
import { bodyOf, FileButton } from "./photos";
import type { At } from "./step";

/** Whether something was saved; where it was not, every screen says so, and what was typed stays. */
export async function saved(saving: Promise<void>): Promise<boolean> {
  try {
    await saving;
    return true;
  } catch (error) {
    if (error instanceof NotSavedError) return false;
    throw error;
  }
}

interface LoggedProps {
  at: At;
  item: Item;
  id: string;
  onAnother: () => void;
}

/** What was logged, with its verdict; the photo of the finished pass, and the next pass. */
export function Logged({ at, item, id, onAnother }: LoggedProps) {
  const names = useLoaded(people, []);
  const found = at.job.progress.records.get(id);
  if (!found || !isA(found, "weld")) return null;
  const { layer, welder, stamp } = found.body;
  const name = names?.get(welder)?.name ?? welder;
  return (
    <>
      <p role="status">
        <b>{t("weld-logged", { layer: word("layer", layer), name, stamp })}</b>
      </p>
      <PassVerdict verdict={found.verdict} />
      <PassPhoto at={at} item={item} main />
      <button type="button" class="button" onClick={onAnother}>
        {t("weld-another")}
      </button>
    </>
  );
}

/** In or outside the procedure, and why; nothing where nothing was read. */
function PassVerdict({ verdict }: { verdict: Verdict<JudgedWord> }) {
  const { word: said, reason } = verdict;
  if (!ADVERSE.has(said) && said !== IN) return null;
  const shape = shapeOf(said);
  const values = { verdict: word("verdict", said), reason: reasonText(reason) };
  return (
    <div class={`verdict ${shape}`} role="status">
      <Mark shape={shape} />
      <span class="begins">{t(reason ? "measure-verdict-why" : "measure-verdict", values)}</span>
    </div>
  );
}

/** The phone's camera, for the finished pass. */
export function PassPhoto({ at, item, main }: { at: At; item: Item; main: boolean }) {
  const [says, setSays] = useState("");
  const take = async (files: readonly File[]) => {
    setSays("");
    for (const file of files) {
      try {
        const made = await shrink(file);
        await saved(record(at, item, "photo", bodyOf(made), {}, [made]));
      } catch (error) {
        if (!(error instanceof PhotoError)) throw error;
        setSays(error.message);
      }
    }
  };
  return (
    <>
      {says && <Notice kind="bad">{says}</Notice>}
      <FileButton main={main} onFiles={(files) => void take(files)}>
        {t(main ? "weld-photo" : "weld-photo-short")}
      </FileButton>
    </>
  );
}
