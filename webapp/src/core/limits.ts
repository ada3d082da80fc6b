/** The limits of an item at a piece: formulas worked out over the job's and the piece's figures. */

import { FormulaError, type Names, type Tree, workOut } from "./formula";
import { Decimal, MOST_SHOWN, NumberError, parse } from "./numbers";
import { COUNTERPARTS, type Conversion, conversion, SAME } from "./uoms";

/** A limit of a plan: its formula as text and as tree. */
export interface Limit {
  readonly tree: Tree;
  readonly text?: string;
}

/** What of an item its limits are made from. */
export interface Limited {
  readonly lower?: Limit | null;
  readonly upper?: Limit | null;
}

/** Lower and upper limit in the item's unit of measure; reason says why there are none to judge by. */
export interface Limits {
  readonly lower: Decimal | null;
  readonly upper: Decimal | null;
  readonly reason: string;
}

/** Limits that are not known, with the reason. */
export function notKnown(reason: string): Limits {
  return { lower: null, upper: null, reason: `limit not known: ${reason}` };
}

/** Upper less lower limit, where there are both. */
export function tolerance(limits: Limits): Decimal | null {
  return limits.lower === null || limits.upper === null ? null : limits.upper.minus(limits.lower);
}

/** The limits an item sets. A figure that is missing makes them unknown, with the reason; never a pass. */
export function limitsOf(item: Limited, names: Names): Limits {
  try {
    const lower = workedOut(item.lower, names);
    const upper = workedOut(item.upper, names);
    if (lower !== null && upper !== null && lower.gt(upper)) return notKnown("the lower limit is above the upper");
    return { lower, upper, reason: "" };
  } catch (error) {
    if (error instanceof FormulaError) return notKnown(error.message);
    throw error;
  }
}

function workedOut(limit: Limit | null | undefined, names: Names): Decimal | null {
  return limit ? workOut(limit.tree, names) : null;
}

/**
 * A limit as it is shown in another uom, to a place: an upper one rounded down and a lower one up, never relaxed.
 *
 * place: in the uom shown, such as 0.1; 0.015625 shows it on a rule's sixty-fourths.
 */
export function shownInward(limit: Decimal, upper: boolean, place: Decimal, way: Conversion = SAME): Decimal {
  const exact = way.of(limit);
  const steps = exact.over.div(exact.under.times(place));
  const inward = steps.toDecimalPlaces(0, upper ? Decimal.ROUND_FLOOR : Decimal.ROUND_CEIL);
  return new Decimal(inward.times(place).plus(0));
}

/**
 * A limit as it is shown in its own uom: exact up to six decimals, else rounded inward, to four decimals or, of a small
 * one, four digits that count.
 */
export function shown(limit: Decimal, upper: boolean): Decimal {
  if (limit.decimalPlaces() <= MOST_SHOWN) return limit;
  return shownInward(limit, upper, new Decimal(`1e${Math.min(-4, limit.e - 3)}`));
}

/**
 * The limits in the uom of the other system, rounded inward, and that uom; null where there is no other, or where they
 * are so near to each other that rounding would cross them.
 */
export function inCounterpart(limits: Limits, uom: string): readonly [Limits, string] | null {
  const [other, to] = COUNTERPARTS.get(uom) ?? [];
  const way = other === undefined ? null : conversion(uom, other);
  if (other === undefined || to === undefined || way === null || limits.reason) return null;
  const place = new Decimal(to);
  const lower = limits.lower && shownInward(limits.lower, false, place, way);
  const upper = limits.upper && shownInward(limits.upper, true, place, way);
  if (lower && upper && lower.gt(upper)) return null;
  return [{ lower, upper, reason: "" }, other];
}

/** Figures by name as they were typed. */
export type Figures = Readonly<Record<string, string>>;

/** Figures as numbers, the piece's own before the job's. One that cannot be read is left out, so it is missing. */
export function figuresOf(jobFigures: Figures, pieceFigures: Figures): Map<string, Decimal> {
  const figures = new Map<string, Decimal>();
  for (const source of [jobFigures, pieceFigures]) {
    for (const [name, typed] of Object.entries(source)) {
      const value = readable(typed);
      if (value !== null) figures.set(name, value);
    }
  }
  return figures;
}

function readable(typed: unknown): Decimal | null {
  if (typeof typed !== "string") return null;
  try {
    return parse(typed).value;
  } catch (error) {
    if (error instanceof NumberError) return null;
    throw error;
  }
}
