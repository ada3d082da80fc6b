import { beforeEach, describe, expect, test, vi } from "vitest";
import { type Master, type StoredRecord, setSetting, withStore, writing } from "./db";
import { exportUnsent } from "./export";
import { deviceId } from "./keys";
import { mayGo, prune } from "./retention";
import { isShort, makeRoom, room } from "./room";
import { emptyStore, keysOf, note, outbox, photo, recordOf, signer } from "./testing";

const DAY = 86_400_000;
const NOW = Date.now();

beforeEach(async () => {
  vi.restoreAllMocks();
  await emptyStore();
});

async function put(record: StoredRecord, more: Partial<StoredRecord>): Promise<void> {
  await writing(["records", "outbox"], async (tx) => {
    await tx.objectStore("records").put({ ...record, ...more });
    await tx.objectStore("outbox").delete(record.id);
  });
}

function received(number: number, days: number, epoch = "e"): Partial<StoredRecord> {
  return { state: "received", number, received: NOW - days * DAY, epoch };
}

/** Job T1 as the office has it, with its pieces; and what the server's backup covers. */
async function jobIs(open: boolean, covered: number): Promise<void> {
  const row = (kind: string, scope: string): Master => ({ key: `${kind} ${scope}`, kind, scope, number: 1, body: {} });
  await writing(["master", "settings"], async (tx) => {
    await tx.objectStore("master").put({ ...row("job", "shop"), body: { id: "T1", title: "", open } });
    await tx.objectStore("master").put(row("basis", "job:T1"));
    await tx.objectStore("settings").put(covered, "covered");
    await tx.objectStore("settings").put("e", "epoch");
    await tx.objectStore("settings").put(9, "cursor job:T1");
  });
}

describe("a record may go", () => {
  const backup = { covered: 5, epoch: "e" };
  const judged = (more: Partial<StoredRecord>) => mayGo({ ...more } as StoredRecord, backup, NOW);

  test.each([
    ["in a backup, and 30 days old", received(5, 30), true],
    ["29 days old", received(5, 29.9), false],
    ["behind the backup", received(6, 400), false],
    ["of another epoch", received(5, 400, "d"), false],
    ["of nobody knows when", { state: "received", number: 5 } as const, false],
    ["unsent", { ...received(5, 400), state: "saved" } as const, false],
    ["not taken in", { ...received(5, 400), state: "not taken in" } as const, false],
    ["missing on the server", { ...received(5, 400), state: "missing" } as const, false],
  ])("%s", (_, more, may) => expect(judged(more)).toBe(may));
});

describe("a job leaves", () => {
  test("whole, with its cursor, once it is closed and all of it is old and covered", async () => {
    const who = await signer();
    await put(await note(who), received(1, 31));
    await put(await note(who), received(2, 31));
    await jobIs(false, 2);
    expect(await prune(NOW)).toEqual(["T1"]);
    expect(await withStore((db) => db.count("records"))).toBe(0);
    expect((await withStore((db) => db.getAll("master"))).map(({ kind }) => kind)).toEqual(["job"]);
    expect(await keysOf("settings")).not.toContain("cursor job:T1");
  });

  test("not while it is open", async () => {
    await put(await note(await signer()), received(1, 400));
    await jobIs(true, 2);
    expect(await prune(NOW)).toEqual([]);
    await setSetting("carried", ["another"]);
    expect(await prune(NOW)).toEqual(["T1"]);
  });

  test.each([
    ["is unsent", { state: "saved", number: null } as const],
    ["is too young", received(2, 3)],
    ["is in no backup", received(3, 400)],
    ["is missing on the server", { ...received(2, 400), state: "missing" } as const],
  ])("not while a record of it %s", async (_, more) => {
    const who = await signer();
    await put(await note(who), received(1, 400));
    const last = await note(who);
    await put(last, more);
    await jobIs(false, 2);
    expect(await prune(NOW)).toEqual([]);
    expect(await recordOf(last.id)).toBeDefined();
    expect(await withStore((db) => db.count("records"))).toBe(2);
  });

  test("without what was not taken in, which stays to be seen", async () => {
    const who = await signer();
    await put(await note(who), received(1, 400));
    const refused = await note(who);
    await put(refused, { state: "not taken in" });
    await jobIs(false, 2);
    expect(await prune(NOW)).toEqual(["T1"]);
    expect((await withStore((db) => db.getAll("records"))).map(({ id }) => id)).toEqual([refused.id]);
  });

  test("30 days after an app first saw it that did not write down when it was received", async () => {
    const made = await note(await signer());
    await put(made, { state: "received", number: 1 });
    await jobIs(false, 2);
    expect(await prune(NOW)).toEqual([]);
    expect(await prune(NOW + 30 * DAY)).toEqual(["T1"]);
  });

  test("not while all is pulled anew after a restore", async () => {
    await put(await note(await signer()), received(1, 400));
    await jobIs(false, 2);
    await setSetting("anew job:T1", "e");
    expect(await prune(NOW)).toEqual([]);
  });

  test("with its photos, as far as a backup holds them", async () => {
    const who = await signer();
    for (const [name, after] of [
      ["a", 1],
      ["b", 2],
    ] as const) {
      await put(await photo(who, name), received(1, 400));
      await sent(name, after);
    }
    await jobIs(false, 2);
    await prune(NOW);
    expect((await keysOf("photos")).map((sha256) => sha256[0])).toEqual(["b"]);
  });
});

