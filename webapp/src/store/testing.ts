/** What the tests of the store share: an empty store in memory, locks, a person with a key, and a job to record on. */
import "fake-indexeddb/auto";
import { deleteDB } from "idb";
import { vi } from "vitest";
import { type Database, database, type StoredRecord, setting, withStore } from "./db";
import type { OpenJob } from "./jobs";
import { keepKey, makeKey, type Signer } from "./keys";
import { save } from "./records";

export const PIN = "602417";

type Work = (lock: object | null) => Promise<unknown>;

/** Web Locks, one after the other by name. Node has none. */
function locks() {
  const queues = new Map<string, Promise<unknown>>();
  return {
    async request(name: string, options: { ifAvailable?: boolean } | Work, work?: Work): Promise<unknown> {
      const done = work ?? (options as Work);
      if (work && (options as { ifAvailable?: boolean }).ifAvailable && queues.has(name)) return done(null);
      const turn = (queues.get(name) ?? Promise.resolve()).then(() => done({}));
      const settled = turn.catch(() => {});
      queues.set(name, settled);
      await settled;
      if (queues.get(name) === settled) queues.delete(name);
      return turn;
    },
  };
}

/** room: what the browser says is left, in bytes. */
export async function emptyStore(room = 1e9): Promise<void> {
  const storage = { estimate: async () => ({ quota: room, usage: 0 }) };
  vi.stubGlobal("navigator", { locks: locks(), storage });
  (await database().catch(() => null))?.close();
  await deleteDB("seamtag");
  await setting("opened anew");
}

export async function signer(person = "ann"): Promise<Signer> {
  const made = await makeKey();
  await keepKey(made, PIN, { id: person, name: person, roles: ["inspector"], stamp: "" });
  return { kid: made.kid, person, name: person, roles: ["inspector"], stamp: "", key: made.pair.privateKey };
}

export const JOB = {
  id: "T1",
  progress: { job: { basis: { plan: "p", figures: 1 }, steps: new Map() }, reliedOn: () => [] },
} as unknown as OpenJob;

export function note(who: Signer, text = "as found"): Promise<StoredRecord> {
  return save(who, JOB, { type: "note", piece: "T1.S-1", found_by: "list", body: { text }, under: [] });
}

export async function photo(who: Signer, name: string, size = 10): Promise<StoredRecord> {
  const sha256 = name.padEnd(64, "0");
  const body = { sha256, media_type: "image/jpeg", bytes: size, width: 1, height: 1 };
  const bytes = new ArrayBuffer(size);
  const place = { piece: "T1.S-1", found_by: "list" as const, under: [] };
  return save(who, JOB, { type: "photo", body, ...place }, [{ sha256, media_type: "image/jpeg", bytes, reason: "" }]);
}

export async function recordOf(id: string): Promise<StoredRecord | undefined> {
  return withStore((db) => db.get("records", id));
}

/** The ids that wait, in the order in which they go. */
export async function outbox(): Promise<string[]> {
  return (await withStore((db) => db.getAllFromIndex("outbox", "order"))).map((row) => row.id);
}

export async function keysOf(store: "photos" | "photo_outbox" | "photos_sent" | "settings"): Promise<string[]> {
  return withStore((db: Database) => db.getAllKeys(store));
}
