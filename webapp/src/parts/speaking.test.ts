import { expect, test } from "vitest";
import { namesOf } from "./speaking";

const people = new Map(
  [
    ["a", "Leonora Fenwick-Diaz", "authorized inspector"],
    ["b", "Priya Solheim", "inspector"],
    ["c", "Owen Dlomo", "inspector"],
    ["d", "Rosa Lindholm", "welder"],
    ["e", "Emil Saavedra", "fitter"],
    ["f", "Ilka Brandt", "tube roller"],
    ["g", "Kofi Arnason", "welder"],
  ].map(([id = "", name = "", role = ""]) => [id, { id, name, roles: [role], stamp: "" }]),
);

test("who can speak for a party is named where they are few", () => {
  expect(namesOf("AI", people)).toBe("Leonora Fenwick-Diaz");
  expect(namesOf("QC", people)).toBe("Owen Dlomo or Priya Solheim");
});

test("nobody is named where there is none, or where there are many", () => {
  expect(namesOf("customer", people)).toBe("");
  expect(namesOf("maker", people)).toBe("");
  expect(namesOf("AI", undefined)).toBe("");
});
