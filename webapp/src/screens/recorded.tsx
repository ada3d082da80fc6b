/** What was recorded on an item, as found and as left; what was replaced or made void is lined out. */
import { useState } from "preact/hooks";
import type { Item } from "../core/job";
import type { Judged } from "../core/judging";
import { t, word } from "../language";
import { reasonText } from "../parts/reasons";
import { foundBy, me } from "../state";
import { added } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";
import type { At } from "./step";

/** What a record says in its own figures or words: `9/32 in`, `accept`, `root W7`. */
export function saysOf({ type, body }: Judged): string {
  const says = body as Record<string, string | null | undefined>;
  switch (type) {
    case "reading":
      return says.uom ? `${says.entered} ${says.uom}` : (says.entered ?? "");
    case "visual":
      return word("result", says.result ?? "");
    case "weld":
      return t("recorded-weld", { layer: word("layer", says.layer ?? ""), stamp: says.stamp ?? "" });
    case "report":
      return says.number ?? word("report-state", says.state ?? "");
    case "photo":
      return word("type", "photo");
    case "disposition":
      return word("disposition", says.disposition ?? "");
    default:
      return says.value ?? says.text ?? says.reason ?? "";
  }
}

export function Recorded({ at, item }: { at: At; item: Item }) {
  const own = at.job.progress.piece(at.piece);
  const here = own.records.filter(
    (one) => one.place.step === at.step.code && one.place.item === item.code && one.type !== "photo",
  );
  if (here.length === 0) return null;
  return (
    <ul class="list" aria-label={t("recorded")}>
      {here.map((one) => (
        <RecordedLine key={one.id} at={at} one={one} />
      ))}
    </ul>
  );
}

function RecordedLine({ at, one }: { at: At; one: Judged }) {
  const [voiding, setVoiding] = useState(false);
  const { entered, uom, note } = one.body as { entered?: string; uom?: string; note?: string };
  const says = entered ?? saysOf(one);
  const standing = at.job.progress.piece(at.piece).standing.of(one);
  const stored = at.job.records.get(one.id);
  const { verdict, payload, place } = one;
  const more = [
    word("verdict", verdict.word),
    reasonText(verdict.reason ?? ""),
    payload.why && word("why", payload.why),
    standing !== "in force" && word("standing", standing),
    note,
    reachOf(stored?.state, stored?.verdict),
  ];
  const mayVoid = standing === "in force" && payload.by === me.value?.person;
  return (
    <li>
      <div class="row">
        <span class="grow">
          <span class={standing === "in force" ? "" : "lined-out"}>
            {place.station && `${place.station}: `}
            <b>{says}</b> {uom}
          </span>
          <br />
          <span class="small soft">{more.filter(Boolean).join(" · ")}</span>
        </span>
        {mayVoid && !voiding && (
          <button type="button" class="station" onClick={() => setVoiding(true)}>
            {t("recorded-line-out")}
          </button>
        )}
      </div>
      {voiding && mayVoid && <VoidForm at={at} id={one.id} says={says} />}
    </li>
  );
}

/** A void is final: what it lines out stays legible, and is recorded anew where it was wrong. */
function VoidForm({ at, id, says }: { at: At; id: string; says: string }) {
  const [reason, setReason] = useState("");
  const lineOut = async () => {
    const signer = me.value;
    if (!signer) return;
    const body = { record: id, reason: reason.trim() };
    await added(
      await save(signer, at.job, { type: "void", piece: at.piece, found_by: foundBy.value, body, under: [] }),
    );
    wake();
  };
  return (
    <>
      <label class="field">
        {t("recorded-why-void", { says })}
        <textarea value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
      </label>
      <button type="button" class="button" disabled={reason.trim().length < 3} onClick={() => void lineOut()}>
        {t("recorded-void")}
      </button>
    </>
  );
}

/** How far a record got: saved here, received, judged. */
function reachOf(state: string | undefined, verdict: string | undefined): string {
  if (state === "received") return verdict ? t("recorded-judged") : t("recorded-received");
  return state === "not taken in" ? t("recorded-not-taken-in") : t("recorded-saved");
}
