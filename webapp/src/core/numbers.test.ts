import { describe, expect, test } from "vitest";
import {
  Decimal,
  inContext,
  NumberError,
  nearestFraction,
  parse,
  Quotient,
  shownInches,
  shownShort,
  textOf,
  WIDE,
} from "./numbers";
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

interface Given {
  parse: Typing[];
  text_of: Shown[];
  shown_short: Shown[];
  shown_inches: Shown[];
  nearest_fraction: Shown[];
}

const given = vectors<Given>("numbers");

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

  test.each(given.shown_short)("$value is shown short", ({ value, text }) => {
    expect(shownShort(new Decimal(value))).toBe(text);
  });

  test.each(given.shown_inches)("$value is shown the shop's way", ({ value, finest, text }) => {
    expect(shownInches(new Decimal(value), finest)).toBe(text);
  });

  test.each(given.nearest_fraction)("$value has its nearest mark on the rule", ({ value, finest, text }) => {
    expect(nearestFraction(new Decimal(value), finest)).toBe(text);
  });
});

/** What a product must be, by whole numbers of any size. */
function product(a: string, b: string): string {
  return (BigInt(a) * BigInt(b)).toString();
}

describe("a quotient", () => {
  const [long, longer] = ["7".repeat(28), "8896443230521".repeat(5)];

  test("is worked in WIDE from whatever values it is made, so that products are exact", () => {
    const quotient = new Quotient(new Decimal(long), new Decimal(longer));
    for (const part of [quotient.over, quotient.under, quotient.less(new Decimal(3)).over, quotient.negative().over]) {
      expect(part.constructor).toBe(WIDE);
    }
    expect(quotient.over.times(longer).toFixed()).toBe(product(long, longer));
    expect(new Decimal(long).times(longer).toFixed()).not.toBe(product(long, longer));
    const less = quotient.less(new Decimal("1e-20")).over;
    expect(less.times("1e20").toFixed()).toBe((BigInt(`${long}${"0".repeat(20)}`) - BigInt(longer)).toString());
  });

  test("is compared by products that are not rounded", () => {
    const [over, under] = [new WIDE("1".repeat(60)), new WIDE("3".repeat(60))];
    const third = new Quotient(new Decimal(1), new Decimal(3));
    expect(new Quotient(over, under).compare(third)).toBe(0);
    expect(new Quotient(over.plus("1e-40"), under).compare(third)).toBe(1);
    expect(new Quotient(over.minus("1e-40"), under).compare(third)).toBe(-1);
    expect(third.compare(third.negative())).toBe(1);
  });

  test("is divided to a value of 28 digits that works on in 28 digits", () => {
    const value = new Quotient(new Decimal(2), new Decimal(3)).value();
    expect(value.constructor).toBe(Decimal);
    expect(textOf(value)).toBe("0.6666666666666666666666666667");
    expect(textOf(value.times(value))).toBe("0.4444444444444444444444444445");
    expect(textOf(inContext(new Decimal(long).times(long)))).toBe(textOf(new Decimal(long).times(long)));
  });
});
