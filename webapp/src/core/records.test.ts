import { expect, test } from "vitest";
import { type Bodies, type Common, type Kind, type Payload, type Point, speakingRoles } from "./records";

const common: Common = {
  id: "r1",
  schema: 1,
  core: 1,
  job: "j",
  piece: "p",
  found_by: "typed",
  by: "ann",
  device: "d",
  seq: 1,
  prev: "",
  seen: { number: 1, hash: "" },
  basis: { plan: "h", figures: 1 },
  at: "2025-01-05T10:00:00+01:00",
};

function payload<K extends Kind>(type: K, body: Bodies[K]): Payload {
  return { ...common, type, body } as Payload;
}

const welders: { points: Point[] } = { points: [{ party: "maker", point: "sign", trade: "welder" }] };

test("a sign-off speaks by the roles of its party, a maker's by the trade the plan asks", () => {
  expect(speakingRoles(payload("sign-off", { party: "QC", covers: [] }), welders)).toEqual(["inspector", "supervisor"]);
  expect(speakingRoles(payload("sign-off", { party: "maker", covers: [] }), welders)).toEqual(["welder"]);
  expect(speakingRoles(payload("sign-off", { party: "maker", covers: [] }), null)).toContain("fitter");
});

test("that a party did not come after notice is the shop's QC to say, who gave the notice", () => {
  const body = { party: "AI", covers: [], attendance: "not attended after notice" } as const;
  expect(speakingRoles(payload("sign-off", body), welders)).toEqual(["inspector", "supervisor"]);
});

test("a page that a party from outside signed in ink may be entered by the shop's QC as well", () => {
  const page = "ab".repeat(32);
  const roles = (party: "AI" | "customer" | "maker") =>
    speakingRoles(payload("sign-off", { party, covers: [], page }), welders);
  expect(roles("AI")).toEqual(["authorized inspector", "inspector", "supervisor"]);
  expect(roles("customer")).toEqual(["customer", "inspector", "supervisor"]);
  expect(roles("maker")).toEqual(["welder"]);
});

test("dispositions and voids are the supervisor's, agreements and points their party's", () => {
  expect(speakingRoles(payload("void", { record: "r2", reason: "" }), null)).toEqual(["supervisor"]);
  expect(speakingRoles(payload("agreement", { disposition: "d1", party: "engineering" }), null)).toEqual(["engineer"]);
  expect(speakingRoles(payload("point", { party: "AI", point: "H" }), null)).toEqual(["authorized inspector"]);
  expect(speakingRoles(payload("point", { party: "QC", point: "H" }), null)).toEqual(["supervisor", "planner"]);
});

test("anybody may record a reading", () => {
  expect(speakingRoles(payload("reading", { entered: "1", uom: "in" }), null)).toBeNull();
});
