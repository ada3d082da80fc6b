/**
 * Sampling by attributes: the single plans for normal inspection of MIL-STD-105E, by code letter and AQL.
 *
 * It fits what a shop makes by the hundred: diameters of tube holes, projection of tube ends, rolled inside diameters,
 * stud and clip welds. Dimensions at hold points and pressure tests are never sampled: each one is measured, each
 * vessel is tested (common practice, no source).
 *
 * Not worked here: tightened and reduced inspection and the switching between them, double and multiple plans. The
 * standard was cancelled in 1995 in favour of ANSI/ASQC Z1.4.
 */

import { Decimal } from "./numbers";
import { beginning } from "./text";

export const LEVELS: readonly string[] = ["S-1", "S-2", "S-3", "S-4", "I", "II", "III"];
export const AQLS: readonly string[] = ["0.65", "1.0", "1.5", "2.5", "4.0", "6.5"];

/**
 * Largest lot of each row, and its code letters in the order of LEVELS.
 *
 * Source: MIL-STD-105E, Table I, read in two copies that agree.
 */
const TABLE_I: readonly (readonly [number, string])[] = [
  [8, "A A A A A A B"],
  [15, "A A A A A B C"],
  [25, "A A B B B C D"],
  [50, "A B B C C D E"],
  [90, "B B C C C E F"],
  [150, "B B C D D F G"],
  [280, "B C D E E G H"],
  [500, "B C D E F H J"],
  [1200, "C C E F G J K"],
  [3200, "C D E G H K L"],
  [10000, "C D F G J L M"],
  [35000, "C D F H K M N"],
  [150000, "D E G J L N P"],
  [500000, "D E G J M P Q"],
];
/** The row of every larger lot. */
const ABOVE = "D E H K N Q R";

/**
 * Code letter, sample size, and for each of AQLS the numbers Ac/Re as printed, or an arrow.
 *
 * v: use the first plan below; ^: use the first plan above. Source: MIL-STD-105E, Table II-A, read in two copies that
 * agree.
 */
const TABLE_II_A: readonly (readonly [string, number, string])[] = [
  ["A", 2, "v v v v v 0/1"],
  ["B", 3, "v v v v 0/1 ^"],
  ["C", 5, "v v v 0/1 ^ v"],
  ["D", 8, "v v 0/1 ^ v 1/2"],
  ["E", 13, "v 0/1 ^ v 1/2 2/3"],
  ["F", 20, "0/1 ^ v 1/2 2/3 3/4"],
  ["G", 32, "^ v 1/2 2/3 3/4 5/6"],
  ["H", 50, "v 1/2 2/3 3/4 5/6 7/8"],
  ["J", 80, "1/2 2/3 3/4 5/6 7/8 10/11"],
  ["K", 125, "2/3 3/4 5/6 7/8 10/11 14/15"],
  ["L", 200, "3/4 5/6 7/8 10/11 14/15 21/22"],
  ["M", 315, "5/6 7/8 10/11 14/15 21/22 ^"],
  ["N", 500, "7/8 10/11 14/15 21/22 ^ ^"],
  ["P", 800, "10/11 14/15 21/22 ^ ^ ^"],
  ["Q", 1250, "14/15 21/22 ^ ^ ^ ^"],
  ["R", 2000, "21/22 ^ ^ ^ ^ ^"],
];
const ARROWS: ReadonlyMap<string, number> = new Map([
  ["v", 1],
  ["^", -1],
]);
const PER_CENT = /^[0-9]+(?:\.[0-9]+)?$/;

/** There is no plan for what was asked. The message says what is wrong, with what. */
export class SamplingError extends Error {
  override name = "SamplingError";
}

/**
 * letter: code letter of Table I. sample: pieces to draw. accept, reject: most and least defectives to do so.
 *
 * An arrow of Table II-A has been followed: sample, accept and reject are those of the row it led to, while the letter
 * stays. allOfIt: the sample is as large as the lot or larger; the whole lot is inspected, by the same two numbers.
 */
export interface SamplingPlan {
  readonly letter: string;
  readonly sample: number;
  readonly accept: number;
  readonly reject: number;
  readonly allOfIt: boolean;
}

/**
 * The code letter of a lot's size at an inspection level, one of LEVELS.
 *
 * Throws SamplingError where the lot has fewer than 2 pieces or the level is not known.
 * Source: MIL-STD-105E, Table I, read.
 */
export function codeLetter(lot: number, level: string): string {
  if (!(lot >= 2)) {
    throw new SamplingError(`a lot to draw a sample from has at least 2 pieces, and this one has ${lot}`);
  }
  const column = LEVELS.indexOf(level);
  if (column < 0) {
    const known = LEVELS.join(", ");
    throw new SamplingError(`there is no inspection level '${beginning(level, 40)}'; there are ${known}`);
  }
  const letters = TABLE_I.find(([most]) => lot <= most)?.[1] ?? ABOVE;
  return part(letters, " ", column);
}

/**
 * The single plan for normal inspection of a lot.
 *
 * lot: its number of pieces. level: one of LEVELS. aql: acceptable quality level as text, one of AQLS or a number equal
 * to one, in per cent defective.
 * Throws SamplingError as codeLetter does, and where there is no such AQL.
 * Source: MIL-STD-105E, Tables I and II-A, read.
 */
export function plan(lot: number, level: string, aql: string): SamplingPlan {
  const letter = codeLetter(lot, level);
  const column = columnOf(aql);
  let row = TABLE_II_A.findIndex(([name]) => name === letter);
  let cell = cellAt(row, column);
  const step = ARROWS.get(cell) ?? 0;
  while (ARROWS.has(cell)) {
    row += step;
    cell = cellAt(row, column);
  }
  const [, sample] = rowAt(row);
  const [accept, reject] = [Number(part(cell, "/", 0)), Number(part(cell, "/", 1))];
  return { letter, sample, accept, reject, allOfIt: sample >= lot };
}

function cellAt(row: number, column: number): string {
  return part(rowAt(row)[2], " ", column);
}

function rowAt(row: number): readonly [string, number, string] {
  const found = TABLE_II_A[row];
  if (!found) throw new RangeError(`Table II-A has no row ${row}`);
  return found;
}

function part(text: string, between: string, place: number): string {
  const found = text.split(between)[place];
  if (found === undefined) throw new RangeError(`'${text}' has no part ${place}`);
  return found;
}

/** The column of Table II-A. Throws SamplingError where none is equal to the AQL. */
function columnOf(aql: string): number {
  const value = PER_CENT.test(aql) ? new Decimal(aql) : null;
  const column = AQLS.findIndex((known) => value?.eq(known));
  if (column < 0) {
    throw new SamplingError(`there is no plan for AQL '${beginning(aql, 40)}'; there are ${AQLS.join(", ")}`);
  }
  return column;
}

/**
 * Whether a lot is accepted by a plan. defectives: how many of the pieces inspected were defective.
 *
 * Throws SamplingError where they are below 0. Source: MIL-STD-105E, single sampling, read.
 */
export function accepted(plan: SamplingPlan, defectives: number): boolean {
  if (!(defectives >= 0)) throw new SamplingError(`the defectives must not be below 0, and they are ${defectives}`);
  return defectives <= plan.accept;
}
