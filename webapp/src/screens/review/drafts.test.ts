import { beforeEach, expect, test, vi } from "vitest";
import type { Signer } from "../../store/keys";

vi.stubGlobal("location", { hash: "", pathname: "/", host: "seamtag.example" });
vi.stubGlobal("addEventListener", () => {});
vi.mock("../../sync/loop", () => ({ syncAs: () => {} }));

const { enter, fallAsleep, lock } = await import("../../state");
const { begun, draftOf, EMPTY, forget, keep } = await import("./drafts");

const who = (person: string) => ({ kid: "k", person, name: person, roles: [], stamp: "" }) as unknown as Signer;
const grind = { ...EMPTY, what: "rework" as const, reason: "Grind" };

beforeEach(() => {
  lock();
  enter(who("ann"));
});

test("what was begun at a flag is there again, and goes once it is signed or rubbed out", () => {
  keep(["a"], EMPTY, grind);
  expect([draftOf(["a"]), draftOf(["b"]), [...begun.value]]).toEqual([grind, undefined, ["a"]]);
  keep(["a"], grind, { ...grind, reason: " " });
  expect(draftOf(["a"])).toBeUndefined();
  keep(["a"], EMPTY, grind);
  forget(["a"]);
  expect([draftOf(["a"]), begun.value.size]).toEqual([undefined, 0]);
});

test("a word that was only chosen is not kept", () => {
  keep(["a"], EMPTY, { ...EMPTY, what: "scrap" });
  expect(begun.value.size).toBe(0);
});

test("of several marked each keeps it, but where another reason was begun that one stays", () => {
  const own = { ...EMPTY, reason: "Measure again" };
  keep(["b"], EMPTY, own);
  keep(["a", "b"], EMPTY, grind);
  expect([draftOf(["a"]), draftOf(["b"])]).toEqual([grind, own]);
});

test("it waits while the app has locked itself, and is never shown to another", () => {
  keep(["a"], EMPTY, grind);
  fallAsleep();
  enter(who("ann"));
  expect(draftOf(["a"])).toEqual(grind);
  enter(who("bob"));
  expect([draftOf(["a"]), begun.value.size]).toEqual([undefined, 0]);
  enter(who("ann"));
  expect(draftOf(["a"])).toBeUndefined();
  keep(["a"], EMPTY, grind);
  lock();
  expect(begun.value.size).toBe(0);
});
