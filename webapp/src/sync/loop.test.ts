import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { setSetting } from "../store/db";
import { emptyStore, note, outbox, signer } from "../store/testing";
import { heard, sendNow, trouble, wake } from "./loop";
import { FakeServer } from "./testing";
import { jittered, times } from "./times";

let server: FakeServer;
let tried: number[] = [];

beforeEach(async () => {
  await emptyStore();
  server = new FakeServer();
  const answering = globalThis.fetch;
  tried = [];
  vi.stubGlobal("fetch", (path: string, options: RequestInit) => {
    tried.push(Date.now());
    return answering(path, options);
  });
  vi.spyOn(Math, "random").mockReturnValue(0.5);
});

afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});

describe("the times of the loop", () => {
  test("are what is set, and what holds where nothing sensible is set", async () => {
    expect(await times()).toEqual({ shortest: 4000, longest: 60_000, batch: 100 });
    await setSetting("sync", { shortest: 50, longest: 10, batch: "many" });
    expect(await times()).toEqual({ shortest: 50, longest: 50, batch: 100 });
    await setSetting("sync", { shortest: 0, longest: Number.NaN, batch: 7.5 });
    expect(await times()).toEqual({ shortest: 4000, longest: 60_000, batch: 7 });
  });

  test("are spread by chance, a quarter to either side", () => {
    expect([jittered(1000, 0), jittered(1000, 0.5), jittered(1000, 1)]).toEqual([750, 1000, 1250]);
  });
});

describe("the loop", () => {
  test("waits longer and longer for a server that is dead, and sends when it is back", async () => {
    await setSetting("sync", { shortest: 1000, longest: 3000 });
    await note(await signer());
    server.dead = true;
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "Date"] });
    wake();
    await timePasses(async () => tried.length === 5);
    const pauses = tried.slice(1).map((at, place) => Math.round((at - (tried[place] ?? 0)) / 1000));
    expect(pauses).toEqual([1, 2, 3, 3]);
    expect(trouble.value).toContain("cannot be reached");
    expect(heard.value).toBe(0);
    server.dead = false;
    sendNow();
    await timePasses(async () => trouble.value === "");
    expect(await outbox()).toEqual([]);
    expect(heard.value).toBeGreaterThan(0);
  });
});

/** Let time go by, 10 ms a step, until something has come about; it stands still while a turn is at work. */
async function timePasses(until: () => Promise<boolean>): Promise<void> {
  while (!(await until())) {
    if (vi.getTimerCount() > 0) await vi.advanceTimersByTimeAsync(10);
    await new Promise((done) => setImmediate(done));
  }
}
