import { beforeEach, describe, expect, test, vi } from "vitest";
import { type StoredRecord, setting, withStore, writing } from "../store/db";
import { emptyStore, keysOf, note, outbox, photo, recordOf, signer } from "../store/testing";
import { sendPhotos } from "./photos";
import { pull } from "./pull";
import { push } from "./push";
import { FakeServer } from "./testing";

let server: FakeServer;

beforeEach(async () => {
  vi.restoreAllMocks();
  await emptyStore();
  server = new FakeServer();
  server.announce("job", { id: "T1", title: "", open: true });
  server.announce("basis", { plan: "p", figures: 1 }, "job:T1");
});

/** A record of another phone, as its own server would have it. */
async function ofAnother(who: Parameters<typeof note>[0]): Promise<StoredRecord> {
  const made = await note(who);
  const { device } = made.payload;
  const payload = { ...made.payload, id: `${made.id.slice(0, -4)}ffff`, device: `${device} not` };
  const [header = "", , signature = ""] = made.text.split(".");
  const text = `${header}.${Buffer.from(JSON.stringify(payload)).toString("base64url")}.${signature}`;
  server.announce("record", text, "job:T1");
  return { ...made, id: payload.id, payload, text };
}

async function states(): Promise<Record<string, string>> {
  const all = await withStore((db) => db.getAll("records"));
  return Object.fromEntries(all.map(({ id, state }) => [id, state]));
}

describe("a server that was restored", () => {
  test("is sent all of this phone's records again, in the order of each key's chain", async () => {
    const [ann, bob] = [await signer("ann"), await signer("bob")];
    const made: StoredRecord[] = [];
    for (const who of [ann, bob, ann, bob, ann]) made.push(await note(who));
    await push();
    await pull();
    const unsent = await note(ann);
    server.restore(2);
    expect(await pull()).toMatchObject({ restored: true });
    const order = await outbox();
    const seqs = new Map<string, number[]>();
    for (const id of order) {
      const { by, seq } = (await recordOf(id))?.payload ?? { by: "", seq: 0 };
      seqs.set(by, [...(seqs.get(by) ?? []), seq]);
    }
    expect(seqs).toEqual(new Map([["ann", [1, 2, 3, 4]], ["bob", [1, 2]]])); // biome-ignore format: a table
    expect(order.at(-1)).toBe(unsent.id);
    expect(new Set(Object.values(await states()))).toEqual(new Set(["saved"]));
    await push();
    expect(await outbox()).toEqual([]);
    expect(server.chain.filter(({ kind }) => kind === "record")).toHaveLength(6);
    expect(await setting("restored")).toMatchObject({ records: 5 });
    expect((await recordOf(made[0]?.id ?? ""))?.epoch).toBe("second");
  });

  test("is noticed by a phone that is locked and only pushes", async () => {
    const who = await signer();
    const before = await note(who);
    await push();
    server.restore(0);
    const next = await note(who);
    expect(await push()).toMatchObject({ heard: true, restored: true });
    expect(await outbox()).toEqual([before.id]);
    expect((await recordOf(next.id))?.state).toBe("received");
    await push();
    expect(server.chain).toHaveLength(2);
  });

  test("is noticed by its head alone", async () => {
    await note(await signer());
    await push();
    await pull();
    server.restore(1, "first");
    expect(await pull()).toMatchObject({ restored: true });
    expect(await outbox()).toHaveLength(1);
    await push();
    expect(await pull()).toMatchObject({ restored: false });
  });

  test("is sent again what it had not taken in, which is not counted meanwhile", async () => {
    const made = await note(await signer());
    server.refuses.set(made.id, { outcome: "not taken in", reason: "faulty" });
    await push();
    server.restore(1);
    await pull();
    expect(await outbox()).toEqual([made.id]);
    expect((await recordOf(made.id))?.state).toBe("not taken in");
  });

  test("is sent the photos whose bytes are still here", async () => {
    const who = await signer();
    await photo(who, "b");
    await photo(who, "a");
    await push();
    await sendPhotos();
    await writing(["photos"], (tx) => tx.objectStore("photos").delete("b".padEnd(64, "0")));
    server.restore(1);
    await pull();
    expect(await keysOf("photo_outbox")).toEqual(["a".padEnd(64, "0")]);
    expect(await keysOf("photos_sent")).toEqual(["b".padEnd(64, "0")]);
  });

  test("has the records of others: they stay; has them not: they are kept, but not counted, until they come", async () => {
    const who = await signer();
    const [early, late] = [await ofAnother(who), await ofAnother(who)];
    await pull();
    expect(await states()).toMatchObject({ [early.id]: "received", [late.id]: "received" });
    server.restore(3);
    await pull();
    expect(await states()).toMatchObject({ [early.id]: "received", [late.id]: "missing" });
    server.announce("record", late.text, "job:T1");
    await pull();
    expect(await states()).toMatchObject({ [late.id]: "received" });
  });

  test("leaves the records of others as they are until the pull has ended, though it ends another day", async () => {
    const who = await signer();
    await ofAnother(who);
    await ofAnother(who);
    const late = await ofAnother(who);
    await pull();
    server.restore(4);
    const fetching = globalThis.fetch;
    let feeds = 0;
    vi.stubGlobal("fetch", (path: string, options: RequestInit) => {
      feeds += path.includes("scope=job") ? 1 : 0;
      if (feeds > 1) throw new TypeError("the network went away");
      return fetching(path, options);
    });
    await expect(pull()).rejects.toThrow("cannot be reached");
    expect((await recordOf(late.id))?.state).toBe("received");
    vi.stubGlobal("fetch", fetching);
    await pull();
    expect((await recordOf(late.id))?.state).toBe("missing");
  });

  test("takes back figures it no longer knows, but not a job it knows nothing of", async () => {
    server.announce("job", { id: "T2", title: "", open: true });
    server.announce("basis", { plan: "p", figures: 1 }, "job:T2");
    server.announce("basis", { plan: "p", figures: 2 }, "job:T1");
    await note(await signer());
    await pull();
    server.restore(2);
    await pull();
    const rows = await withStore((db) => db.getAll("master"));
    expect(rows.map(({ kind, scope }) => `${kind} ${scope}`).sort()).toEqual([
      "basis job:T1",
      "basis job:T2",
      "job shop",
      "job shop",
    ]);
  });

  test("is pulled from the start for closed jobs too", async () => {
    const other = await ofAnother(await signer());
    await pull();
    server.announce("job", { id: "T1", title: "", open: false });
    await pull();
    server.restore(2);
    server.announce("job", { id: "T1", title: "", open: false });
    await pull();
    expect((await recordOf(other.id))?.state).toBe("missing");
    expect((await keysOf("settings")).filter((name) => name.startsWith("anew"))).toEqual([]);
  });
});

