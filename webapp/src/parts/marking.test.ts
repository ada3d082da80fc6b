import { expect, test } from "vitest";
import { areMarks } from "../core/records";
import { arrow, arrowPath, inPixels, isNear, placeIn, radius, resized, ring, ringAt, thickness } from "./marking";

const size = { width: 1500, height: 2000 };
const box = { left: 20, top: 100, width: 300, height: 400 };

test("a finger's place is told in ten-thousandths of the photo, in whole numbers", () => {
  expect(placeIn(box, 20, 100)).toEqual({ x: 0, y: 0 });
  expect(placeIn(box, 170, 200)).toEqual({ x: 5000, y: 2500 });
  expect(placeIn(box, 120.4, 233.3)).toEqual({ x: 3347, y: 3333 });
});

test("a finger beside the photo marks its edge", () => {
  expect(placeIn(box, 0, 900)).toEqual({ x: 0, y: 10_000 });
});

test("an arrow begins at its first place and points to its second", () => {
  const mark = arrow({ x: 1000, y: 1000 }, { x: 5000, y: 1000 });
  expect(mark).toEqual({ shape: "arrow", x1: 1000, y1: 1000, x2: 5000, y2: 1000 });
  expect(inPixels(mark, size)).toEqual([
    { x: 150, y: 200 },
    { x: 750, y: 200 },
  ]);
  expect(arrowPath(mark, size)).toBe("M150 200L750 200M670 156L750 200L670 244");
});

test("a ring is round in the picture, whatever the picture's shape", () => {
  const level = ring({ x: 5000, y: 5000 }, { x: 7000, y: 5000 });
  const upright = ring({ x: 5000, y: 5000 }, { x: 5000, y: 6500 });
  expect(radius(level, size)).toBe(300);
  expect(radius(upright, size)).toBe(300);
});

test("a ring grows and shrinks by a key about the same centre, and comes back", () => {
  const first = ringAt({ x: 5000, y: 5000 });
  const grown = resized(first, true, size);
  expect(radius(grown, size) / radius(first, size)).toBeCloseTo(1.3, 2);
  expect([grown.x1, grown.y1]).toEqual([5000, 5000]);
  expect(radius(resized(grown, false, size), size)).toBeCloseTo(radius(first, size), 0);
});

test("however often it is pressed, a ring stays what a record may hold", () => {
  for (const x of [0, 40, 5000, 9990, 10_000]) {
    for (const larger of [true, false]) {
      let mark = ringAt({ x, y: 10_000 });
      for (let press = 0; press < 30; press += 1) mark = resized(mark, larger, size);
      expect(areMarks([mark])).toBe(true);
      expect(radius(mark, size)).toBeGreaterThan(0);
    }
  }
});

test("an arrow has no size to change", () => {
  const mark = arrow({ x: 1, y: 2 }, { x: 3000, y: 4 });
  expect(resized(mark, true, size)).toBe(mark);
});

test("a tap is told from a drag", () => {
  expect(isNear({ x: 100, y: 100 }, { x: 200, y: 200 })).toBe(true);
  expect(isNear({ x: 100, y: 100 }, { x: 400, y: 100 })).toBe(false);
});

test("marks are as thick as the picture is large", () => {
  expect(thickness({ width: 2200, height: 100 })).toBe(20);
});
