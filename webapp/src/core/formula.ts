/**
 * Formulas of a plan, worked out from the JSON trees the server made of their texts.
 *
 * Arithmetic is decimal, 28 digits, half-even, so that phone and server give the same last digit. The server alone
 * parses the text, when a plan is published.
 */

import { Decimal, inContext, ZERO } from "./numbers";
import * as welding from "./welding";

export const FORMAT = 1;
export const MOST_DEPTH = 30;
/** Of ten, either way, in any value worked out; what is compared and converted later still fits. */
export const MOST_EXPONENT = 9999;

export type Comparison = "lt" | "le" | "gt" | "ge" | "eq" | "ne";
export type Operation = "add" | "sub" | "mul" | "div";

/** A formula as a list: a word, then what it is about. */
export type Tree =
  | readonly ["num", string]
  | readonly ["name", string]
  | readonly ["item", string, string]
  | readonly ["neg" | "not", Tree]
  | readonly [Operation | Comparison | "and" | "or", Tree, Tree]
  | readonly ["pow", Tree, number]
  | readonly ["if", Tree, Tree, Tree]
  | readonly ["call", string, ...Tree[]]
  | readonly ["table", string, Tree];

/** A table's rows; a row says 'from' (reached at its edge) or 'after' (past it). */
export interface Table {
  readonly rows: readonly { readonly edge: Tree; readonly reached: string; readonly value: Tree | null }[];
}

type OfTheTrade = (...values: Decimal[]) => Decimal;

/** Functions of welding.ts by name, with the number of values each takes; what they are is said there. */
const OF_THE_TRADE: ReadonlyMap<string, readonly [number, OfTheTrade]> = new Map<string, readonly [number, OfTheTrade]>(
  [
    ["throat", [2, welding.throat]],
    ["arc_energy", [3, welding.arcEnergy]],
    ["heat_input", [4, welding.heatInput]],
    ["carbon_equivalent", [7, welding.carbonEquivalent]],
    ["wall_reduction", [4, welding.wallReduction]],
  ],
);
const ON_READINGS: ReadonlySet<string> = new Set(["largest", "smallest", "spread", "mean", "count"]);

/** The formula cannot be worked out. The message says what is wrong, with what. */
export class FormulaError extends Error {
  override name = "FormulaError";
}

/** A figure or reading that the formula asks for is not there (yet). */
export class MissingValueError extends FormulaError {
  override name = "MissingValueError";
}

/** What a formula may look up: figures by name, and readings of items by step and item; step '' is its own. */
export interface Names {
  readonly figures: ReadonlyMap<string, Decimal>;
  readonly readings: (step: string, item: string) => readonly Decimal[];
  readonly tables: Readonly<Record<string, Table>>;
}

/** The tree and every tree below it. */
export function* walk(tree: Tree): Generator<Tree> {
  yield tree;
  for (const part of tree.slice(1)) if (Array.isArray(part)) yield* walk(part as unknown as Tree);
}

/**
 * The value of a tree.
 *
 * Throws MissingValueError where a figure or reading is not there, FormulaError where it has no value.
 */
export function workOut(tree: Tree, names: Names): Decimal {
  const value = evaluate(tree, names, 0);
  if (typeof value === "boolean") throw new FormulaError("the formula gives yes or no where a number is needed");
  return value;
}

/** Whether a condition is true. Throws as workOut does. */
export function holds(tree: Tree, names: Names): boolean {
  const value = evaluate(tree, names, 0);
  if (typeof value !== "boolean") throw new FormulaError("the condition gives a number where yes or no is needed");
  return value;
}

function evaluate(tree: Tree, names: Names, depth: number): Decimal | boolean {
  if (depth > MOST_DEPTH * 2) throw new FormulaError("the formula is nested too deep");
  const below = depth + 1;
  switch (tree[0]) {
    case "num":
      return new Decimal(tree[1]);
    case "name":
      return oneValue("", tree[1], names);
    case "item":
      return oneValue(tree[1], tree[2], names);
    case "table":
      return tableValue(tree[1], number(tree[2], names, below), names, below);
    case "call":
      return callValue(tree, names, below);
    case "pow":
      return power(number(tree[1], names, below), tree[2]);
    case "if":
      return evaluate(truth(tree[1], names, below) ? tree[2] : tree[3], names, below);
    case "not":
      return !truth(tree[1], names, below);
    case "and":
      return truth(tree[1], names, below) && truth(tree[2], names, below);
    case "or":
      return truth(tree[1], names, below) || truth(tree[2], names, below);
    case "neg":
      return inContext(number(tree[1], names, below).neg());
  }
  const operation = ON_TWO.get(tree[0]);
  if (!operation) throw new FormulaError(`'${tree[0]}' is unknown; the plan was made for a newer Seamtag`);
  return operation(number(tree[1], names, below), number(tree[2], names, below));
}

