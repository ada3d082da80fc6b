import { deleteDB, openDB } from "idb";
import { beforeEach, describe, expect, test } from "vitest";
import { database, isNamed, setSetting, setting, settingOnce, storeTrouble, VERSION, withStore, writing } from "./db";
import { deviceId } from "./keys";
import { NotSavedError } from "./records";
import { emptyStore, keysOf, note, outbox, photo, signer } from "./testing";

beforeEach(async () => {
  await emptyStore();
});

/** A store as the first version of the app made it, with a photo that was sent and one that waits. */
async function firstStore(): Promise<void> {
  (await database()).close();
  await deleteDB("seamtag");
  const db = await openDB("seamtag", 1, {
    upgrade(made) {
      made.createObjectStore("settings");
      made.createObjectStore("keys", { keyPath: "kid" });
      made.createObjectStore("master", { keyPath: "key" });
      made.createObjectStore("records", { keyPath: "id" }).createIndex("job", "job");
      made.createObjectStore("outbox", { keyPath: "id" }).createIndex("order", "order");
      made.createObjectStore("photos", { keyPath: "sha256" });
      made.createObjectStore("photo_outbox", { keyPath: "sha256" });
    },
  });
  for (const sha256 of ["sent", "waits"]) {
    await db.put("photos", { sha256, media_type: "image/jpeg", bytes: new ArrayBuffer(3), reason: "" });
  }
  await db.put("photo_outbox", { sha256: "waits", order: 1 });
  await db.put("records", { id: "r", job: "T1", state: "not taken in", reason: "faulty" });
  await db.put("outbox", { id: "unsent", order: 1 });
  db.close();
}

describe("a newer app", () => {
  test("keeps what an older one wrote, and knows which photos were sent", async () => {
    await firstStore();
    expect(await keysOf("photos")).toEqual(["sent", "waits"]);
    expect(await keysOf("photos_sent")).toEqual(["sent"]);
    expect(await outbox()).toEqual(["unsent"]);
    expect(await withStore((db) => db.countFromIndex("records", "state", "not taken in"))).toBe(1);
  });

  test("says that another tab is in the way until that tab has closed", async () => {
    await firstStore();
    const older = await openDB("seamtag", 1);
    const opening = setting("x");
    await expect.poll(() => storeTrouble.value).toBe("blocked");
    older.close();
    await opening;
    expect(storeTrouble.value).toBe("");
  });
});

describe("an older app on a newer store", () => {
  async function newer(): Promise<void> {
    const db = await openDB("seamtag", VERSION + 1, {
      upgrade(made) {
        made.createObjectStore("of a newer app");
      },
    });
    db.close();
  }

  test("reads and sends, but does not record", async () => {
    const who = await signer();
    const kept = await note(who);
    await newer();
    expect(await outbox()).toEqual([kept.id]);
    expect(storeTrouble.value).toBe("older");
    await expect(note(who)).rejects.toThrow("older than what is stored");
    await expect(note(who)).rejects.toBeInstanceOf(NotSavedError);
    expect(await outbox()).toEqual([kept.id]);
    await setSetting("x", 1);
    expect(await setting("x")).toBe(1);
  });

  test("ends the write it is at, then makes way", async () => {
    const who = await signer();
    const saving = photo(who, "a");
    await Promise.all([saving, newer()]);
    expect(await outbox()).toEqual([(await saving).id]);
    expect(storeTrouble.value).toBe("older");
  });
});

describe("a setting that is made once", () => {
  test("is the same for two who make it at once", async () => {
    const made = await Promise.all([1, 2, 3].map((each) => settingOnce("s", async () => each)));
    expect(new Set(made).size).toBe(1);
    expect(new Set(await Promise.all([deviceId(), deviceId()])).size).toBe(1);
  });
});

describe("a transaction", () => {
  test("that fails leaves nothing behind, and its own error is told", async () => {
    await setSetting("here", 1);
    const failing = writing(["settings"], async (tx) => {
      await tx.objectStore("settings").put(2, "here");
      throw new Error("stop");
    });
    await expect(failing).rejects.toThrow("stop");
    expect(await setting("here")).toBe(1);
  });

  test("errors are told apart by name", () => {
    expect(isNamed(new DOMException("", "AbortError"), "AbortError")).toBe(true);
    expect(isNamed("AbortError", "AbortError")).toBe(false);
  });
});