describe("an answer", () => {
  test("that is not the server's changes nothing", async () => {
    await pull();
    const before = await setting("epoch");
    vi.stubGlobal("fetch", async () => new Response("{}", { headers: { "Content-Type": "application/json" } }));
    await expect(pull()).rejects.toThrow("answered instead of it");
    expect(await setting("epoch")).toBe(before);
    expect((await keysOf("settings")).filter((name) => name.startsWith("cursor"))).toHaveLength(2);
  });

  test("with another record under the id of one made here leaves both", async () => {
    const own = await note(await signer());
    const [header = "", , signature = ""] = own.text.split(".");
    const payload = { ...own.payload, device: "another", body: { text: "another" } };
    const text = `${header}.${Buffer.from(JSON.stringify(payload)).toString("base64url")}.${signature}`;
    server.announce("record", text, "job:T1");
    await pull();
    expect(await states()).toEqual({ [own.id]: "received", [`${own.id} of this phone`]: "saved" });
    server.refuses.set(own.id, { outcome: "not taken in", reason: "another record has this id" });
    await push();
    expect(await states()).toEqual({ [own.id]: "received", [`${own.id} of this phone`]: "not taken in" });
  });

  test("tells what a backup covers, and from when on it would cover a photo", async () => {
    const who = await signer();
    await photo(who, "a");
    await push();
    await sendPhotos();
    server.covered = 3;
    await pull();
    expect(await setting("covered")).toBe(3);
    expect(await withStore((db) => db.getAll("photos_sent"))).toMatchObject([{ after: 3 }]);
  });
});
