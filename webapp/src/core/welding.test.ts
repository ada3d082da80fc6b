import { expect, test } from "vitest";
import { Decimal, textOf } from "./numbers";
import { errorOf, vectors } from "./vectors";
import * as welding from "./welding";

type Case = Record<string, string | number | null>;
type Work = (...given: Decimal[]) => Decimal | null;

interface Dated {
  last: string;
  on?: string;
  day?: string;
  lapsed?: boolean;
  error?: string;
}

const PARTS: Readonly<Record<string, readonly [Work, readonly string[]]>> = {
  throat: [welding.throat, ["leg_1", "leg_2"]],
  arc_energy: [welding.arcEnergy, ["volts", "amps", "travel"]],
  heat_input: [welding.heatInput, ["volts", "amps", "travel", "efficiency"]],
  carbon_equivalent: [welding.carbonEquivalent, ["c", "mn", "cr", "mo", "v", "ni", "cu"]],
  wall_reduction: [welding.wallReduction, ["hole", "od", "id_before", "id_after"]],
  target_id: [welding.targetId, ["hole", "od", "id_before", "percent"]],
  stay_constant: [welding.stayConstant, ["t"]],
  stayed_plate_pressure: [welding.stayedPlatePressure, ["t", "pitch", "s", "c"]],
  stayed_plate_thickness: [welding.stayedPlateThickness, ["pressure", "pitch", "s", "c"]],
  stay_pitch: [welding.stayPitch, ["pressure", "t", "s", "c"]],
  test_pressure: [welding.testPressure, ["mawp", "factor", "stress_ratio"]],
  test_ceiling: [welding.testCeiling, ["test_pressure"]],
  least_od: [welding.leastOd, ["coupon_od"]],
};

interface Others {
  most_thickness: { coupon: string; layers: number; value?: string | null; error?: string }[];
  gauge_range: { test_pressure: string; range?: string[]; error?: string }[];
  efficiency: { process: string; value: string }[];
  water: { rule: string; lowest: string; highest: string; uom: string }[];
  positions: { test: string; groove: string[]; fillet: string[] }[];
  lapses_on: Dated[];
  has_lapsed: Dated[];
}

const given = vectors<Record<string, Case[]>>("welding");
const others = vectors<Others>("welding");

function answered(work: () => unknown, error: unknown, answer: unknown): void {
  if (error === undefined) {
    expect(work()).toEqual(answer);
    return;
  }
  const thrown = errorOf(work);
  expect(thrown).toBeInstanceOf(welding.NoAnswerError);
  expect(thrown.message).toBe(error);
}

function text(value: Decimal | null): string | null {
  return value && textOf(value);
}

/** A number that a case does not name is left out, as in a call with fewer numbers. */
function numbersOf(one: Case, names: readonly string[]): Decimal[] {
  return names.filter((name) => name in one).map((name) => new Decimal(String(one[name])));
}

test("every part of the file is answered", () => {
  const other = ["efficiency", "gauge_range", "water", "most_thickness", "positions", "lapses_on", "has_lapsed"];
  expect(Object.keys(given).sort()).toEqual([...Object.keys(PARTS), ...other].sort());
});

const worked = Object.keys(PARTS).flatMap((part) => (given[part] ?? []).map((one) => [part, one] as const));

test.each(worked)("%s of %o is worked out or refused", (part, one) => {
  const [work, names] = PARTS[part] ?? [];
  if (!work || !names) throw new Error(`there is no ${part}`);
  answered(() => text(work(...numbersOf(one, names))), one.error, one.value);
});

test.each(others.most_thickness)("$coupon in $layers layers qualify for $value", ({ coupon, layers, value, error }) => {
  answered(() => text(welding.mostThickness(new Decimal(coupon), layers)), error, value);
});

test.each(others.gauge_range)("a gauge for $test_pressure has a top of scale in $range", (one) => {
  answered(() => welding.gaugeRange(new Decimal(one.test_pressure)).map(textOf), one.error, one.range);
});

test("the efficiency of each process", () => {
  const found = Object.entries(welding.EFFICIENCY).map(([process, value]) => ({ process, value: textOf(value) }));
  expect(found).toEqual(others.efficiency);
});

test("the temperature of the water by each rule", () => {
  const found = Object.entries(welding.WATER).map(([rule, [lowest, highest, uom]]) => {
    return { rule, lowest: textOf(lowest), highest: textOf(highest), uom };
  });
  expect(found).toEqual(others.water);
});

test("the positions each test qualifies for", () => {
  const found = Object.entries(welding.POSITIONS).map(([name, [groove, fillet]]) => ({ test: name, groove, fillet }));
  expect(found).toEqual(others.positions);
});

test.each(others.lapses_on)("what was last used on '$last' lapses on $day", ({ last, day, error }) => {
  answered(() => welding.lapsesOn(last), error, day);
});

test.each(others.has_lapsed)("what was last used on '$last' has lapsed on '$on': $lapsed", (one) => {
  answered(() => welding.hasLapsed(one.last, one.on ?? ""), one.error, one.lapsed);
});
