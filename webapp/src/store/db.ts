/** The phone's store. Stores are only ever added; see DEVELOPERS.md on moving to a newer version. */
import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from "idb";
import type { Role } from "../core/judging";
import type { Payload } from "../core/records";

export const VERSION = 1;

/** Where a signed record stands: saved here, taken in by the server, or not taken in with the reason. */
export type RecordState = "saved" | "received" | "not taken in";

export interface StoredRecord {
  id: string;
  job: string;
  piece: string;
  text: string;
  payload: Payload;
  role: Role;
  state: RecordState;
  number: number | null;
  verdict: string;
  reason: string;
}

export interface StoredKey {
  kid: string;
  person: string;
  name: string;
  roles: string[];
  stamp: string;
  /** The private key (PKCS 8), wrapped by the PIN's key and then by the device's. */
  wrapped: ArrayBuffer;
  salt: ArrayBuffer;
  rounds: number;
  pinIv: ArrayBuffer;
  deviceIv: ArrayBuffer;
  seq: number;
  prev: string;
}

export interface StoredPhoto {
  sha256: string;
  media_type: string;
  bytes: ArrayBuffer;
  reason: string;
}

interface Schema extends DBSchema {
  settings: { key: string; value: unknown };
  keys: { key: string; value: StoredKey };
  master: { key: string; value: { key: string; kind: string; scope: string; number: number; body: unknown } };
  records: { key: string; value: StoredRecord; indexes: { job: string } };
  outbox: { key: string; value: { id: string; order: number }; indexes: { order: number } };
  photos: { key: string; value: StoredPhoto };
  photo_outbox: { key: string; value: { sha256: string; order: number } };
}

export type Store = StoreNames<Schema>;
export type Writing = IDBPTransaction<Schema, Store[], "readwrite">;

let opened: Promise<IDBPDatabase<Schema>> | null = null;

function open(): Promise<IDBPDatabase<Schema>> {
  return openDB<Schema>("seamtag", VERSION, {
    upgrade(db) {
      db.createObjectStore("settings");
      db.createObjectStore("keys", { keyPath: "kid" });
      db.createObjectStore("master", { keyPath: "key" });
      db.createObjectStore("records", { keyPath: "id" }).createIndex("job", "job");
      db.createObjectStore("outbox", { keyPath: "id" }).createIndex("order", "order");
      db.createObjectStore("photos", { keyPath: "sha256" });
      db.createObjectStore("photo_outbox", { keyPath: "sha256" });
    },
    blocking(_current, _blocked, event) {
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated() {
      opened = null;
    },
  });
}

/** The open database; opened anew where the browser has dropped it. */
export function database(): Promise<IDBPDatabase<Schema>> {
  opened ??= open();
  return opened;
}

/** Work on the database; where the connection was lost, reopen it and try once more. */
export async function withStore<T>(work: (db: IDBPDatabase<Schema>) => Promise<T>): Promise<T> {
  try {
    return await work(await database());
  } catch (error) {
    if (!(error instanceof DOMException) || !["InvalidStateError", "UnknownError"].includes(error.name)) throw error;
    opened = null;
    return work(await database());
  }
}

/** One writing transaction with strict durability: what it wrote is on disk before it is done. */
export function writing<T>(stores: Store[], work: (tx: Writing) => Promise<T>): Promise<T> {
  return withStore(async (db) => {
    const tx = db.transaction(stores, "readwrite", { durability: "strict" });
    try {
      const result = await work(tx);
      await tx.done;
      return result;
    } catch (error) {
      tx.done.catch(() => {});
      try {
        tx.abort();
      } catch {
        // It has ended already.
      }
      throw error;
    }
  });
}

export async function setting<T>(name: string): Promise<T | undefined> {
  return withStore(async (db) => (await db.get("settings", name)) as T | undefined);
}

export async function setSetting(name: string, value: unknown): Promise<void> {
  await withStore((db) => db.put("settings", value, name));
}
