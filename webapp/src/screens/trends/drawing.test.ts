import { describe, expect, test } from "vitest";
import { fixed, limitText, placesOf } from "./asking";
import { days } from "./drawing";

const on = (day: number, hour: string) => `2026-11-${day}T${hour}:00-05:00`;

describe("under the chart", () => {
  test("stand the hours where all is of one day, the day once", () => {
    const at = [on(25, "17:27"), on(25, "17:30"), on(25, "17:43")];
    expect(days({ at }, [0, 1, 2, 2.5, 3])).toEqual(["", "5:27 PM\nNov 25", "5:30 PM", "", "5:43 PM"]);
  });

  test("stand the days where there are several, each once", () => {
    const at = [on(3, "08:00"), on(3, "09:00"), on(6, "08:00")].map((one) => one.replace("-3T", "-03T"));
    expect(days({ at: at.map((one) => one.replace("-6T", "-06T")) }, [1, 2, 3])).toEqual(["Nov 3", "", "Nov 6"]);
  });
});

describe("figures beside the chart", () => {
  test("a limit is never rounded", () => {
    expect(limitText(2.54125)).toBe("2.54125");
    expect(limitText(2.53125)).toBe("2.53125");
    expect(limitText(0.12345678)).toBe("0.12345678");
    expect(limitText(2.53125, "in")).toBe("2 17/32");
  });

  test("what is worked out has one place more than the values", () => {
    expect(placesOf([2.535, 2.5])).toBe(3);
    expect(fixed(2.540812, placesOf([2.535]) + 1)).toBe("2.5408");
    expect(placesOf([7.04787234])).toBe(3);
    expect(placesOf([])).toBe(0);
  });
});
