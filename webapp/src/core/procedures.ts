/**
 * A weld pass against the welding procedure it names: every value typed, beside the procedure's own range.
 *
 * Both ends of a range are inside it. What is judged here is what was written down: the written procedure and the code
 * edition in force decide.
 */

import { lookedUp } from "./job";
import { shown } from "./limits";
import { Decimal, NumberError, parse, textOf, WIDE } from "./numbers";
import type { Bodies } from "./records";
import { beginning, inOrder, strip } from "./text";
import * as verdict from "./verdict";
import { bare, type Verdict } from "./verdict";
import { arcEnergy, NoAnswerError } from "./welding";

type Ends = readonly [string, string];

/** A welding procedure; numbers are texts, and what it does not say is null. The last lines are for show. */
export interface Procedure {
  readonly id: string;
  readonly process: string;
  readonly positions?: readonly string[] | null;
  readonly preheat_min?: string | null;
  readonly interpass_max?: string | null;
  readonly volts?: Ends | null;
  readonly amps?: Ends | null;
  readonly travel?: Ends | null;
  readonly heat_input_max?: string | null;
  /** The day since when it is not to be welded by; it counts for what was welded before. */
  readonly withdrawn?: string | null;
  readonly revision?: string;
  readonly name?: string;
  readonly thickness?: { readonly from: string; readonly to: string } | null;
  readonly fillers?: readonly string[];
  readonly note?: string;
  readonly source?: string;
}

/** What a spot check reads, each with its uom. */
export const CHECKED = [
  ["preheat", "degF"],
  ["interpass", "degF"],
  ["volts", "V"],
  ["amps", "A"],
  ["travel", "in/min"],
] as const;
export type Checked = (typeof CHECKED)[number][0];
export const ENERGY_UOM = "kJ/in";
export const MOST_NAME = 40;

/** What a procedure asks of a value; null where it sets no end. */
export interface Range {
  readonly lower: Decimal | null;
  readonly upper: Decimal | null;
}

/** What a procedure asks of one of CHECKED: of preheat a least, of interpass a most, of the others both. */
export function rangeOf(procedure: Procedure, name: Checked): Range {
  if (name === "preheat") return { lower: number(procedure.preheat_min), upper: null };
  if (name === "interpass") return { lower: null, upper: number(procedure.interpass_max) };
  const [lower, upper] = procedure[name] ?? [];
  return { lower: number(lower), upper: number(upper) };
}

/** The most heat input a procedure allows, as the arc energy is held against it; null where it sets none. */
export function mostEnergy(procedure: Procedure): Decimal | null {
  return number(procedure.heat_input_max);
}

function number(text: string | null | undefined): Decimal | null {
  return text ? new Decimal(text) : null;
}

export function isOpen({ lower, upper }: Range): boolean {
  return lower === null && upper === null;
}

export function holds({ lower, upper }: Range, value: Decimal): boolean {
  return (lower === null || value.gte(lower)) && (upper === null || value.lte(upper));
}

function said({ lower, upper }: Range): string {
  if (lower === null) return `at most ${textOf(upper ?? new Decimal(0))}`;
  return upper === null ? `at least ${textOf(lower)}` : `${textOf(lower)} to ${textOf(upper)}`;
}

export type Values = Partial<Record<Checked, Decimal>>;

/** The values typed in a weld record. Throws NumberError, which names the value, where one cannot be read. */
function valuesOf(body: Bodies["weld"]): Values {
  const found: Values = {};
  for (const [name] of CHECKED) {
    const typed = body[name] || "";
    if (!strip(typed)) continue;
    try {
      found[name] = parse(typed, Boolean(body.comma)).value;
    } catch (error) {
      if (error instanceof NumberError) throw new NumberError(`${name}: ${error.message}`);
      throw error;
    }
  }
  return found;
}

/**
 * The word of a weld record in a shop that keeps procedures, and the reason. day: it was made on.
 *
 * A procedure that is withdrawn counts for what was welded before that day.
 */
export function wordOfPass(
  body: Bodies["weld"],
  procedures: Readonly<Record<string, Procedure>>,
  day: string,
): Verdict<verdict.Word> {
  const name = strip(body.procedure);
  const procedure = lookedUp(procedures, name);
  if (!procedure) return bare(verdict.UNJUDGED, `the procedure ${beginning(name, MOST_NAME)} is not known`);
  const { withdrawn } = procedure;
  if (withdrawn && inOrder(day, withdrawn) >= 0) {
    return bare(verdict.UNJUDGED, `the procedure ${name} is withdrawn since ${withdrawn}`);
  }
  try {
    return wordOfValues(name, procedure, valuesOf(body), body.position || "");
  } catch (error) {
    if (error instanceof NumberError) return bare(verdict.UNJUDGED, error.message);
    throw error;
  }
}

function wordOfValues(name: string, procedure: Procedure, values: Values, position: string): Verdict<verdict.Word> {
  const outside: string[] = [];
  let compared = false;
  for (const [key, uom] of CHECKED) {
    const [value, range] = [values[key], rangeOf(procedure, key)];
    if (value === undefined || isOpen(range)) continue;
    compared = true;
    if (!holds(range, value)) outside.push(`${key} ${textOf(value)}: ${name} asks ${said(range)} ${uom}`);
  }
  const positions = procedure.positions ?? [];
  if (position && positions.length > 0 && !positions.includes(position)) {
    outside.push(`position ${position}: ${name} asks ${positions.join(", ")}`);
  }
  const [hot, failed] = heat(name, procedure, values);
  if (hot) outside.push(hot);
  if (outside.length > 0) return bare(verdict.OUT, outside.join("; "));
  if (failed) return bare(verdict.UNJUDGED, failed);
  return bare(compared || hot !== null ? verdict.IN : verdict.RECORDED);
}

/** What is wrong with the arc energy, null where it is not compared; and why it cannot be told. */
function heat(name: string, procedure: Procedure, values: Values): [string | null, string] {
  const most = mostEnergy(procedure);
  try {
    const hot = most && tooHot(values, most);
    if (!most || hot === null) return [null, ""];
    return [hot && `arc energy ${textOf(hot)}: ${name} asks ${said({ lower: null, upper: most })} ${ENERGY_UOM}`, ""];
  } catch (error) {
    if (error instanceof NoAnswerError) return [null, error.message];
    throw error;
  }
}

/**
 * The arc energy in kJ/in as it is shown where it is above the most; compared without dividing, shown rounded up. ""
 * where it is not above, null where volts, amps and travel are not all there.
 *
 * Throws NoAnswerError where there is none.
 */
export function tooHot({ volts, amps, travel }: Values, most: Decimal): Decimal | "" | null {
  if (!volts || !amps || !travel) return null;
  const energy = arcEnergy(volts, amps, travel);
  const over = new WIDE(60).times(volts).times(amps);
  return over.lte(new WIDE(1000).times(travel).times(most)) ? "" : shown(energy, false);
}
