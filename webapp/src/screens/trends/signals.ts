/** Where run rules fire: the newest of the signals, and how many there are at each piece. */
import { RULES, type Trend } from "./asking";

export type Signals = Pick<Trend, "signals" | "points">;

/** The places at which any rule fires, in order. */
export function firedOf({ signals }: Pick<Trend, "signals">): number[] {
  return [...new Set(Object.values(signals).flat())].sort((one, other) => one - other);
}

export interface NewestSignal {
  readonly rule: string;
  readonly at: number;
  /** How many values came after it. */
  readonly ago: number;
  readonly count: number;
  /** The pieces at which rules fire, the newest first, with how often. */
  readonly pieces: readonly (readonly [mark: string, count: number])[];
}

/** The newest signal, by the rule that says most where several fire; null where none does. */
export function newestSignal({ signals, points }: Signals): NewestSignal | null {
  const fired = firedOf({ signals });
  const at = fired.at(-1);
  const rule = RULES.find((one) => signals[one]?.includes(at ?? -1));
  if (at === undefined || rule === undefined) return null;
  const pieces = new Map<string, number>();
  for (const place of [...fired].reverse()) {
    const mark = points.mark[place] ?? "";
    pieces.set(mark, (pieces.get(mark) ?? 0) + 1);
  }
  return { rule, at, ago: points.value.length - 1 - at, count: fired.length, pieces: [...pieces] };
}

/** A piece and the place on it: `TF-2T tube 11-7`. */
export function placeOf({ mark, station }: Trend["points"], at: number): string {
  return `${mark[at] ?? ""} ${station[at] ?? ""}`.trim();
}

/** A sentence cut so that each of some texts in it is a part of its own. */
export function partsOf(sentence: string, whole: readonly string[]): string[] {
  const first = whole
    .filter((one) => one && sentence.includes(one))
    .sort((one, other) => sentence.indexOf(one) - sentence.indexOf(other))[0];
  if (first === undefined) return sentence ? [sentence] : [];
  const at = sentence.indexOf(first);
  const before = at > 0 ? [sentence.slice(0, at)] : [];
  return [...before, first, ...partsOf(sentence.slice(at + first.length), whole)];
}
