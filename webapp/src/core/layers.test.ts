import { expect, test } from "vitest";
import type { Judged } from "./judging";
import { layersOf } from "./layers";
import { areMarks, type PhotoMark } from "./records";
import { vectors } from "./vectors";

interface Given {
  marks: { marks: unknown; fit: boolean }[];
  layers: {
    rule: string;
    of: string;
    records: { id: string; by: string; sha256: string; marks?: unknown }[];
    void: string[];
    layer: PhotoMark[];
  }[];
}

const given = vectors<Given>("layers");

test.each(given.marks)("marks are looked at to the letter: $marks", ({ marks, fit }) => {
  expect(areMarks(marks)).toBe(fit);
});

test.each(given.layers)("$rule", ({ records, of, layer, ...rest }) => {
  const judged = records.map(
    ({ id, by, ...body }) => ({ id, type: "photo", payload: { by }, body }) as unknown as Judged,
  );
  const found = layersOf(judged, new Set(rest.void), of);
  expect(found.flatMap(({ marks }) => marks)).toEqual(layer);
  expect(layersOf([...judged].reverse(), new Set(rest.void), of)).toEqual(found);
});
