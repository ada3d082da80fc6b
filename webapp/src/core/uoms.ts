/**
 * Units of measure and the exact ratios between them.
 *
 * A conversion is three whole numbers: value * times + plus, over `over`. Nothing is divided before it is compared,
 * since one psi, for one, has no finite decimal in pascals. Temperatures and temperature intervals are different
 * quantities.
 *
 * Sources: International Yard and Pound, 1959 (in, lb); CGPM 1901 (standard gravity); SI Brochure (the rest).
 */

import { type Decimal, Quotient, WIDE } from "./numbers";

/** From one uom to another, all three exact whole numbers in WIDE; over is above 0. */
export class Conversion {
  constructor(
    readonly times: Decimal,
    readonly plus: Decimal,
    readonly over: Decimal,
  ) {}

  of(value: Decimal): Quotient {
    return new Quotient(this.times.times(value).plus(this.plus), this.over);
  }

  /** Of a difference or an uncertainty, which has no zero point. */
  ofInterval(value: Decimal): Quotient {
    return new Quotient(this.times.times(value), this.over);
  }
}

export const SAME = new Conversion(new WIDE(1), new WIDE(0), new WIDE(1));

/** What is measured, and the value in the quantity's base unit: (value * times + plus) / over. */
export type Uom = readonly [quantity: string, times: number, over?: number, plus?: number];

const INCH = [127, 5000] as const;
const POUND_FORCE = [8896443230521, 2000000000000] as const;

export const UOMS: ReadonlyMap<string, Uom> = new Map<string, Uom>([
  ["in", ["length", ...INCH]],
  ["ft", ["length", 381, 1250]],
  ["mil", ["length", 127, 5000000]],
  ["m", ["length", 1]],
  ["cm", ["length", 1, 100]],
  ["mm", ["length", 1, 1000]],
  ["um", ["length", 1, 1000000]],
  ["in2", ["area", 16129, 25000000]],
  ["m2", ["area", 1]],
  ["cm2", ["area", 1, 10000]],
  ["mm2", ["area", 1, 1000000]],
  ["deg", ["angle", 1]],
  ["degF", ["temperature", 500, 900, 229835]],
  ["degC", ["temperature", 100, 100, 27315]],
  ["degF interval", ["temperature interval", 5, 9]],
  ["degC interval", ["temperature interval", 1]],
  ["psi", ["pressure", 8896443230521, 1290320000]],
  ["ksi", ["pressure", 8896443230521, 1290320]],
  ["Pa", ["pressure", 1]],
  ["kPa", ["pressure", 1000]],
  ["MPa", ["pressure", 1000000]],
  ["bar", ["pressure", 100000]],
  ["kgf/cm2", ["pressure", 196133, 2]],
  ["lb", ["mass", 45359237, 100000000]],
  ["kg", ["mass", 1]],
  ["g", ["mass", 1, 1000]],
  ["lbf", ["force", ...POUND_FORCE]],
  ["N", ["force", 1]],
  ["kN", ["force", 1000]],
  ["ft.lbf", ["energy", 3389544870828501, 2500000000000000]],
  ["J", ["energy", 1]],
  ["kJ", ["energy", 1000]],
  ["lbf.ft", ["torque", 3389544870828501, 2500000000000000]],
  ["N.m", ["torque", 1]],
  ["kJ/in", ["energy by length", 5000000, 127]],
  ["kJ/mm", ["energy by length", 1000000]],
  ["J/in", ["energy by length", 5000, 127]],
  ["J/mm", ["energy by length", 1000]],
  ["in/min", ["speed", 127, 300000]],
  ["mm/min", ["speed", 1, 60000]],
  ["mm/s", ["speed", 1, 1000]],
  ["cm/min", ["speed", 1, 6000]],
  ["ft3/h", ["flow", 18435447, 2343750000000]],
  ["L/min", ["flow", 1, 60000]],
  ["V", ["voltage", 1]],
  ["A", ["current", 1]],
  ["s", ["time", 1]],
  ["min", ["time", 60]],
  ["h", ["time", 3600]],
  ["count", ["number", 1]],
  ["%", ["share", 1]],
  ["in/ft", ["slope", 1, 12]],
  ["mm/m", ["slope", 1, 1000]],
  ["HB", ["Brinell hardness", 1]],
  ["HV", ["Vickers hardness", 1]],
  ["HRB", ["Rockwell B hardness", 1]],
  ["HRC", ["Rockwell C hardness", 1]],
]);

const MOST_KEPT = 512;
const kept = new Map<string, Conversion | null>();

/** From one uom to another; null where they measure different things or are not known. */
export function conversion(written: string, wanted: string): Conversion | null {
  if (written === wanted) return SAME;
  const key = `${written}\0${wanted}`;
  const known = kept.get(key);
  if (known !== undefined) return known;
  if (kept.size >= MOST_KEPT) kept.clear();
  const found = workedOut(written, wanted);
  kept.set(key, found);
  return found;
}

function workedOut(written: string, wanted: string): Conversion | null {
  const [a, b] = [UOMS.get(written), UOMS.get(wanted)];
  if (!a || !b || a[0] !== b[0]) return null;
  const [aTimes, aOver, aPlus] = [new WIDE(a[1]), new WIDE(a[2] ?? 1), new WIDE(a[3] ?? 0)];
  const [bTimes, bOver, bPlus] = [new WIDE(b[1]), new WIDE(b[2] ?? 1), new WIDE(b[3] ?? 0)];
  return new Conversion(aTimes.times(bOver), aPlus.times(bOver).minus(bPlus.times(aOver)), aOver.times(bTimes));
}

/** The uom of the other system in which a limit is shown as well, and the place to which it is. */
export const COUNTERPARTS: ReadonlyMap<string, readonly [uom: string, place: string]> = new Map([
  ["in", ["mm", "0.01"]],
  ["mm", ["in", "0.0001"]],
  ["ft", ["m", "0.001"]],
  ["m", ["ft", "0.001"]],
  ["in2", ["mm2", "0.1"]],
  ["mm2", ["in2", "0.001"]],
  ["degF", ["degC", "0.1"]],
  ["degC", ["degF", "0.1"]],
  ["psi", ["bar", "0.01"]],
  ["bar", ["psi", "0.1"]],
  ["kJ/in", ["kJ/mm", "0.001"]],
  ["kJ/mm", ["kJ/in", "0.01"]],
  ["in/min", ["mm/min", "0.1"]],
  ["mm/min", ["in/min", "0.01"]],
  ["lb", ["kg", "0.01"]],
  ["kg", ["lb", "0.01"]],
]);
