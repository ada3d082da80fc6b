/** What is said of a flag: its shape, its value, how far it is past its limit, and which words settle it. */
import { Decimal } from "../../core/numbers";
import { DISPOSITIONS, type Disposition } from "../../core/records";
import { FINDINGS } from "../../core/standing";
import { locale, t, word } from "../../language";
import type { Shape } from "../../parts/marks";
import { shownValue } from "../../parts/notation";
import type { Flag, OpenedFlag } from "./asking";

/** Kinds on which all four words are said: the core's findings, and a sign-off that has to be made anew. */
const ALL_WORDS: readonly string[] = [...FINDINGS, "sign-off shaken"];
const STOPPED: readonly string[] = ["went past an open hold", "witness without notice", "sign-off shaken"];
const BAD: readonly string[] = ["out of tolerance", "rejected", "phone shut out", "chain fork"];

/** Each word by the key that chooses it. */
export const KEYS: readonly (readonly [string, Disposition])[] = [
  ["1", "rework"],
  ["2", "repair"],
  ["3", "use as is"],
  ["4", "scrap"],
];

export function isFinding(kind: string): boolean {
  return ALL_WORDS.includes(kind);
}

/** What may be said of flags of these kinds together. */
export function wordsFor(kinds: readonly string[]): readonly Disposition[] {
  return kinds.every(isFinding) ? DISPOSITIONS : ["use as is", "rework"];
}

/** A word as it is shown: of a doubt that it was seen, or is done again. */
export function saidWord(what: Disposition, doubt: boolean): string {
  return doubt ? word("seen", what) : word("disposition", what);
}

export function shapeOf(kind: string): Shape {
  if (BAD.includes(kind)) return "out";
  return STOPPED.includes(kind) ? "blocked" : "close";
}

/** The limits of a flag as core carries them. */
export function limitsOf(flag: Pick<Flag, "limits">) {
  const side = (text: string | null | undefined) => (text ? new Decimal(text) : null);
  return { lower: side(flag.limits?.lower), upper: side(flag.limits?.upper), reason: "" };
}

export function valueText({ value, uom }: { value?: string | null; uom?: string | null }): string {
  return value ? `${shownValue(new Decimal(value), uom ?? "")} ${uom ?? ""}`.trim() : "";
}

/** Where it is, as one name: `C-2 9 o'clock, water leg`. */
export function placeText(flag: Pick<Flag, "piece" | "station" | "item" | "step">): string {
  return [`${flag.piece.mark} ${flag.station}`.trim(), flag.item.name || flag.step.name].filter(Boolean).join(", ");
}

/** How far past the limit: in the item's uom, and in parts of the tolerance or of what stands for it; '' where inside. */
export function pastText(flag: Flag & Partial<Pick<OpenedFlag, "gauge">>): string {
  const margin = flag.margin ? new Decimal(flag.margin) : null;
  if (!margin?.isNegative() || flag.past === null) return "";
  const uncertain = flag.gauge?.uncertainty ? "gauge" : "limit";
  const unit = flag.limits?.lower && flag.limits.upper ? "tolerance" : uncertain;
  const times = flag.past >= 1;
  const share = flag.past.toLocaleString(locale(), {
    maximumFractionDigits: times ? 1 : 0,
    style: times ? "decimal" : "percent",
  });
  const past = { margin: shownValue(margin.abs(), flag.uom), uom: flag.uom, share };
  return t(`review-past-${unit}-${times ? "times" : "part"}`, past);
}

/** Seconds as days, hours or minutes, the largest that fits. */
function inUnits(seconds: number): [number, "day" | "hour" | "minute"] {
  const size = Math.abs(seconds);
  if (size >= 86_400) return [Math.floor(size / 86_400), "day"];
  return size >= 3600 ? [Math.floor(size / 3600), "hour"] : [Math.floor(size / 60), "minute"];
}

/** How long a time is: '3 days', '5 hours'. */
export function lengthText(seconds: number): string {
  const [count, unit] = inUnits(seconds);
  return count.toLocaleString(locale(), { style: "unit", unit, unitDisplay: "long" });
}

/** How long ago a Unix second is, or how long it is until then: '3 days ago', 'in 5 hours'. */
export function fromNow(second: number): string {
  const away = second - Date.now() / 1000;
  const [count, unit] = inUnits(away);
  return new Intl.RelativeTimeFormat(locale()).format(away < 0 ? -count : count, unit);
}

/** Whole days since a Unix second. */
export function daysSince(second: number): number {
  return Math.max(0, Math.floor((Date.now() / 1000 - second) / 86_400));
}
