import { describe, expect, test, vi } from "vitest";
import type { OpenJob } from "../../store/jobs";
import type { Flag } from "./asking";
import { limitFact } from "./facts";
import { inPlace, lookedAt } from "./order";
import { knownOf, placeOf } from "./signing";
import { isFinding, wordsFor } from "./words";

const opened = vi.hoisted(() => ({ job: null as unknown }));
vi.mock("../../store/jobs", async (actual) => ({ ...(await actual<object>()), openJob: async () => opened.job }));

const flag = (id: string, value = "1"): Flag => ({ id, value }) as Flag;
const ids = (flags: readonly Flag[]) => flags.map(({ id }) => id).join(" ");

describe("the order on the screen", () => {
  const shown = [flag("a"), flag("b"), flag("c")];

  test("is the server's while nobody decides", () => {
    expect(ids(inPlace(shown, [flag("n"), flag("c"), flag("a")], false))).toBe("n c a");
  });

  test("stays while somebody decides: what is new stands at the end, what is gone stays", () => {
    const held = inPlace(shown, [flag("n"), flag("c", "2"), flag("a")], true);
    expect(ids(held)).toBe("a b c n");
    expect(held[2]?.value).toBe("2");
  });

  test("goes on with what stands in the place of a flag that is gone", () => {
    expect(lookedAt(shown, "b", 0)?.id).toBe("b");
    expect(lookedAt(shown, "gone", 1)?.id).toBe("b");
    expect(lookedAt(shown, "gone", 9)?.id).toBe("c");
    expect(lookedAt([], "gone", 1)).toBeUndefined();
  });
});

describe("what may be said", () => {
  test("of a finding any word; of a doubt, alone or among findings, that it was seen or is done again", () => {
    expect(wordsFor(["rejected", "out of tolerance"])).toEqual(["use as is", "rework", "repair", "scrap"]);
    expect(wordsFor(["gauge ran out"])).toEqual(["use as is", "rework"]);
    expect(wordsFor(["rejected", "gauge ran out"])).toEqual(["use as is", "rework"]);
    expect(["sign-off shaken", "run rule broken", "clock far off"].map(isFinding)).toEqual([true, false, false]);
  });

  test("of a finding about a value worked out, at the place of that value", () => {
    const job = (kind: string) => ({ progress: { job: { item: () => ({ kind }) } } }) as unknown as OpenJob;
    const about = (kind: string) =>
      ({ kind, step: { code: "roll" }, item: { code: "thinning" }, station: "14-7" }) as unknown as Flag;
    const place = { step: "roll", item: "thinning", station: "14-7" };
    expect(placeOf(job("derived"), about("out of tolerance"))).toEqual(place);
    expect(placeOf(job("derived"), about("readings disagree"))).toEqual(place);
    expect(placeOf(job("derived"), about("run rule broken"))).toEqual({});
    expect(placeOf(job("measure"), about("out of tolerance"))).toEqual({});
  });
});

test("a limit's source is told where it says more than what the limit binds by", () => {
  expect(limitFact({ binds: "drawing", source: "HG-360.2, second-hand" })).toBe(
    "binds by drawing: HG-360.2, second-hand",
  );
  expect(limitFact({ binds: "drawing", source: " Drawing" })).toBe("binds by drawing");
  expect(limitFact({ binds: "", source: "" })).toBe("binds by shop");
});

describe("what is known before signing", () => {
  const about = (kind: string) =>
    ({ kind, job: "J", record: "r", piece: { id: "J.W" }, step: {}, item: { binds: "code" } }) as unknown as Flag;
  const pieces = new Map([["J.F", { mark: "FT" }]]);
  const job = (plan: object) => ({
    progress: {
      job: { plan, basis: { plan: "P" }, pieces, wholes: () => ["J.F"], item: () => ({ kind: "derived" }) },
      piece: () => ({ standing: { isOwn }, nextRepair: () => 2 }),
    },
  });

  const isOwn = vi.fn((person: string, ..._: unknown[]) => person === "ann");

  test("whether it is one's own is the core's to say, of the place that the word would name", async () => {
    opened.job = job({});
    const flag = { ...about("rejected"), step: { code: "roll" }, item: { code: "thinning" }, station: "14-7" } as Flag;
    expect([(await knownOf(flag, "ann")).own, (await knownOf(flag, "cid")).own]).toEqual([true, false]);
    const place = { piece: "J.W", step: "roll", item: "thinning", station: "14-7" };
    expect(isOwn).toHaveBeenCalledWith("ann", ["r"], place, "P");
    await knownOf({ ...flag, kind: "gauge ran out" }, "ann");
    expect(isOwn).toHaveBeenLastCalledWith("ann", ["r"], { piece: "J.W", step: "", item: "", station: "" }, "P");
  });

  test("who must agree, of a finding only; and the number that a repair would have", async () => {
    opened.job = job({ agree: { code: ["engineering", "AI"] } });
    expect(await knownOf(about("rejected"), "cid")).toMatchObject({ agree: ["engineering", "AI"], cycle: 2 });
    expect((await knownOf(about("rejected"), "cid")).wholes).toEqual(["FT"]);
    expect((await knownOf(about("gauge ran out"), "cid")).agree).toEqual([]);
  });

  test("a job that is not on this device", async () => {
    opened.job = null;
    expect(await knownOf(about("rejected"), "cid")).toMatchObject({ job: null, own: false });
  });
});
