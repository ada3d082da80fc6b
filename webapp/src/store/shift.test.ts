import { beforeEach, expect, test } from "vitest";
import type { Step } from "../core/job";
import { setting } from "./db";
import { hasRead, noteRead, noteTold, wasTold } from "./shift";
import { emptyStore } from "./testing";

const HOUR = 3_600_000;
const step = (code: string, ...cautions: string[]): Step => ({
  code,
  number: "1",
  stage: "1",
  kinds: [],
  points: [],
  items: [],
  cautions,
});
const hot = step("weld", "Hot work: the shop's permit first.");

beforeEach(emptyStore);

test("cautions are read once a shift, by each person", async () => {
  expect(await hasRead("ann", hot, 0)).toBe(false);
  await noteRead("ann", hot, 0);
  expect(await hasRead("ann", hot, 9 * HOUR)).toBe(true);
  expect(await hasRead("bob", hot, 9 * HOUR)).toBe(false);
  expect(await hasRead("ann", hot, 10 * HOUR)).toBe(false);
});

test("a step without cautions has nothing to be read", async () => {
  expect(await hasRead("ann", step("fit"), 0)).toBe(true);
});

test("cautions that the plan has changed are read again", async () => {
  await noteRead("ann", hot, 0);
  expect(await hasRead("ann", step("weld", "Hot work: a fire watch as well."), HOUR)).toBe(false);
});

test("a clock that was put back makes nothing count for longer", async () => {
  await noteRead("ann", hot, 5 * HOUR);
  expect(await hasRead("ann", hot, 4 * HOUR)).toBe(false);
});

test("what is older than a shift is dropped", async () => {
  await noteRead("ann", hot, 0);
  await noteRead("ann", step("test", "Stored pressure."), 11 * HOUR);
  expect(Object.keys((await setting<object>("cautions ann")) ?? {})).toEqual(["test\nStored pressure."]);
});

test("somebody's word lets that person past those holds only", () => {
  const blocked = [{ piece: "p", step: "fit", parties: ["QC"] }];
  noteTold("ann", "p", hot, blocked);
  expect(wasTold("ann", "p", hot, blocked)).toBe(true);
  expect(wasTold("bob", "p", hot, blocked)).toBe(false);
  expect(wasTold("ann", "q", hot, blocked)).toBe(false);
  expect(wasTold("ann", "p", hot, [...blocked, { piece: "p", step: "cut", parties: ["AI"] }])).toBe(false);
});