/** A photo was taken in by the server, whose chain ended at `after` when it was there. */
async function sent(name: string, after: number, at = 1): Promise<void> {
  const sha256 = name.padEnd(64, "0");
  await writing(["photos_sent", "photo_outbox"], async (tx) => {
    await tx.objectStore("photos_sent").put({ sha256, bytes: 20_000_000, received: at, after, reason: "" });
    await tx.objectStore("photo_outbox").delete(sha256);
  });
}

describe("where room is short", () => {
  test("photos are let go of that were taken in and are in a backup, the oldest first, until there is room", async () => {
    const who = await signer();
    for (const name of ["a", "b", "c", "d", "e"]) await photo(who, name);
    await sent("a", 7);
    await sent("b", 3, 30);
    await sent("c", 3, 20);
    await sent("d", 3, 10);
    await setSetting("covered", 7);
    vi.stubGlobal("navigator", { ...navigator, storage: { estimate: async () => ({ quota: 1e9, usage: 0 }) } });
    expect(await makeRoom()).toBe(0);
    vi.stubGlobal("navigator", { ...navigator, storage: { estimate: async () => ({ quota: 9e6, usage: 0 }) } });
    expect(await makeRoom()).toBe(2);
    expect([room.value, isShort()]).toEqual([15, true]);
    expect((await keysOf("photos")).map((sha256) => sha256[0])).toEqual(["a", "b", "e"]);
    expect(await keysOf("photo_outbox")).toHaveLength(1);
  });

  test("no photo is let go of that waits to be sent again", async () => {
    await photo(await signer(), "a");
    await writing(["photos_sent"], (tx) =>
      tx.objectStore("photos_sent").put({ sha256: "a".padEnd(64, "0"), bytes: 1, received: 1, after: 1, reason: "" }),
    );
    await setSetting("covered", 7);
    vi.stubGlobal("navigator", { ...navigator, storage: { estimate: async () => ({ quota: 9e6, usage: 0 }) } });
    expect(await makeRoom()).toBe(0);
    expect(await keysOf("photos")).toHaveLength(1);
  });
});

describe("the file of what is unsent", () => {
  test("holds every unsent record and photo, and changes nothing", async () => {
    const who = await signer();
    const old = await note(who);
    const lost = await note(who);
    await put(old, received(1, 1));
    await put(lost, { state: "missing" });
    const [first, second] = [await note(who), await photo(who, "a", 4)];
    const { file, records, photos } = await exportUnsent();
    expect([records, photos]).toEqual([3, 1]);
    expect(file.name).toBe(`seamtag-unsent-${await deviceId()}-${new Date().toISOString().slice(0, 10)}.jsonl`);
    const lines = (await file.text())
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
    const keys = lines.filter((line) => line.key);
    const jwk = { kty: "EC", crv: "P-256", x: expect.any(String), y: expect.any(String) };
    expect(keys).toEqual([{ key: { jwk, person: who.person, device: await deviceId() } }]);
    expect(lines.slice(keys.length)).toEqual([
      { record: first.text },
      { record: second.text },
      { record: lost.text },
      { photo: "a".padEnd(64, "0"), bytes: "AAAAAA==" },
    ]);
    expect(await outbox()).toEqual([first.id, second.id]);
    expect(await keysOf("photo_outbox")).toHaveLength(1);
  });
});
