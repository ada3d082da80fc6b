import { expect, test } from "vitest";
import { Decimal, textOf, WIDE } from "./numbers";
import { COUNTERPARTS, conversion, UOMS } from "./uoms";
import { vectors } from "./vectors";

interface Pair {
  from: string;
  to: string;
}

interface Given {
  conversion: (Pair & { value: string; gives: string | null })[];
  of_interval: (Pair & { interval: string; gives: string })[];
}

const given = vectors<Given>("uoms");

test.each(given.conversion)("$value $from in $to is $gives", ({ from, to, value, gives }) => {
  const found = conversion(from, to);
  expect(found && textOf(found.of(new Decimal(value)).value())).toBe(gives);
});

test.each(given.of_interval)("an uncertainty of $interval $from is $gives $to", ({ from, to, interval, gives }) => {
  expect(textOf(conversion(from, to)?.ofInterval(new Decimal(interval)).value() ?? new Decimal(NaN))).toBe(gives);
});

test("a conversion is of whole numbers in WIDE, its result too, and is worked out once", () => {
  for (const written of UOMS.keys()) {
    for (const wanted of UOMS.keys()) {
      const found = conversion(written, wanted);
      expect(found).toBe(conversion(written, wanted));
      if (!found) continue;
      const parts = [found.times, found.plus, found.over];
      expect(parts.every((part) => part.constructor === WIDE && part.isInteger())).toBe(true);
      expect(found.over.gt(0)).toBe(true);
    }
  }
  const converted = conversion("psi", "bar")?.of(new Decimal("12345678901234567890"));
  expect(converted?.over.toFixed()).toBe((12345678901234567890n * 8896443230521n).toString());
});

test("every counterpart is of the same quantity and has this one as its own", () => {
  for (const [uom, [other]] of COUNTERPARTS) {
    expect(conversion(uom, other)).not.toBeNull();
    expect(COUNTERPARTS.get(other)?.[0]).toBe(uom);
  }
});
