/** One reading against its limits and its gauge. */

import { type Limits, tolerance } from "./limits";
import { Decimal, Quotient } from "./numbers";
import { type Conversion, SAME } from "./uoms";

export const IN = "in tolerance";
export const OUT = "out of tolerance";
export const CLOSE = "too close to call";
export const UNJUDGED = "unjudged";
export const RECORDED = "recorded";

export type Word = typeof IN | typeof OUT | typeof CLOSE | typeof UNJUDGED | typeof RECORDED;

/** How far from good each verdict is, to tell when judging anew made one worse. */
export const WORSE: Readonly<Record<Word, number>> = { [IN]: 0, [RECORDED]: 0, [CLOSE]: 1, [UNJUDGED]: 2, [OUT]: 3 };

const [ONE, TWO, FOUR, EIGHT] = [new Decimal(1), new Decimal(2), new Decimal(4), new Decimal(8)];

/** What a gauge's certificate says: expanded uncertainty U (k = 2), if known, and its way to the item's uom. */
export class Gauge {
  constructor(
    readonly uncertainty: Decimal | null,
    readonly conversion: Conversion = SAME,
  ) {}

  /** U in the item's uom, not yet divided. */
  quotient(): Quotient | null {
    return this.uncertainty === null ? null : this.conversion.ofInterval(this.uncertainty);
  }
}

/**
 * word: the verdict. margin: distance to the nearer limit in the item's uom, negative when past it.
 *
 * Either may lack: an item with no limits is 'recorded', one whose limit is not known 'unjudged' with its reason.
 * probability: of conformance, a plain number for show, null where U is not known.
 */
export interface Verdict<W extends string = Word> {
  readonly word: W;
  readonly margin: Decimal | null;
  readonly reason: string;
  readonly probability: number | null;
}

/** A verdict without a measured value behind it. */
export function bare<W extends string>(word: W, reason = ""): Verdict<W> {
  return { word, margin: null, reason, probability: null };
}

/**
 * The verdict on a value.
 *
 * rule: 'simple' compares; 'guarded' asks to be inside by U to be in, outside by U to be out (ISO 14253-1, JCGM 106).
 * place: round the value to this place first (ASTM E29 rounding method), e.g. 0.01; null compares as typed.
 * conversion: from the uom of the value to that of the limits. Value and limit are compared by cross-multiplying.
 */
export function judge(
  value: Decimal,
  limits: Limits,
  gauge: Gauge | null = null,
  rule = "simple",
  place: Decimal | null = null,
  conversion: Conversion = SAME,
): Verdict {
  if (limits.reason) return bare(UNJUDGED, limits.reason);
  const compared = place === null ? conversion.of(value) : new Quotient(rounded(value, place, conversion), ONE);
  const sides = sidesOf(compared, limits);
  if (sides === null) return bare(RECORDED);
  const nearer = nearerOf(sides);
  const uncertainty = gauge?.quotient() ?? null;
  const probability = uncertainty === null ? null : conformance(sides, uncertainty);
  const margin = nearer.value();
  if (rule === "guarded") return guarded(nearer, margin, uncertainty, probability);
  return { word: nearer.over.gte(0) ? IN : OUT, margin, reason: "", probability };
}

/** How far a value is above the lower limit and below the upper: one of them or both. */
type Sides = readonly [lower: Quotient, upper: Quotient | null] | readonly [lower: null, upper: Quotient];

function sidesOf(value: Quotient, limits: Limits): Sides | null {
  const lower = limits.lower && value.less(limits.lower);
  const upper = limits.upper && value.less(limits.upper).negative();
  if (lower !== null) return [lower, upper];
  return upper && [null, upper];
}

/** The distance to the nearer limit; both have the same 'under'. */
function nearerOf([lower, upper]: Sides): Quotient {
  if (lower === null) return upper;
  return upper?.over.lt(lower.over) ? upper : lower;
}

