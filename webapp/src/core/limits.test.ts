import { expect, test } from "vitest";
import { inCounterpart, shown, shownInward } from "./limits";
import { Decimal, textOf } from "./numbers";
import { conversion } from "./uoms";
import { number, vectors } from "./vectors";

interface Given {
  shown_inward: { limit: string; upper: boolean; place: string; from: string; to: string; text: string }[];
  shown: { limit: string; upper: boolean; text: string }[];
  in_counterpart: { uom: string; lower: string | null; upper: string | null; other: (string | null)[] | null }[];
}

const given = vectors<Given>("verdict");

test.each(given.shown_inward)("$limit $from is shown as $text $to", ({ limit, upper, place, from, to, text }) => {
  const found = shownInward(new Decimal(limit), upper, new Decimal(place), conversion(from, to) ?? undefined);
  expect(textOf(found)).toBe(text);
  expect(found.constructor).toBe(Decimal);
});

test.each(given.shown)("$limit is shown as $text", ({ limit, upper, text }) => {
  expect(textOf(shown(new Decimal(limit), upper))).toBe(text);
});

test.each(given.in_counterpart)("$lower to $upper $uom is $other", ({ uom, lower, upper, other }) => {
  const found = inCounterpart({ lower: number(lower), upper: number(upper), reason: "" }, uom);
  const texts = found && [found[0].lower && textOf(found[0].lower), found[0].upper && textOf(found[0].upper), found[1]];
  expect(texts).toEqual(other);
});
