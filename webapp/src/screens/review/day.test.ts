/** The day that is shown, its figures, and what is kept of it while the server is away. */
import { beforeEach, describe, expect, test, vi } from "vitest";
import { me } from "../../state";
import type { Signer } from "../../store/keys";
import type { Flag, Review } from "./asking";
import { hasBegun, shiftAfter } from "./choosing-day";
import { awayOf, listedIn, ofDay } from "./counts";
import { keepAnswer, keptAnswer, MOST_KEPT, newestIs, whoAsks } from "./heard-before";
import { paperOf } from "./paper";
import { type SignedWord, signed } from "./signing";
import { timeHeard, timeOn } from "./words";

vi.mock("../../state", async () => {
  const { signal } = await import("@preact/signals");
  return { me: signal(null), asleep: signal(false), linkTo: (...parts: string[]) => parts.join("/") };
});

const HOUR = 3600;
const SIX = Date.UTC(2026, 10, 25, 6) / 1000;
const SHIFTS = ["06:00", "14:00", "22:00"];
/** The 25th, which begins at six by its first shift; its whole, or one shift of it. */
const day = (shift = 0) => {
  const start = SIX + (shift > 0 ? shift - 1 : 0) * 8 * HOUR;
  return { start, end: start + (shift > 0 ? 8 : 24) * HOUR - 1, shift, shifts: SHIFTS };
};
/** Milliseconds at so many hours after the beginning of the 25th. */
const at = (hours: number) => (SIX + hours * HOUR) * 1000;

describe("what has begun", () => {
  test("a shift of the day has once its time has come", () => {
    expect([0, 1, 2, 3].map((shift) => hasBegun(day(), shift, at(9)))).toEqual([true, true, true, false]);
    expect([0, 1, 2, 3].map((shift) => hasBegun(day(2), shift, at(9)))).toEqual([true, true, true, false]);
  });

  test("nothing of a day to come has", () => {
    expect([0, 1, 2, 3].some((shift) => hasBegun(day(), shift, at(-1)))).toBe(false);
  });

  test("a shift of today that is over leads into no day after", () => {
    expect(shiftAfter(day(1), at(9))).toBeNull();
    expect(shiftAfter(day(), at(23.9))).toBeNull();
    expect([hasBegun(day(1), 1, at(-20), -1), hasBegun(day(1), 1, at(-30), -1)]).toEqual([true, false]);
  });

  test("the day after is looked at in whole where the same shift of it has not begun", () => {
    expect(shiftAfter(day(3), at(28))).toBe(0);
    expect(shiftAfter(day(3), at(24 + 17))).toBe(3);
    expect(shiftAfter(day(), at(24))).toBe(0);
  });
});

const flags = (...ids: string[]) => ({ flags: ids.map((id) => ({ id }) as Flag) });

describe("the figures", () => {
  const counts: Review["counts"] = {
    recorded: 132,
    flagged: 12,
    released: 1,
    open: 9,
    decided: 3,
    on_the_spot: 2,
    of_day: { open: 9, decided: 1, on_the_spot: 2, closed: 1 },
  };

  test("of the day add up, with what was signed here among them", () => {
    const { flags: all, ...parts } = ofDay(counts, 2);
    expect(parts).toEqual({ open: 7, away: 2, decided: 1, on_the_spot: 2, closed: 1 });
    expect(Object.values(parts).reduce((sum, one) => sum + one)).toBe(all);
  });

  test("of the day stay as the server has them where others are open too", () => {
    expect(ofDay({ ...counts, open: 11 }, 2)).toMatchObject({ flags: 13, open: 9, away: 0 });
  });

  test("each tab has one, the open ones less what was signed here", () => {
    expect(listedIn(counts, 2)).toEqual({ open: 7, decided: 3, "fixed on the spot": 2, closed: 1 });
  });

  test("what was signed here counts until the server's answer knows of it, whichever flags are listed", () => {
    const word = (arrived: boolean) => ({ arrived }) as SignedWord;
    signed.value = new Map([
      ["a", word(false)],
      ["b", word(true)],
      ["c", word(true)],
    ]);
    expect(awayOf(flags("a", "b", "z"), "open")).toBe(2);
    expect(awayOf(flags("z"), "open")).toBe(1);
    expect(awayOf(flags("b"), "decided")).toBe(1);
    expect(awayOf(flags("a", "b"), "decided")).toBe(0);
    signed.value = new Map();
  });
});

describe("answers heard before", () => {
  const keep = (path: string, number = 5) => keepAnswer({ path, found: path, heard: 1, number }, whoAsks());

  beforeEach(() => {
    me.value = { person: "one" } as Signer;
    newestIs(5);
  });

  test("are there again as long as nothing newer came, older ones only where these are let through", () => {
    keep("/a");
    keep("/b", 4);
    expect([keptAnswer("/a", false)?.found, keptAnswer("/b", false), keptAnswer("/b", true)?.found]).toEqual([
      "/a",
      undefined,
      "/b",
    ]);
  });

  test("are so many at most, the oldest of them gone", () => {
    for (let place = 0; place <= MOST_KEPT; place++) keep(`/${place}`);
    expect([keptAnswer("/0", true), keptAnswer("/1", true)?.found]).toEqual([undefined, "/1"]);
  });

  test("are nobody else's", () => {
    keep("/a");
    me.value = { person: "another" } as Signer;
    expect(keptAnswer("/a", true)).toBeUndefined();
    me.value = { person: "one" } as Signer;
    expect(keptAnswer("/a", true)).toBeUndefined();
  });

  test("are not kept for another who is here by the time they come", () => {
    const asked = whoAsks();
    me.value = { person: "another" } as Signer;
    keepAnswer({ path: "/a", found: "/a", heard: 1, number: 5 }, asked);
    expect(keptAnswer("/a", true)).toBeUndefined();
  });
});

describe("times", () => {
  test("of the day shown stand without it, of another with it", () => {
    expect(timeOn("2026-11-25", "2026-11-25T16:43:10-05:00")).toMatch(/^4:43\sPM$/);
    expect(timeOn("2026-11-25", "2026-11-24T16:43:10-05:00")).toMatch(/^Nov 24, 04:43\sPM$/);
  });

  test("heard today stand without their day", () => {
    const now = new Date(2026, 10, 25, 20);
    expect(timeHeard(new Date(2026, 10, 25, 18, 59).getTime(), now)).toMatch(/^6:59\sPM$/);
    expect(timeHeard(new Date(2026, 10, 24, 18, 59).getTime(), now)).toMatch(/^Nov 24, 6:59\sPM$/);
  });
});

test.each([
  ["en-US", "letter"],
  ["es-MX", "letter"],
  ["fr-CA", "letter"],
  ["en", "letter"],
  ["en-GB", "a4"],
  ["es-ES", "a4"],
  ["de", "a4"],
])("paper where the browser is %s is %s", (language, paper) => {
  expect(paperOf([language, "en-US"])).toBe(paper);
});