function guarded(nearer: Quotient, margin: Decimal, uncertainty: Quotient | null, probability: number | null): Verdict {
  if (uncertainty === null) {
    return { word: UNJUDGED, margin, reason: "the gauge's uncertainty is not known", probability: null };
  }
  if (nearer.compare(uncertainty) >= 0) return { word: IN, margin, reason: "", probability };
  if (nearer.compare(uncertainty.negative()) < 0) return { word: OUT, margin, reason: "", probability };
  return { word: CLOSE, margin, reason: "nearer to the limit than the gauge can tell", probability };
}

/** To the place by ASTM E29's rounding method: half to even. place: in the uom converted to. */
export function rounded(value: Decimal, place: Decimal, conversion: Conversion = SAME): Decimal {
  const exact = conversion.of(value);
  const steps = exact.over.div(exact.under.times(place)).toDecimalPlaces(0, Decimal.ROUND_HALF_EVEN);
  return new Decimal(steps.times(place));
}

/** Probability that the true value lies within the limits, normal with u = U/2 (JCGM 106, k = 2). */
function conformance(sides: Sides, uncertainty: Quotient): number {
  if (uncertainty.over.lte(0)) return nearerOf(sides).over.gte(0) ? 1 : 0;
  const u = uncertainty.value().div(TWO);
  const [lower, upper] = sides;
  const above = upper === null ? 1 : normal(upper.value().div(u).toNumber());
  const below = lower === null ? 0 : normal(lower.value().neg().div(u).toNumber());
  return above - below;
}

function normal(z: number): number {
  return (1 + erf(z / Math.SQRT2)) / 2;
}

const TERMS_OF_SERIES = 25;
const TERMS_OF_FRACTION = 50;
const NEAR = 1.5;
/** From here on 1 - erf(x) is below half of a double's last place. */
const FAR = 6;

/**
 * The error function, to about 1e-15.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.6 (series, near zero) and 7.1.14 (continued
 * fraction of erfc, farther out).
 */
export function erf(x: number): number {
  const size = Math.abs(x);
  if (Number.isNaN(x)) return x;
  if (size < NEAR) return erfBySeries(x);
  const value = size > FAR ? 1 : 1 - erfcByFraction(size);
  return x > 0 ? value : -value;
}

function erfBySeries(x: number): number {
  let sum = 0;
  for (let term = TERMS_OF_SERIES; term > 0; term -= 1) sum = 2 + (x * x * sum) / (term + 0.5);
  return (sum * x * Math.exp(-x * x)) / Math.sqrt(Math.PI);
}

function erfcByFraction(x: number): number {
  let [over, overBefore, under, underBefore] = [1, 0, x * x + 0.5, 1];
  for (let term = 1; term <= TERMS_OF_FRACTION; term += 1) {
    const a = term * (term - 0.5);
    const b = x * x + 2 * term + 0.5;
    [over, overBefore] = [b * over - a * overBefore, over];
    [under, underBefore] = [b * under - a * underBefore, under];
  }
  return ((over / under) * x * Math.exp(-x * x)) / Math.sqrt(Math.PI);
}

/**
 * Why the gauge is too coarse for the limits: its U is over a quarter of the tolerance to either side of the middle, or
 * of the limit where there is only an upper one. '' where it is not, or nobody knows.
 *
 * That is a ratio of 4:1, the span over twice U (ANSI/NCSL Z540-1-1994 10.2 b as reported, read at second hand).
 */
export function tooCoarse(limits: Limits, gauge: Gauge | null): string {
  const uncertainty = gauge?.quotient() ?? null;
  const span = tolerance(limits);
  let [quarter, name] = [span && new Quotient(span, EIGHT), "tolerance"];
  if (quarter === null && limits.lower === null && limits.upper !== null && !limits.upper.isZero()) {
    [quarter, name] = [new Quotient(limits.upper.abs(), FOUR), "limit"];
  }
  if (uncertainty === null || quarter === null) return "";
  return uncertainty.compare(quarter) > 0 ? `uncertainty over a quarter of the ${name}` : "";
}

/** The probability in whole per cent, never 0 or 100. */
export function shownProbability(probability: number): string {
  const percent = new Decimal(String(probability * 100)).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
  return `${Math.min(Math.max(percent, 1), 99)} %`;
}
