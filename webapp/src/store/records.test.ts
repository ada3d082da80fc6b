import { beforeEach, describe, expect, test, vi } from "vitest";
import { sha256, utf8 } from "./bytes";
import { isNamed, setSetting, setting, withStore, writing } from "./db";
import { deviceId, keysHere } from "./keys";
import { NotSavedError, notSaved } from "./records";
import { lookAtRoom, noteRoom, room } from "./room";
import { emptyStore, keysOf, note, outbox, photo, signer } from "./testing";

beforeEach(async () => {
  vi.restoreAllMocks();
  await emptyStore();
  notSaved.value = "";
  noteRoom(true);
});

const transaction = IDBDatabase.prototype.transaction;

/** The first writing transaction goes wrong. change: what becomes of it; throws, or alters it. */
function spoilFirst(change: (tx: IDBTransaction) => void, before?: () => void): void {
  let first = true;
  vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (this: IDBDatabase, ...given) {
    const spoils = given[1] === "readwrite" && first;
    if (spoils) {
      first = false;
      before?.();
    }
    const tx = transaction.apply(this, given);
    if (spoils) change(tx);
    return tx;
  });
}

/** It is committed, but the page hears that it was aborted: the connection was lost in between. */
function loseTheAnswer(tx: IDBTransaction): void {
  const listen = tx.addEventListener.bind(tx);
  tx.addEventListener = (type: string, listener: EventListenerOrEventListenerObject) => {
    if (type === "abort") listen("complete", listener);
    else if (type !== "complete") listen(type, listener);
  };
}

function fillUp(tx: IDBTransaction): void {
  Object.defineProperty(tx, "error", { value: new DOMException("full", "QuotaExceededError") });
  const objectStore = tx.objectStore.bind(tx);
  tx.objectStore = (name: string) => {
    if (name === "photos") throw new DOMException("aborted", "AbortError");
    return objectStore(name);
  };
}

describe("a record", () => {
  test("follows the one before it, in its key's order", async () => {
    const who = await signer();
    const made = [await note(who), await note(who), await note(who)];
    expect(made.map(({ payload }) => payload.seq)).toEqual([1, 2, 3]);
    for (const [place, record] of made.slice(1).entries()) {
      const before = made[place]?.text ?? "";
      expect(record.payload.prev).toBe(await sha256(utf8(before.slice(0, before.lastIndexOf(".")))));
    }
    expect(await outbox()).toEqual(made.map(({ id }) => id));
  });

  test("of many taps at once forks nothing", async () => {
    const who = await signer();
    await Promise.all(Array.from({ length: 20 }, () => note(who)));
    const all = await withStore((db) => db.getAll("records"));
    expect(all.map(({ payload }) => payload.seq).sort((a, b) => a - b)).toEqual(Array.from(all, (_, at) => at + 1));
    expect(new Set(all.map(({ payload }) => payload.prev)).size).toBe(20);
  });

  test("is refused where the key's head has moved on though the lock was held", async () => {
    const who = await signer();
    const [key] = await keysHere();
    if (!key) throw new Error("no key");
    const sign = crypto.subtle.sign.bind(crypto.subtle);
    vi.spyOn(crypto.subtle, "sign").mockImplementationOnce(async (...given) => {
      await writing(["keys"], (tx) => tx.objectStore("keys").put({ ...key, seq: 7, prev: "elsewhere" }));
      return sign(...given);
    });
    await expect(note(who)).rejects.toThrow("Another tab was faster");
    expect(await outbox()).toEqual([]);
  });

  test("keeps its place behind what waits, though the clock was put back", async () => {
    const who = await signer();
    const first = await note(who);
    vi.spyOn(Date, "now").mockReturnValue(1000);
    const second = await note(who);
    expect(await outbox()).toEqual([first.id, second.id]);
  });

  test("of a key that a newer one has replaced is not made", async () => {
    const old = await signer();
    await signer();
    await expect(note(old)).rejects.toThrow("newer key");
    expect(notSaved.value).toContain("newer key");
  });
});

describe("a lost connection", () => {
  test("before the write: written once", async () => {
    const who = await signer();
    spoilFirst(
      () => {},
      () => {
        throw new DOMException("The database connection is closing.", "InvalidStateError");
      },
    );
    const kept = await note(who);
    expect(await outbox()).toEqual([kept.id]);
  });

  test("after the write was committed: written once all the same", async () => {
    const who = await signer();
    await deviceId();
    spoilFirst(loseTheAnswer);
    const kept = await photo(who, "a");
    const next = await note(who);
    expect(await outbox()).toEqual([kept.id, next.id]);
    expect([kept.payload.seq, next.payload.seq]).toEqual([1, 2]);
    expect((await keysHere())[0]).toMatchObject({ seq: 2 });
  });

  test("twice is said", async () => {
    const who = await signer();
    vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(() => {
      throw new DOMException("gone", "UnknownError");
    });
    await expect(note(who)).rejects.toThrow(NotSavedError);
    expect(notSaved.value).toBe("gone");
  });

  test("while opening: opened once more", async () => {
    await setSetting("here", 1);
    await withStore(async (db) => db.close());
    vi.spyOn(indexedDB, "open").mockImplementationOnce(() => {
      throw new DOMException("Connection to Indexed Database server lost.", "UnknownError");
    });
    expect(await setting("here")).toBe(1);
  });
});

describe("a full store", () => {
  test("writes nothing of the record, and says that it was not saved", async () => {
    const who = await signer();
    const before = await note(who);
    spoilFirst(fillUp);
    const failing = photo(who, "b");
    await expect(failing).rejects.toThrow("storage is full");
    expect(notSaved.value).toContain("Save what is unsent to a file");
    expect(await outbox()).toEqual([before.id]);
    expect(await keysOf("photos")).toEqual([]);
    expect((await keysHere())[0]).toMatchObject({ seq: 1 });
    const next = await note(who);
    expect(next.payload.seq).toBe(2);
    expect(notSaved.value).toBe("");
  });

  test("makes room by what the server and its backup have, and is tried once more", async () => {
    const who = await signer();
    await photo(who, "old");
    await setSetting("covered", 5);
    await writing(["photos_sent", "photo_outbox"], async (tx) => {
      const sha256 = "old".padEnd(64, "0");
      await tx.objectStore("photos_sent").put({ sha256, bytes: 1, received: 1, after: 4, reason: "" });
      await tx.objectStore("photo_outbox").delete(sha256);
    });
    spoilFirst(fillUp);
    const kept = await photo(who, "new");
    expect(kept.payload.seq).toBe(2);
    expect(await keysOf("photos")).toEqual(["new".padEnd(64, "0")]);
    expect(notSaved.value).toBe("");
  });

  test("is known by name behind an aborted request", async () => {
    spoilFirst(fillUp);
    const failing = writing(["photos"], (tx) => tx.objectStore("photos").delete("x"));
    await expect(failing).rejects.toSatisfy((error) => isNamed(error, "QuotaExceededError"));
  });

  test("is remembered until a photo is saved again, whatever the browser estimates", async () => {
    const who = await signer();
    await deviceId();
    spoilFirst(fillUp);
    await expect(photo(who, "b")).rejects.toThrow("storage is full");
    await lookAtRoom();
    expect(room.value).toBe(0);
    await photo(who, "b");
    await vi.waitFor(() => expect(room.value).toBeGreaterThan(1000));
  });

  test("is foreseen in photos", async () => {
    await emptyStore(6_000_000);
    await note(await signer());
    await vi.waitFor(() => expect(room.value).toBe(10));
  });
});
