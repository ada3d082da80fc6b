import { describe, expect, test } from "vitest";
import { present } from "./job";
import { Decimal, textOf } from "./numbers";
import { type Conversion, conversion } from "./uoms";
import { number, vectors } from "./vectors";
import { erf, Gauge, judge, rounded, shownProbability, tooCoarse } from "./verdict";

interface Measured {
  lower: string | null;
  upper: string | null;
  uncertainty?: string | null;
  conversion?: [from: string, to: string];
  gauge_uom?: string;
  uom?: string;
}

interface Judging extends Measured {
  value: string;
  reason?: string | null;
  rule?: string | null;
  place?: string | null;
  word: string;
  margin: string | null;
  why: string;
  probability: number | null;
}

interface Given {
  judge: Judging[];
  rounded: { value: string; place: string; conversion?: [from: string, to: string]; to: string }[];
  too_coarse: (Measured & { says: string })[];
  shown_probability: { probability: number; text: string }[];
}

const given = vectors<Given>("verdict");

function conversionOf([from, to]: readonly [string, string] = ["", ""]): Conversion {
  return present(conversion(from, to), `there is no way from ${from} to ${to}`);
}

/** gauge_uom: what the uncertainty is in, on the way to that of the limits: uom, or the one converted to. */
function gaugeOf({ uncertainty, gauge_uom, uom, conversion: pair }: Measured): Gauge | null {
  if (uncertainty === null || uncertainty === undefined) return null;
  if (uncertainty === "unknown") return new Gauge(null);
  const wanted = uom ?? pair?.[1] ?? "";
  return new Gauge(new Decimal(uncertainty), conversionOf([gauge_uom ?? wanted, wanted]));
}

function limitsOf({ lower, upper }: Measured, reason = "") {
  return { lower: number(lower), upper: number(upper), reason };
}

describe("a value", () => {
  test.each(given.judge)("$value between $lower and $upper is $word", (one) => {
    const limits = limitsOf(one, one.reason ?? "");
    const [value, place, way] = [new Decimal(one.value), number(one.place), conversionOf(one.conversion)];
    const found = judge(value, limits, gaugeOf(one), one.rule ?? "simple", place, way);
    const margin = found.margin && textOf(found.margin);
    expect([found.word, margin, found.reason]).toEqual([one.word, one.margin, one.why]);
    if (found.margin) expect(found.margin.constructor).toBe(Decimal);
    if (one.probability === null) expect(found.probability).toBeNull();
    else expect(found.probability).toBeCloseTo(one.probability, 9);
  });

  test.each(given.rounded)("$value at $place is rounded to $to", ({ value, place, conversion: pair, to }) => {
    const found = rounded(new Decimal(value), new Decimal(place), conversionOf(pair));
    expect(textOf(found)).toBe(to);
    expect(found.constructor).toBe(Decimal);
  });
});

test.each(given.too_coarse)("U $uncertainty for $lower to $upper: '$says'", (one) => {
  expect(tooCoarse(limitsOf(one), gaugeOf(one))).toBe(one.says);
});

test.each(given.shown_probability)("a probability of $probability is shown as $text", ({ probability, text }) => {
  expect(shownProbability(probability)).toBe(text);
});

/** As the C library of the server gives them, by way of Python's `math.erf`. */
const ERF: readonly (readonly [number, number])[] = [
  [0, 0],
  [1e-10, 1.1283791670955126e-10],
  [0.1, 0.1124629160182849],
  [0.5, 0.5204998778130465],
  [1, 0.8427007929497149],
  [1.4999999, 0.96610513458228],
  [1.5, 0.9661051464753108],
  [2, 0.9953222650189527],
  [3, 0.9999779095030014],
  [5.9, 0.9999999999999999],
  [30, 1],
];

test.each(ERF)("erf(%d) is %d to the last places", (x, value) => {
  expect(Math.abs(erf(x) - value)).toBeLessThanOrEqual(4e-16 * Math.abs(value));
  expect(erf(-x) + erf(x)).toBe(0);
});
