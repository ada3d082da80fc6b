/** One reading against its limits and its gauge. */

import { type Limits, tolerance } from "./limits";
import { Decimal, inContext, ZERO } from "./numbers";

export const IN = "in tolerance";
export const OUT = "out of tolerance";
export const CLOSE = "too close to call";
export const UNJUDGED = "unjudged";
export const RECORDED = "recorded";

export type Word = typeof IN | typeof OUT | typeof CLOSE | typeof UNJUDGED | typeof RECORDED;

/** How far from good each verdict is, to tell when judging anew made one worse. */
export const WORSE: Readonly<Record<Word, number>> = { [IN]: 0, [RECORDED]: 0, [CLOSE]: 1, [UNJUDGED]: 2, [OUT]: 3 };

/** What a gauge's certificate says: expanded uncertainty U (k = 2) in the item's uom, if known. */
export interface Gauge {
  readonly uncertainty: Decimal | null;
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
 */
export function judge(
  value: Decimal,
  limits: Limits,
  gauge: Gauge | null = null,
  rule = "simple",
  place: Decimal | null = null,
): Verdict {
  if (limits.reason) return bare(UNJUDGED, limits.reason);
  if (limits.lower === null && limits.upper === null) return bare(RECORDED);
  const compared = place === null ? value : rounded(value, place);
  const margin = marginOf(compared, limits);
  const uncertainty = gauge?.uncertainty ?? null;
  const probability = uncertainty === null ? null : conformance(compared, limits, uncertainty);
  if (rule === "guarded") return guarded(margin, uncertainty, probability);
  return { word: margin.gte(0) ? IN : OUT, margin, reason: "", probability };
}

function marginOf(value: Decimal, limits: Limits): Decimal {
  const sides: Decimal[] = [];
  if (limits.lower !== null) sides.push(value.minus(limits.lower));
  if (limits.upper !== null) sides.push(limits.upper.minus(value));
  return inContext(Decimal.min(...sides));
}

function guarded(margin: Decimal, uncertainty: Decimal | null, probability: number | null): Verdict {
  if (uncertainty === null) {
    return { word: UNJUDGED, margin, reason: "the gauge's uncertainty is not known", probability: null };
  }
  if (margin.gte(uncertainty)) return { word: IN, margin, reason: "", probability };
  if (margin.lt(ZERO.minus(uncertainty))) return { word: OUT, margin, reason: "", probability };
  return { word: CLOSE, margin, reason: "nearer to the limit than the gauge can tell", probability };
}

/** To the place by ASTM E29's rounding method: half to even. */
export function rounded(value: Decimal, place: Decimal): Decimal {
  return value.div(place).toDecimalPlaces(0, Decimal.ROUND_HALF_EVEN).times(place);
}

/** Probability that the true value lies within the limits, normal with u = U/2 (JCGM 106, k = 2). */
export function conformance(value: Decimal, limits: Limits, uncertainty: Decimal): number {
  if (uncertainty.lte(0)) return marginOf(value, limits).gte(0) ? 1 : 0;
  const u = uncertainty.toNumber() / 2;
  const above = limits.upper === null ? 1 : normal((limits.upper.toNumber() - value.toNumber()) / u);
  const below = limits.lower === null ? 0 : normal((limits.lower.toNumber() - value.toNumber()) / u);
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

/** Whether the gauge's U is over a quarter of the tolerance (common practice, 4:1). */
export function tooCoarse(limits: Limits, gauge: Gauge | null): boolean {
  const allowed = tolerance(limits);
  if (!gauge || gauge.uncertainty === null || allowed === null) return false;
  return gauge.uncertainty.times(4).gt(allowed);
}

/** The probability in whole per cent, never 0 or 100. */
export function shownProbability(probability: number): string {
  const percent = new Decimal(String(probability * 100)).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
  return `${Math.min(Math.max(percent, 1), 99)} %`;
}
