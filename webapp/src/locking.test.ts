import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Signer } from "./store/keys";

const MINUTE = 60_000;
const WHO = { kid: "k", person: "ann", name: "Ann", roles: [], stamp: "" } as unknown as Signer;

const window = new EventTarget();
const document = Object.assign(new EventTarget(), { hidden: false });
vi.stubGlobal("location", { hash: "", pathname: "/", host: "seamtag.example" });
vi.stubGlobal("document", document);
vi.stubGlobal("addEventListener", window.addEventListener.bind(window));
vi.stubGlobal("scrollTo", () => {});
vi.mock("./sync/loop", () => ({ syncAs: () => {} }));

const { asleep, enter, me } = await import("./state");
const { startLocking } = await import("./locking");

function touch(): Event {
  const event = new Event("pointerdown", { bubbles: true });
  vi.spyOn(event, "stopPropagation");
  window.dispatchEvent(event);
  return event;
}

describe("locking by itself", () => {
  beforeEach(() => {
    vi.useFakeTimers({ now: 1_000_000 });
    startLocking();
    enter(WHO);
  });
  afterEach(() => vi.useRealTimers());

  test("comes after ten minutes without a touch, and the screen's person stays known", () => {
    vi.advanceTimersByTime(9 * MINUTE);
    expect(asleep.value).toBe(false);
    vi.advanceTimersByTime(MINUTE + 5000);
    expect(asleep.value).toBe(true);
    expect(me.value).toBe(WHO);
  });

  test.each(["pointerdown", "keydown", "wheel", "input"])("waits anew after a %s", (kind) => {
    vi.advanceTimersByTime(9 * MINUTE);
    window.dispatchEvent(new Event(kind));
    vi.advanceTimersByTime(9 * MINUTE);
    expect(asleep.value).toBe(false);
  });

  test("comes at once when the app was in the background for longer, though no timer ran", () => {
    vi.setSystemTime(1_000_000 + 11 * MINUTE);
    document.dispatchEvent(new Event("visibilitychange"));
    expect(asleep.value).toBe(true);
  });

  test("takes the touch that wakes a phone, and none after it", () => {
    vi.setSystemTime(1_000_000 + 11 * MINUTE);
    expect(touch().stopPropagation).toHaveBeenCalled();
    expect(asleep.value).toBe(true);
    expect(touch().stopPropagation).not.toHaveBeenCalled();
  });

  test("keeps keys from the screen out of sight", () => {
    const pressed = vi.fn();
    window.addEventListener("keydown", pressed);
    window.dispatchEvent(new Event("keydown"));
    vi.setSystemTime(1_000_000 + 11 * MINUTE);
    touch();
    window.dispatchEvent(new Event("keydown"));
    expect(pressed).toHaveBeenCalledTimes(1);
  });

  test("is ended by unlocking, and the wait begins anew", () => {
    vi.setSystemTime(1_000_000 + 11 * MINUTE);
    touch();
    enter({ ...WHO });
    vi.advanceTimersByTime(9 * MINUTE);
    expect(asleep.value).toBe(false);
  });

  test("lets go of the screen where somebody goes elsewhere from the locked app", () => {
    vi.setSystemTime(1_000_000 + 11 * MINUTE);
    touch();
    window.dispatchEvent(new Event("hashchange"));
    expect([asleep.value, me.value]).toEqual([false, null]);
  });

  test("comes in its time where the clock was put back", () => {
    vi.setSystemTime(1);
    vi.advanceTimersByTime(9 * MINUTE);
    expect(asleep.value).toBe(false);
    vi.advanceTimersByTime(2 * MINUTE);
    expect(asleep.value).toBe(true);
  });
});
