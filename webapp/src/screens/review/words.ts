/** What is said of a flag: its shape, its value, how far it is past its limit, and which words settle it. */
import { Decimal } from "../../core/numbers";
import { DISPOSITIONS, type Disposition } from "../../core/records";
import { FINDINGS } from "../../core/standing";
import { locale, t, word } from "../../language";
import { clockTime } from "../../parts/customs";
import type { Shape } from "../../parts/marks";
import { shownValue } from "../../parts/notation";
import type { Flag, OpenedFlag } from "./asking";

const SHAKEN = "sign-off shaken";
/** Kinds on which more is said than that they were seen: the core's findings, and a sign-off to be made anew. */
const ALL_WORDS: readonly string[] = [...FINDINGS, SHAKEN];
const STOPPED: readonly string[] = ["went past an open hold", "witness without notice", SHAKEN];
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

/** What may be said of flags of these kinds together. A sign-off that is shaken cannot be used as it is. */
export function wordsFor(kinds: readonly string[]): readonly Disposition[] {
  const words = kinds.every(isFinding) ? DISPOSITIONS : (["use as is", "rework"] as const);
  return kinds.includes(SHAKEN) ? words.filter((one) => one !== "use as is") : words;
}

/** A word about a kind of flag as it is shown. */
export function saidAbout(kind: string, what: Disposition): string {
  return saidWord(what, !isFinding(kind));
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

const sameDay = (one: Date, other: Date) => one.toDateString() === other.toDateString();

/** A time of this browser's clock, in milliseconds: `18:59`, with its day where that is not today. */
export function timeHeard(milliseconds: number, now = new Date()): string {
  const date = new Date(milliseconds);
  const day = sameDay(date, now) ? {} : ({ month: "short", day: "numeric" } as const);
  return date.toLocaleString(locale(), { ...day, hour: "numeric", minute: "2-digit" });
}

/** When something was recorded, by the clock of who did: the time alone on the day that is shown. day: ISO text. */
export function timeOn(day: string, at: string): string {
  const date = new Date(at.slice(0, 16).replace(" ", "T"));
  if (at.slice(0, 10) !== day || Number.isNaN(date.getTime())) return clockTime(at);
  return date.toLocaleTimeString(locale(), { hour: "numeric", minute: "2-digit" });
}
