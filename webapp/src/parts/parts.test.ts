import { describe, expect, test } from "vitest";
import { Decimal } from "../core/numbers";
import { speakFrom } from "../language";
import english from "../locales/en.ftl?raw";
import { comma } from "./customs";
import { withFraction } from "./keypad";
import { beside, limitsRead, limitText, marginRead, shownValue, uomsFor } from "./notation";
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

describe("readings beside their limits", () => {
  const limits = { lower: null, upper: new Decimal("0.125"), reason: "" };
  const long = { lower: new Decimal("7.1133676543218"), upper: new Decimal("7.2133676543218"), reason: "" };

  test("a limit is shown in the other system, rounded inward", () => {
    expect(limitsRead(limits, "in", "in")).toBe("at most 1/8 in (at most 3.17 mm)");
    expect(limitsRead(limits, "in", "mm")).toBe("at most 3.17 mm (at most 1/8 in)");
    expect(limitsRead({ ...limits, lower: new Decimal("0.0625") }, "in", "mm")).toBe(
      "1.59 to 3.17 mm (1/16 to 1/8 in)",
    );
    expect(limitsRead({ lower: null, upper: null, reason: "" }, "in", "mm")).toBe("recorded, no limit");
  });

  test("a limit worked out is shown short, rounded inward", () => {
    expect(limitText(long, "in")).toBe("7.1134 to 7.2133 in");
  });

  test.each([
    ["0.15625", "5/32", "0.15625"],
    ["0.15625", "0.15625", "5/32"],
    ["0.15", ".15", "about 5/32"],
    ["2", "2", ""],
    ["1.875", "1⅞", "1.875"],
  ])("%s typed as %s stands beside '%s'", (value, typed, words) => {
    expect(beside(new Decimal(value), "in", typed)).toBe(words);
  });

  test("a converted value is shown short", () => {
    expect(shownValue(new Decimal("0.1574803149606299212598425197"), "in")).toBe("0.1575");
    expect(shownValue(marginRead(new Decimal("0.0078125"), "in", "mm"), "mm")).toBe("0.1984");
    expect(beside(new Decimal("4"), "mm", "4")).toBe("");
  });

  test("a reading may be typed in the other system, and in the gauge's uom where it can be turned", () => {
    expect(uomsFor("in", undefined)).toEqual(["in", "mm"]);
    expect(uomsFor("in", "mil")).toEqual(["in", "mm", "mil"]);
    expect(uomsFor("in", "psi")).toEqual(["in", "mm"]);
    expect(uomsFor("degF", "degC")).toEqual(["degF", "degC"]);
    expect(uomsFor("count", undefined)).toEqual(["count"]);
    expect(uomsFor("deg", "deg")).toEqual(["deg"]);
  });
});

describe("the decimal mark is asked for when it is written", () => {
  const limits = { lower: null, upper: new Decimal("0.1"), reason: "" };

  test("in a region with a comma", () => {
    speakFrom(english, "en", "de-DE");
    expect(comma()).toBe(true);
    expect(limitText(limits, "in")).toBe("at most 0,1 in");
    expect(shownValue(new Decimal("2.543"), "in")).toBe("2,543");
    speakFrom(english, "en", "en-US");
    expect(comma()).toBe(false);
    expect(limitText(limits, "in")).toBe("at most 0.1 in");
  });

  test("a limit that is not known says why", () => {
    expect(limitText({ lower: null, upper: null, reason: "limit not known: no D_shell" }, "in")).toBe(
      "limit not known: no D_shell",
    );
  });
});
