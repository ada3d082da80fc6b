import { beforeEach, describe, expect, test, vi } from "vitest";
import { setSetting, withStore } from "../store/db";
import { waiting } from "../store/outbox";
import { emptyStore, keysOf, note, outbox, photo, recordOf, signer } from "../store/testing";
import { sendPhotos } from "./photos";
import { push } from "./push";
import { FakeServer } from "./testing";

let server: FakeServer;

beforeEach(async () => {
  vi.restoreAllMocks();
  await emptyStore();
  server = new FakeServer();
});

describe("a push", () => {
  test("takes each record out of the outbox by the server's word for it, and notes when", async () => {
    const who = await signer();
    const [good, bad] = [await note(who), await note(who)];
    server.refuses.set(bad.id, { outcome: "not taken in", reason: "faulty" });
    expect(await push()).toEqual({ heard: true, restored: false, jobs: ["T1", "T1"] });
    expect(await outbox()).toEqual([]);
    expect(await recordOf(good.id)).toMatchObject({ state: "received", number: 1, epoch: "first" });
    expect((await recordOf(good.id))?.received).toBeGreaterThan(Date.now() - 60_000);
    expect(await recordOf(bad.id)).toMatchObject({ state: "not taken in", reason: "faulty" });
    expect(waiting.value).toEqual({ records: 0, photos: 0, refused: 1 });
  });

  test("goes in the batches that are set, two at once, but the last alone: it says that nothing waits", async () => {
    const who = await signer();
    const made = [await note(who), await note(who), await note(who), await note(who), await note(who)];
    await setSetting("sync", { batch: 2 });
    await push();
    expect(server.pushes.flatMap(({ ids }) => ids).sort()).toEqual(made.map(({ id }) => id).sort());
    // Two are in flight, and either may be the first to come.
    const [former, latter, last] = server.pushes.map((one) => [one.waiting, one.others]);
    expect([former, latter].sort()).toEqual([
      [1, 1],
      [3, 0],
    ]);
    expect(last).toEqual([0, 0]);
  });

  test("of two batches sends the last only when the first is answered", async () => {
    const who = await signer();
    for (const _ of [1, 2, 3]) await note(who);
    await setSetting("sync", { batch: 2 });
    await push();
    expect(server.pushes.map(({ waiting: after, others }) => [after, others])).toEqual([
      [1, 0],
      [0, 0],
    ]);
  });

  test("that is too large is halved until it fits", async () => {
    const who = await signer();
    server.most = 1;
    await Promise.all([note(who), note(who), note(who)]);
    await push();
    expect(await outbox()).toEqual([]);
    expect(server.pushes.map((one) => one.waiting)).toEqual([2, 1, 0]);
  });

  test("is not held up by what the server cannot believe, which stays with the reason and is left alone", async () => {
    const who = await signer();
    const [doubted, good] = [await note(who), await note(who)];
    server.refuses.set(doubted.id, { outcome: "unreadable", reason: "its key is not enrolled here" });
    await push();
    expect(await outbox()).toEqual([doubted.id]);
    expect((await recordOf(good.id))?.state).toBe("received");
    const row = await withStore((db) => db.get("outbox", doubted.id));
    expect(row?.unreadable).toBe("its key is not enrolled here");
    await push();
    expect(server.pushes).toHaveLength(1);
    server.refuses.clear();
    await push(true);
    expect(await outbox()).toEqual([]);
  });

  test("of a browser that cannot gzip goes as it is", async () => {
    const kept = await note(await signer());
    vi.stubGlobal("CompressionStream", undefined);
    await push();
    vi.unstubAllGlobals();
    expect(server.pushes.map(({ ids }) => ids)).toEqual([[kept.id]]);
  });

  test("by a server that cannot be reached changes nothing", async () => {
    const kept = await note(await signer());
    server.dead = true;
    await expect(push()).rejects.toThrow("cannot be reached");
    expect(await outbox()).toEqual([kept.id]);
  });

  test("that something else answers changes nothing", async () => {
    const kept = await note(await signer());
    vi.stubGlobal("fetch", async () => new Response("{}", { headers: { "Content-Type": "application/json" } }));
    await expect(push()).rejects.toThrow("does not fit");
    expect(await outbox()).toEqual([kept.id]);
  });
});

describe("photos", () => {
  test("wait after their record, and are noted when they are taken in", async () => {
    const kept = await photo(await signer(), "a", 7);
    await push();
    expect(await sendPhotos()).toBe(true);
    expect(await keysOf("photo_outbox")).toEqual([]);
    const [sha256 = ""] = await keysOf("photos_sent");
    expect(sha256).toBe((kept.payload.body as { sha256: string }).sha256);
    expect(await withStore((db) => db.get("photos_sent", sha256))).toMatchObject({ bytes: 7, after: Infinity });
    expect(await keysOf("photos")).toEqual([sha256]);
  });

  test("that the server will not have hold up no other, and are left alone", async () => {
    const who = await signer();
    await photo(who, "a");
    await photo(who, "b");
    server.refusesPhotos.set("a".padEnd(64, "0"), 403);
    await sendPhotos();
    expect(await keysOf("photo_outbox")).toEqual(["a".padEnd(64, "0")]);
    expect(server.photos.size).toBe(1);
    server.refusesPhotos.clear();
    expect(await sendPhotos()).toBe(false);
    expect(await sendPhotos(true)).toBe(true);
    expect(await keysOf("photo_outbox")).toEqual([]);
  });

  test("wait for a server that is not well", async () => {
    await photo(await signer(), "a");
    server.refusesPhotos.set("a".padEnd(64, "0"), 503);
    await expect(sendPhotos()).rejects.toThrow();
    expect(await keysOf("photo_outbox")).toHaveLength(1);
  });
});
