import "fake-indexeddb/auto";
import { beforeEach, describe, expect, test } from "vitest";
import { withStore } from "./db";
import { countWaiting, gone, unsentPhotos, waiting } from "./outbox";
import { room, roomLeft, SHORT } from "./room";
import { emptyStore, note, photo, signer } from "./testing";

async function goes(store: "outbox" | "photo_outbox", key: string): Promise<void> {
  await withStore((db) => db.delete(store, key));
  await countWaiting();
}

describe("what waits", () => {
  beforeEach(async () => {
    await emptyStore();
    await countWaiting();
  });

  test("is counted as it goes, and what is recorded meanwhile belongs to it", async () => {
    const who = await signer();
    const [first, second] = [await note(who), await note(who)];
    await countWaiting();
    expect([gone.value, waiting.value.records]).toEqual([0, 2]);
    await goes("outbox", first.id);
    expect([gone.value, waiting.value.records]).toEqual([1, 1]);
    const third = await note(who);
    await countWaiting();
    expect([gone.value, waiting.value.records]).toEqual([1, 2]);
    await goes("outbox", second.id);
    expect([gone.value, waiting.value.records]).toEqual([2, 1]);
    await goes("outbox", third.id);
    expect([gone.value, waiting.value.records]).toEqual([0, 0]);
  });

  test("tells the size of its photos, those of an older app among them", async () => {
    const who = await signer();
    await photo(who, "a", 1000);
    await photo(who, "b", 500);
    const name = "b".padEnd(64, "0");
    await withStore((db) => db.put("photo_outbox", { sha256: name, order: 1 }));
    const { rows, size } = await unsentPhotos();
    expect(size).toBe(1500);
    expect(rows.map(({ bytes }) => bytes)).toEqual([undefined, 1000]);
  });
});

describe("room before storage is short", () => {
  test.each([
    [SHORT + 10, { photos: 10, records: 1500 }],
    [SHORT, { photos: 0, records: 0 }],
    [3, { photos: 0, records: 0 }],
    [null, null],
  ])("of %s photos", (photos, left) => {
    room.value = photos;
    expect(roomLeft()).toEqual(left);
  });
});
