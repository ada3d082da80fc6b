import { expect, test } from "vitest";
import { FormulaError, holds, MissingValueError, type Names, type Table, type Tree, walk, workOut } from "./formula";
import { Decimal, textOf } from "./numbers";
import { errorOf, vectors } from "./vectors";

interface Case {
  text?: string;
  tree: Tree;
  figures: Record<string, string>;
  readings: Record<string, string[]>;
  tables: Record<string, Table>;
  value?: string;
  holds?: boolean;
  asks?: string;
  error?: string;
  missing?: boolean;
}

const { cases } = vectors<{ cases: Case[] }>("formula");

function namesOf(given: Case): Names {
  const figures = Object.entries(given.figures).map(([name, value]) => [name, new Decimal(value)] as const);
  const readings = (step: string, item: string) =>
    (given.readings[`${step}.${item}`] ?? []).map((value) => new Decimal(value));
  return { figures: new Map(figures), readings, tables: given.tables };
}

test.each(cases.map((one) => [one.text ?? JSON.stringify(one.tree), one] as const))("%s is worked out", (_, one) => {
  const work = one.holds !== undefined || one.asks === "holds" ? holds : workOut;
  if (one.error !== undefined) {
    const thrown = errorOf(() => work(one.tree, namesOf(one)));
    expect(thrown).toBeInstanceOf(FormulaError);
    expect(thrown.message).toBe(one.error);
    expect(thrown instanceof MissingValueError).toBe(one.missing ?? false);
    return;
  }
  const found = work(one.tree, namesOf(one));
  expect(typeof found === "boolean" ? found : textOf(found)).toBe(one.holds ?? one.value);
});

function powerTower(base: string, levels: number): Tree {
  let tree: Tree = ["num", base];
  for (let level = 0; level < levels; level += 1) tree = ["pow", tree, 6];
  return tree;
}

const nothing: Names = { figures: new Map(), readings: () => [], tables: {} };

test("a power beyond every exponent is too large, and too small on the other side", () => {
  expect(errorOf(() => workOut(powerTower("100000000000000000000", 7), nothing)).message).toBe(
    "the result is too large",
  );
  expect(errorOf(() => workOut(powerTower("0.00000000000000000001", 7), nothing)).message).toBe(
    "the result is too small",
  );
});

test("a word of a newer plan is named before what it is about is looked at", () => {
  const tree = ["round", ["name", "t"], 2] as unknown as Tree;
  expect(errorOf(() => workOut(tree, nothing)).message).toBe(
    "'round' is unknown; the plan was made for a newer Seamtag",
  );
});

test("a name that every JavaScript object has is missing like any other", () => {
  expect(errorOf(() => workOut(["name", "constructor"], nothing))).toBeInstanceOf(MissingValueError);
  expect(errorOf(() => workOut(["table", "toString", ["num", "1"]], nothing)).message).toBe(
    "there is no table 'toString'",
  );
});

test("walking a tree meets it and every tree below it", () => {
  const tree: Tree = ["add", ["neg", ["name", "a"]], ["call", "mean", ["item", "fit", "gap"]]];
  expect([...walk(tree)].map((part) => part[0])).toEqual(["add", "neg", "name", "call", "item"]);
});
