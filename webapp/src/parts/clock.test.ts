import { describe, expect, test } from "vitest";
import { degreesOf, faceOf, nearest } from "./clock";

describe("places on a clock's face", () => {
  test.each([
    ["12", 0],
    ["3", 90],
    ["4:30", 135],
    ["12:00", 0],
    ["10:30", 315],
    ["9 o'clock", 270],
  ])("%s stands at %s degrees", (name, degrees) => {
    expect(degreesOf(name)).toBe(degrees);
  });

  test.each(["0", "13", "front", "3:60", "14-7", "12 front", ""])("'%s' is no hour", (name) => {
    expect(degreesOf(name)).toBeNull();
  });

  const clock = (...names: string[]) => faceOf({ style: "clock", names });

  test("a face is made of a clock's places", () => {
    expect(clock("12", "3", "6", "9")).toEqual([
      ["12", 0],
      ["3", 90],
      ["6", 180],
      ["9", 270],
    ]);
    expect(clock("12", "6")).toHaveLength(2);
  });

  test("numbers and names are no hours, whatever they look like", () => {
    expect(faceOf({ style: "numbered", names: ["1", "2", "3", "4"] })).toBeNull();
    expect(faceOf({ names: ["12", "3", "6", "9"] })).toBeNull();
    expect(clock("12", "3", "6", "front")).toBeNull();
    expect(clock()).toBeNull();
    expect(faceOf(null)).toBeNull();
  });

  test("places too near to each other for a glove are a strip", () => {
    expect(clock("12", "12:00", "6")).toBeNull();
    expect(clock("12", "12:30", "6")).toBeNull();
    expect(clock("11:30", "12:30", "6")).toHaveLength(3);
    expect(nearest(clock("11:30", "12:30", "6") ?? [])).toBe(30);
    expect(nearest(clock("12", "3", "6", "9") ?? [])).toBe(90);
  });
});
