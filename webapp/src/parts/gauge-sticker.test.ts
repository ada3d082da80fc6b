import { describe, expect, test } from "vitest";
import { gaugeOfSticker, ranOut } from "./gauge-sticker";

const bore = { id: "bg-2", kind: "bore gauge", name: "Bore gauge 2", uom: "in", due: "2026-12-31" };
const old = { id: "bg-1", kind: "bore gauge", name: "Bore gauge 1", uom: "in", due: "2026-03-06" };
const rule = { id: "sr-1", kind: "steel rule", name: "Steel rule", uom: "in", due: null };
const shelf = [bore, old, rule];
const read = (id: string) => gaugeOfSticker(`HTTPS://SHOP.EXAMPLE/G/${id}`, "bore gauge", shelf, "2026-11-25");

describe("the sticker of a gauge", () => {
  test("takes the gauge, whatever the case of its id", () => {
    expect(read("BG-2")).toEqual({ gauge: bore });
  });

  test("that has run out, is of another kind or is not known says so, and what to do", () => {
    expect(read("BG-1")).toEqual({
      says: "The calibration of Bore gauge 1 ran out on Mar 6, 2026. Take another.",
    });
    expect(read("SR-1")).toEqual({ says: "Steel rule is a steel rule; a bore gauge is asked for here." });
    expect(read("XX-9")).toEqual({
      says: "Gauge XX-9 is not known on this phone. Connect once to fetch the list, or ask the planner to enter it.",
    });
  });

  test("is told from the tag of a piece", () => {
    expect(gaugeOfSticker("HTTPS://SHOP.EXAMPLE/T/7GMHZED", "bore gauge", shelf, "2026-11-25")).toEqual({
      says: "That is no gauge's sticker. Scan the one that is on the gauge.",
    });
  });
});

test("a calibration holds to the end of its last day", () => {
  expect(ranOut(bore, "2026-12-31")).toBe(false);
  expect(ranOut(bore, "2027-01-01")).toBe(true);
  expect(ranOut(rule, "2027-01-01")).toBe(false);
});
