import { describe, expect, it } from "vitest";
import { apart, inReadingOrder, moved } from "./pins";

const pin = (piece: string, x: number, y: number) => ({ piece, x, y });
const names = (pins: Iterable<{ piece: string }>) => [...pins].map(({ piece }) => piece).join(" ");

describe("pins on a drawing", () => {
  it("are read line by line, though no line is quite level", () => {
    const pins = [pin("d", 9000, 6100), pin("b", 5000, 900), pin("c", 1000, 6000), pin("a", 200, 1200)];
    expect(names(inReadingOrder(pins))).toBe("a b c d");
  });

  it("are hit only where no other lies as close as a finger is wide, the more wanted first", () => {
    const pins = [pin("a", 1000, 1000), pin("b", 2000, 1000), pin("c", 5000, 1000), pin("d", 1000, 4000)];
    expect(names(apart(pins, 328, 220))).toBe("a c d");
    expect(names(apart(pins, 492, 330))).toBe("a b c d");
  });

  it("stay inside the picture", () => {
    expect(moved(pin("a", 50, 9990), -100, 100)).toEqual(pin("a", 0, 10_000));
    expect(moved(pin("a", 50, 50), 10, -10)).toEqual(pin("a", 60, 40));
  });
});
