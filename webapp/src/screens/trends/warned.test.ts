import { describe, expect, test } from "vitest";
import type { ListedItem } from "./asking";
import { type Flag, keyOf, lookFirst, standsOf, warnedOf } from "./warned";

const flag = (job: string, step: string, item: string) => ({ job, step: { code: step }, item: { code: item } }) as Flag;
const listed = (item: string, out = 0, plan = "wetback") => ({ plan, step: "expanded", item, out }) as ListedItem;

describe("flags of an item", () => {
  const place = { step: "expanded", item: "wr", filters: { job: [{ value: "2203", count: 26 }] } };

  test("are those of its step and of the jobs its values are from", () => {
    const own = flag("2203", "expanded", "wr");
    const others = [flag("2203", "expanded", "id"), flag("2203", "in", "wr"), flag("2299", "expanded", "wr")];
    expect(warnedOf([...others, own], place)).toEqual([own]);
  });
});

describe("the list", () => {
  const items = [listed("id"), listed("hole", 2), listed("wr", 0, "receiver"), listed("wr"), listed("gap", 1)];
  const stands = standsOf(items, new Set([keyOf("wetback", "expanded", "wr")]));

  test("a flag is about the item of its own plan alone", () => {
    expect(stands.map(({ drifting }) => drifting)).toEqual([false, false, false, true, false]);
  });

  test("begins with what drifts, then what is out, the rest as it was", () => {
    expect(lookFirst(stands).map(({ item }) => item)).toEqual([3, 1, 4, 0, 2].map((at) => items[at]));
  });
});
