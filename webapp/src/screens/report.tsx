/** An outside report: asked for, or in with its number, firm, person, result and photographed pages. */
import { useState } from "preact/hooks";
import { isA } from "../core/judging";
import type { Bodies, Result, Why } from "../core/records";
import { t } from "../language";
import { clockTime } from "../parts/customs";
import { tell } from "../parts/feedback";
import { Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { WhyAgain } from "../parts/why-again";
import { people } from "../store/jobs";
import { NotSavedError } from "../store/records";
import { type EntryProps, mine, record, whyAgain } from "./item";
import { photosAt } from "./photos";
import { ResultKey } from "./visual";

const FIELDS = ["number", "firm", "person", "level"] as const;
type Field = (typeof FIELDS)[number];
type Words = Partial<Record<Field, string>>;

export function ReportEntry({ at, item, onDone }: EntryProps) {
  const before = mine(at, item, "");
  const newest = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.inForce.get("")?.at(-1);
  const last = at.job.progress.records.get(before ?? newest ?? "");
  const known = last && isA(last, "report") ? last.body : null;
  const [typed, setTyped] = useState<Words>({});
  const [why, setWhy] = useState<Why | "">("");
  const words: Words = { ...wordsOf(known), ...typed };
  const pages = photosAt(at, item.code).map((photo) => photo.sha256);
  const wasIn = known?.state === "in";
  const ready = Boolean(words.number?.trim()) && (!wasIn || !before || why !== "");
  const keep = async (result: Result | null) => {
    const body: Bodies["report"] = {
      kind: item.name ?? item.code,
      state: result ? "in" : "asked for",
      ...wordsOf(words),
      ...(result ? { result } : {}),
      ...(result && pages.length > 0 ? { pages } : {}),
    };
    const again = before ? { replaces: before, why: why || whyAgain(at, before) } : {};
    try {
      await record(at, item, "report", body, again);
    } catch (error) {
      if (error instanceof NotSavedError) return;
      throw error;
    }
    tell(result === "reject" ? "bad" : "good");
    setTyped({});
    setWhy("");
    const asked = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.photoMissing;
    if (result !== "reject" && !asked) onDone();
  };
  return (
    <>
      {item.where && <p>{item.where}</p>}
      {last && known && <Before by={last.payload.by} when={last.payload.at} state={known.state} />}
      {wasIn && before && <WhyAgain at={at} before={before} why={why} onWhy={setWhy} />}
      {FIELDS.map((name) => (
        <label key={name} class="field">
          {t(`report-${name}`)}
          <input
            autocapitalize={name === "number" ? "characters" : "words"}
            autocomplete="off"
            value={words[name] ?? ""}
            onInput={(event) => setTyped({ ...typed, [name]: event.currentTarget.value })}
          />
        </label>
      ))}
      <p class="small soft">{t("report-pages", { count: pages.length })}</p>
      <h2>{t("report-in")}</h2>
      <div class="results">
        <ResultKey result="accept" disabled={!ready} onPress={() => void keep("accept")} />
        <ResultKey result="reject" disabled={!ready} onPress={() => void keep("reject")} />
      </div>
      {!words.number?.trim() && <p class="small soft">{t("report-number-first")}</p>}
      {!wasIn && (
        <button type="button" class="button" disabled={known?.state === "asked for"} onClick={() => void keep(null)}>
          {t("report-asked-for")}
        </button>
      )}
    </>
  );
}

/** What a report says in words, without what was left empty. */
function wordsOf(body: Partial<Record<Field, string | null>> | null): Words {
  const filled = FIELDS.map((name) => [name, body?.[name]?.trim()]).filter(([, value]) => value);
  return Object.fromEntries(filled);
}

interface BeforeProps {
  by: string;
  when: string;
  state: string;
}

/** What was recorded last. */
function Before({ by, when, state }: BeforeProps) {
  const names = useLoaded(people, []);
  const values = { name: names?.get(by)?.name ?? by, at: clockTime(when) };
  return <Notice>{state === "in" ? t("report-was-in", values) : t("report-was-asked-for", values)}</Notice>;
}