function number(tree: Tree, names: Names, depth: number): Decimal {
  const value = evaluate(tree, names, depth);
  if (typeof value === "boolean") throw new FormulaError("yes or no stands where a number is needed");
  return value;
}

function truth(tree: Tree, names: Names, depth: number): boolean {
  const value = evaluate(tree, names, depth);
  if (typeof value !== "boolean") throw new FormulaError("a number stands where yes or no is needed");
  return value;
}

type OnTwo = (a: Decimal, b: Decimal) => Decimal | boolean;

const ON_TWO: ReadonlyMap<string, OnTwo> = new Map<string, OnTwo>([
  ["lt", (a, b) => a.lt(b)],
  ["le", (a, b) => a.lte(b)],
  ["gt", (a, b) => a.gt(b)],
  ["ge", (a, b) => a.gte(b)],
  ["eq", (a, b) => a.eq(b)],
  ["ne", (a, b) => !a.eq(b)],
  ["add", (a, b) => bounded(a.plus(b))],
  ["sub", (a, b) => bounded(a.minus(b))],
  ["mul", times],
  ["div", dividedBy],
]);

function times(a: Decimal, b: Decimal): Decimal {
  return bounded(a.times(b));
}

function dividedBy(a: Decimal, b: Decimal): Decimal {
  if (b.isZero()) throw new FormulaError("division by zero");
  return bounded(a.div(b));
}

function bounded(value: Decimal): Decimal {
  if (!value.isZero() && value.e > MOST_EXPONENT) throw new FormulaError("the result is too large");
  if (!value.isZero() && value.e < -MOST_EXPONENT) throw new FormulaError("the result is too small");
  return value;
}

/** By repeated multiplication, rounded each time, which any decimal library does alike. */
function power(base: Decimal, exponent: number): Decimal {
  let result = base;
  for (let count = 1; count < exponent; count += 1) result = times(result, base);
  return result;
}

function oneValue(step: string, name: string, names: Names): Decimal {
  const figure = step ? undefined : names.figures.get(name);
  if (figure) return figure;
  const values = names.readings(step, name);
  const first = values[0];
  if (!first) throw new MissingValueError(`no ${step ? `${step}.` : ""}${name}`);
  if (values.some((value) => !value.eq(first))) throw new FormulaError(`readings of ${name} disagree`);
  return first;
}

function callValue(tree: readonly ["call", string, ...Tree[]], names: Names, depth: number): Decimal {
  const [, called, ...parts] = tree;
  if (ON_READINGS.has(called)) return overReadings(called, parts[0], names);
  const values = parts.map((part) => number(part, names, depth));
  const first = values[0] ?? ZERO;
  switch (called) {
    case "min":
      return Decimal.min(...values);
    case "max":
      return Decimal.max(...values);
    case "abs":
      return inContext(first.abs());
    case "sqrt":
      if (first.lt(0)) throw new FormulaError("square root of a negative value");
      return first.sqrt();
  }
  return ofTheTrade(called, values);
}

function ofTheTrade(called: string, values: readonly Decimal[]): Decimal {
  const [wanted, work] = OF_THE_TRADE.get(called) ?? [];
  if (!work || values.length !== wanted) throw new FormulaError(`there is no function ${called}()`);
  try {
    return bounded(work(...values));
  } catch (error) {
    if (error instanceof welding.NoAnswerError) throw new FormulaError(error.message);
    throw error;
  }
}

function overReadings(called: string, item: Tree | undefined, names: Names): Decimal {
  if (item?.[0] !== "name" && item?.[0] !== "item") throw new FormulaError(`${called}() takes one item`);
  const [step, name] = item[0] === "name" ? ["", item[1]] : [item[1], item[2]];
  const values = names.readings(step, name);
  if (called === "count") return new Decimal(values.length);
  if (values.length === 0) throw new MissingValueError(`no ${name}`);
  if (called === "spread" && values.length < 2) throw new MissingValueError(`only one ${name}`);
  switch (called) {
    case "largest":
      return Decimal.max(...values);
    case "smallest":
      return Decimal.min(...values);
    case "spread":
      return Decimal.max(...values).minus(Decimal.min(...values));
  }
  return values.reduce((total, value) => total.plus(value), ZERO).div(values.length);
}

/** The value of the last row whose step is reached. */
function tableValue(name: string, x: Decimal, names: Names, depth: number): Decimal {
  const table = Object.hasOwn(names.tables, name) ? names.tables[name] : undefined;
  if (!table) throw new FormulaError(`there is no table '${name}'`);
  let reached: Tree | null | undefined;
  for (const row of table.rows) {
    const edge = number(row.edge, names, depth);
    if (x.gt(edge) || (x.eq(edge) && row.reached === "from")) reached = row.value;
  }
  if (reached === undefined) throw new FormulaError(`table '${name}' begins above the value`);
  if (reached === null) throw new FormulaError(`table '${name}' has no value there`);
  return number(reached, names, depth);
}
