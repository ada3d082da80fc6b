import { expect, test } from "vitest";
import type { OpenJob } from "../store/jobs";
import { codeOf, isRetired } from "./codes";

const PIECE = "T1.S-1";
const [OLD, NEW] = ["7K3N9QX", "00W8MHN"];

/** A job with the codes of one piece, and what was done with their tags. */
function job(codes: string[], retired: string[], done: [code: string, what: string][] = []): OpenJob {
  const records = done.map(([code, what], place) => ({ id: `r${place}`, type: "tagging", body: { code, what } }));
  const progress = { piece: () => ({ records, standing: { voids: new Map() } }) };
  const tags = new Map(codes.map((code) => [code, PIECE]));
  return { tags, retired: new Set(retired), progress } as unknown as OpenJob;
}

test("a code that the office replaced is out of use, and the new one is the piece's", () => {
  const found = job([OLD, NEW], [OLD], [[OLD, "put on"]]);
  expect([isRetired(found, PIECE, OLD), isRetired(found, PIECE, NEW)]).toEqual([true, false]);
  expect(codeOf(found, PIECE)).toBe(NEW);
});

test("a label printed anew keeps its code, also where an earlier code was replaced", () => {
  expect(isRetired(job([OLD], [], [[OLD, "replaced"]]), PIECE, OLD)).toBe(false);
  const twice = job([OLD, NEW], [OLD], [[NEW, "replaced"]]);
  expect(isRetired(twice, PIECE, NEW)).toBe(false);
  expect(codeOf(twice, PIECE)).toBe(NEW);
});

test("where a piece has two codes in use, a record says which of them was replaced", () => {
  const found = job([OLD, NEW], [], [[OLD, "replaced"]]);
  expect([isRetired(found, PIECE, OLD), isRetired(found, PIECE, NEW)]).toEqual([true, false]);
});
