import { describe, expect, test } from "vitest";
import { t } from "../../language";
import type { Trend } from "./asking";
import { firedOf, newestSignal, partsOf, placeOf } from "./signals";

const MARKS = ["TF-3F", "TF-3F", "TF-3F", "TF-2T", "TF-2T", "TF-2T"];
const points = {
  value: [1, 2, 3, 4, 5, 6],
  mark: MARKS,
  station: MARKS.map((_, place) => `tube ${place}-7`),
} as unknown as Trend["points"];

describe("signals", () => {
  test("each place counts once, in order", () => {
    expect(firedOf({ signals: { "beyond-3": [4, 1], "eight-on-one-side": [4, 2] } })).toEqual([1, 2, 4]);
  });

  test("the newest is told by its place, by how many came after it, and by the pieces", () => {
    const found = newestSignal({ points, signals: { "beyond-3": [1, 2], "eight-on-one-side": [2, 4] } });
    expect(found).toEqual({
      rule: "eight-on-one-side",
      at: 4,
      ago: 1,
      count: 3,
      pieces: [
        ["TF-2T", 1],
        ["TF-3F", 2],
      ],
    });
    expect(placeOf(points, 4)).toBe("TF-2T tube 4-7");
  });

  test("where two rules fire at the newest, the farther point is told of", () => {
    expect(newestSignal({ points, signals: { "eight-on-one-side": [5], "beyond-3": [5] } })?.rule).toBe("beyond-3");
  });

  test("there is none where no rule fires", () => {
    expect(newestSignal({ points, signals: { "beyond-3": [] } })).toBeNull();
  });

  test("the sentence says up to where a run counts, not that it lasts", () => {
    const told = { rule: t("trends-run-eight-on-one-side"), ends: "to", place: "TF-2T tube 4-7", ago: 1 };
    expect(t("trends-out-of-control", { ...told, count: 3, pieces: "TF-2T (1), TF-3F (2)" })).toBe(
      "Not in control: eight in a row on one side of the centre, up to TF-2T tube 4-7, 1 value before the newest. " +
        "3 signals in all: TF-2T (1), TF-3F (2).",
    );
    expect(t("trends-out-of-control", { ...told, ago: 0, count: 1, pieces: "TF-2T (1)" })).toBe(
      "Not in control: eight in a row on one side of the centre, up to TF-2T tube 4-7, the newest value.",
    );
  });

  test("a sentence is cut around what stays on one line", () => {
    const sentence = "up to TF-2T tube 4-7. In all: TF-2T (1).";
    expect(partsOf(sentence, ["TF-2T (1)", "TF-2T tube 4-7"])).toEqual([
      "up to ",
      "TF-2T tube 4-7",
      ". In all: ",
      "TF-2T (1)",
      ".",
    ]);
    expect(partsOf(sentence, ["", "elsewhere"])).toEqual([sentence]);
  });
});
