import { describe, expect, test } from "vitest";
import type { Procedure } from "../core/procedures";
import { speakFrom } from "../language";
import english from "../locales/en.ftl?raw";
import { asked, daysUntil, energyOf, mostEnergyText, signOf } from "./spot";

const W12: Procedure = {
  id: "W-12",
  process: "SMAW",
  preheat_min: "50",
  interpass_max: "550",
  volts: ["20", "28"],
  heat_input_max: "45",
};

describe("beside its range", () => {
  test.each([
    ["preheat", "50", "in"],
    ["preheat", "49.9", "out"],
    ["interpass", "550", "in"],
    ["interpass", "550.1", "out"],
    ["volts", "28", "in"],
    ["volts", "19", "out"],
    ["volts", "", ""],
    ["volts", "2o", ""],
    ["amps", "9999", ""],
  ] as const)("%s of '%s' is '%s'", (name, typed, sign) => {
    expect(signOf(W12, name, typed)).toBe(sign);
    expect(signOf(undefined, name, typed)).toBe("");
  });

  test("what is asked is told in words", () => {
    speakFrom(english, "en");
    expect(["preheat", "interpass", "volts", "amps"].map((name) => asked(W12, name as "volts"))).toEqual([
      "at least 50 degF",
      "at most 550 degF",
      "20 to 28 V",
      "",
    ]);
    expect(mostEnergyText(W12)).toBe("at most 45 kJ/in");
  });
});

describe("arc energy", () => {
  const at = (volts: string, amps: string, travel: string) => energyOf({ volts, amps, travel }, W12);

  test("is there once volts, amps and travel are", () => {
    expect(energyOf({ volts: "24", amps: "120" }, W12)).toBeNull();
    expect(at("24", "120", "0")).toBeNull();
    expect(energyOf({ volts: "24", amps: "120", travel: "7" })).toEqual({ text: "24.69", sign: "" });
  });

  test("is judged at its edge without rounding, and shown no lower than it is where it is too high", () => {
    expect(at("25", "120", "4")).toEqual({ text: "45", sign: "in" });
    expect(at("25", "120", "3.9999999")).toEqual({ text: "45.0001", sign: "out" });
  });
});

test("days to a lapse are whole, over a change of the clock as well", () => {
  expect([daysUntil("2026-11-26", "2026-11-25"), daysUntil("2026-11-02", "2026-10-31")]).toEqual([1, 2]);
});
