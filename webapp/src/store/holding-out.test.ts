import { afterEach, expect, test, vi } from "vitest";
import { holdsOut } from "./holding-out";
import { noteRoom, room } from "./room";

afterEach(() => {
  vi.unstubAllGlobals();
  noteRoom(true);
  room.value = null;
});

function phone(agent: string, standalone = false): void {
  vi.stubGlobal("matchMedia", () => ({ matches: standalone }));
  vi.stubGlobal("navigator", { userAgent: agent, maxTouchPoints: 5 });
}

test("what holds a phone for how long is said in seconds; nothing where nobody can tell", () => {
  phone("Android");
  expect(holdsOut()).toBe(0);
  room.value = 50 + 120;
  expect(holdsOut()).toBe(2 * 86_400);
  room.value = 49;
  expect(holdsOut()).toBe(1);
});

test("a tab of an iPhone keeps what is unsent for seven days, an app on its home screen longer", () => {
  phone("iPhone");
  expect(holdsOut()).toBe(7 * 86_400);
  room.value = 50 + 60;
  expect(holdsOut()).toBe(86_400);
  phone("iPhone", true);
  room.value = null;
  expect(holdsOut()).toBe(0);
});
