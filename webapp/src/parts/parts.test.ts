import { describe, expect, test } from "vitest";
import { Decimal } from "../core/numbers";
import { withFraction } from "./keypad";
import { limitText } from "./limit-bar";
import { partyOf } from "./parties";

describe("fraction keys", () => {
  test.each([
    ["5", "1/64", "5/64"],
    ["1 5", "1/16", "1 5/16"],
    ["5/16", "1/64", "5/64"],
    ["", "1/8", ""],
    [".5", "1/8", ".5"],
  ])("'%s' and the key %s give '%s'", (typed, key, given) => {
    expect(withFraction(typed, key)).toBe(given);
  });
});

describe("limits in words", () => {
  const limits = (lower: string | null, upper: string | null) => ({
    lower: lower === null ? null : new Decimal(lower),
    upper: upper === null ? null : new Decimal(upper),
    reason: "",
  });
  test.each([
    ["5.875", "6.125", "5 7/8 to 6 1/8 in"],
    [null, "0.140625", "at most 9/64 in"],
    ["0.375", null, "at least 3/8 in"],
    [null, null, "recorded, no limit"],
  ])("%s to %s", (lower, upper, words) => {
    expect(limitText(limits(lower, upper), "in")).toBe(words);
  });
});

test("roles speak for parties", () => {
  expect(partyOf(["welder"])).toBe("maker");
  expect(partyOf(["supervisor"])).toBe("QC");
  expect(partyOf(["foreman"])).toBe("");
});
