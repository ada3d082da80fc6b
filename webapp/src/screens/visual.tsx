/** A check by eye: accepted, rejected with a note and a photo, or not applying where the plan allows it. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { Item } from "../core/job";
import { isA } from "../core/judging";
import type { Result, Why } from "../core/records";
import { t } from "../language";
import { tell } from "../parts/feedback";
import { Notice } from "../parts/frame";
import { Mark } from "../parts/marks";
import { WhyAgain } from "../parts/why-again";
import { NotSavedError } from "../store/records";
import { type EntryProps, mine, nextStation, record } from "./item";
import type { At } from "./step";

const LEAST_NOTE = 3;

/** Whether what is in force at an item was rejected by eye. */
export function isRejected(at: At, item: Item): boolean {
  const stations = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.inForce ?? new Map();
  const found = [...stations.values()].map((ids: readonly string[]) => at.job.progress.records.get(ids.at(-1) ?? ""));
  return found.some((one) => one && isA(one, "visual") && one.body.result === "reject");
}

export function VisualEntry({ at, item, onDone }: EntryProps) {
  const [note, setNote] = useState("");
  const [why, setWhy] = useState<Why | "">("");
  const [rejecting, setRejecting] = useState(false);
  const [station, setStation] = useState(nextStation(at, item));
  const [found, setFound] = useState(false);
  const before = mine(at, item, station);
  const ready = !before || why !== "";
  const say = async (result: Result) => {
    const body = note.trim() ? { result, note: note.trim() } : { result };
    try {
      await record(at, item, "visual", body, { station, ...(before && why ? { replaces: before, why } : {}) });
    } catch (error) {
      // Every screen says it; what was written stays in the field.
      if (error instanceof NotSavedError) return;
      throw error;
    }
    tell(result === "reject" ? "bad" : "good");
    setNote("");
    setWhy("");
    setRejecting(false);
    setFound(result === "reject");
    const next = nextStation(at, item);
    const asked = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.photoMissing;
    if (result === "reject") return;
    setStation(next);
    if (!next && !asked) onDone();
  };
  return (
    <>
      {item.where && <p>{item.where}</p>}
      {station && <p>{t("visual-at", { station })}</p>}
      {found && <Rejected onLeave={onDone} />}
      {before && <WhyAgain at={at} before={before} why={why} onWhy={setWhy} />}
      {!ready ? null : rejecting ? (
        <WhatIsWrong
          note={note}
          onNote={setNote}
          onReject={() => void say("reject")}
          onBack={() => setRejecting(false)}
        />
      ) : (
        <>
          <Results item={item} onSay={(result) => (result === "reject" ? setRejecting(true) : void say(result))} />
          <label class="field">
            {t("visual-note")}
            <textarea value={note} onInput={(event) => setNote(event.currentTarget.value)} />
          </label>
        </>
      )}
    </>
  );
}

interface ResultsProps {
  item: Item;
  onSay: (result: Result) => void;
}

function Results({ item, onSay }: ResultsProps) {
  return (
    <div class="results">
      <ResultKey result="accept" onPress={() => onSay("accept")} />
      <ResultKey result="reject" onPress={() => onSay("reject")} />
      {item.may_not_apply && <ResultKey result="does not apply" onPress={() => onSay("does not apply")} />}
    </div>
  );
}

const SAID: Record<Result, string> = {
  accept: "visual-accept",
  reject: "visual-reject",
  "does not apply": "visual-does-not-apply",
};

/** A large key for a result: its shape and its word. The word alone is read out. */
export function ResultKey({
  result,
  disabled = false,
  onPress,
}: {
  result: Result;
  disabled?: boolean;
  onPress: () => void;
}) {
  return (
    <button type="button" class="button result" disabled={disabled} onClick={onPress}>
      <span class="shape" aria-hidden="true">
        {result === "does not apply" ? <NoShape /> : <Mark shape={result === "accept" ? "in" : "out"} />}
      </span>
      {t(SAID[result])}
    </button>
  );
}

function NoShape() {
  return (
    <svg class="mark-shape" viewBox="0 0 32 32" aria-hidden="true">
      <path d="M4 16h24" stroke="var(--ink)" stroke-width="4" />
    </svg>
  );
}

interface WhatIsWrongProps {
  note: string;
  onNote: (note: string) => void;
  onReject: () => void;
  onBack: () => void;
}

function WhatIsWrong({ note, onNote, onReject, onBack }: WhatIsWrongProps) {
  const field = useRef<HTMLTextAreaElement>(null);
  useEffect(() => field.current?.focus(), []);
  return (
    <form
      class="body bare tight"
      onSubmit={(event) => {
        event.preventDefault();
        onReject();
      }}
    >
      <label class="field">
        {t("visual-what-is-wrong")}
        <textarea ref={field} value={note} onInput={(event) => onNote(event.currentTarget.value)} />
      </label>
      <button type="submit" class="button main" disabled={note.trim().length < LEAST_NOTE}>
        {t("visual-save-rejected")} <span aria-hidden="true">›</span>
      </button>
      <button type="button" class="button" onClick={onBack}>
        {t("visual-not-rejected")}
      </button>
    </form>
  );
}

/** Recorded as found: the photo is asked for below, and the ways on stand beneath. */
function Rejected({ onLeave }: { onLeave: () => void }) {
  return (
    <Notice kind="care">
      <p>
        <b>{t("visual-rejected")}</b> {t("visual-rejected-next")}
      </p>
      <button type="button" class="button" onClick={onLeave}>
        {t("visual-leave")}
      </button>
    </Notice>
  );
}
