import { describe, expect, test } from "vitest";
import { Decimal, NumberError, nearestFraction, parse, shownInches, textOf } from "./numbers";
import { errorOf, vectors } from "./vectors";

interface Typing {
  text: string;
  comma: boolean;
  value?: string;
  doubt?: string;
  error?: string;
}

interface Shown {
  value: string;
  finest?: number;
  text: string;
}

const given = vectors<{ parse: Typing[]; text_of: Shown[]; shown_inches: Shown[]; nearest_fraction: Shown[] }>(
  "numbers",
);

describe("a typed number", () => {
  test.each(given.parse)("'$text' is read or refused with its message", ({ text, comma, value, doubt, error }) => {
    if (error !== undefined) {
      const thrown = errorOf(() => parse(text, comma));
      expect(thrown).toBeInstanceOf(NumberError);
      expect(thrown.message).toBe(error);
      return;
    }
    const typed = parse(text, comma);
    expect([textOf(typed.value), typed.doubt]).toEqual([value, doubt ?? ""]);
    expect(typed.value.isZero() && typed.value.isNegative()).toBe(false);
  });
});

describe("a value", () => {
  test.each(given.text_of)("$value is written in plain figures", ({ value, text }) => {
    expect(textOf(new Decimal(value))).toBe(text);
  });

  test.each(given.shown_inches)("$value is shown the shop's way", ({ value, finest, text }) => {
    expect(shownInches(new Decimal(value), finest)).toBe(text);
  });

  test.each(given.nearest_fraction)("$value has its nearest mark on the rule", ({ value, finest, text }) => {
    expect(nearestFraction(new Decimal(value), finest)).toBe(text);
  });
});
