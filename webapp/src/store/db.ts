/** The phone's store. Stores are only ever added; see DEVELOPERS.md on moving to a newer version. */
import { signal } from "@preact/signals";
import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from "idb";
import type { Role } from "../core/judging";
import type { Payload } from "../core/records";

export const VERSION = 2;

/**
 * Where a signed record stands: saved here, taken in by the server, or not taken in with the reason. Missing: somebody
 * else's, which a restored server no longer has; kept, but not counted.
 */
export type RecordState = "saved" | "received" | "not taken in" | "missing";

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
  /** When this phone first heard that the server has it, in milliseconds. */
  received?: number;
  /** The epoch of the feed in which `number` is its number. */
  epoch?: string;
}

/** The private key (PKCS 8) wrapped a second time: by a key from a badge's secret, and then by the device's. */
export interface BadgeWrapping {
  wrapped: ArrayBuffer;
  salt: ArrayBuffer;
  iv: ArrayBuffer;
  deviceIv: ArrayBuffer;
  /** When the badge was added, in milliseconds. */
  since: number;
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
  /** The public key, so that the server can be told of it again though nobody can unlock it. */
  jwk?: { kty: string; crv: string; x: string; y: string };
  /** The key that this person enrolled on this phone afterwards: this one signs no more. */
  replacedBy?: string;
  badge?: BadgeWrapping;
}

export interface StoredPhoto {
  sha256: string;
  media_type: string;
  bytes: ArrayBuffer;
  reason: string;
}

/** A record that waits. unreadable: why the server could not believe it; tried: when it was last sent in vain. */
export interface Waiting {
  id: string;
  order: number;
  unreadable?: string;
  tried?: number;
}

/** A photo that waits. bytes: its size, which an older app did not note. refused: why the server would not have it; tried: when it was last sent in vain. */
export interface WaitingPhoto {
  sha256: string;
  order: number;
  bytes?: number;
  refused?: string;
  tried?: number;
}

/**
 * A photo the server has taken in. after: the server's head once it was there, Infinity until that is known: only a
 * backup of more than that holds the photo. reason: why it cannot be shown.
 */
export interface SentPhoto {
  sha256: string;
  bytes: number;
  received: number;
  after: number;
  reason: string;
}

/** epoch: of the feed it came in; what a restored server does not have is told apart by it. */
export interface Master {
  key: string;
  kind: string;
  scope: string;
  number: number;
  body: unknown;
  epoch?: string;
}

interface Schema extends DBSchema {
  settings: { key: string; value: unknown };
  keys: { key: string; value: StoredKey };
  master: { key: string; value: Master };
  records: { key: string; value: StoredRecord; indexes: { job: string; state: string } };
  outbox: { key: string; value: Waiting; indexes: { order: number } };
  photos: { key: string; value: StoredPhoto };
  photo_outbox: { key: string; value: WaitingPhoto };
  photos_sent: { key: string; value: SentPhoto; indexes: { after: number } };
}

export type Store = StoreNames<Schema>;
export type Database = IDBPDatabase<Schema>;
export type Writing = IDBPTransaction<Schema, Store[], "readwrite">;

/** older: the store is of a newer app, so that this one may send and export but not record. blocked: a tab is in the way. */
export const storeTrouble = signal<"" | "older" | "blocked">("");

/** Names of the errors by which a browser tells that it has dropped the connection. */
const LOST = ["InvalidStateError", "UnknownError", "AbortError"];

let opened: Promise<Database> | null = null;

/** The open database; opened anew where the browser has dropped it or a newer tab has asked for it. */
export function database(): Promise<Database> {
  opened ??= connect();
  return opened;
}

function connect(): Promise<Database> {
  const connection: Promise<Database> = open(() => forget(connection));
  connection.catch(() => forget(connection));
  return connection;
}

function forget(connection: Promise<Database>): void {
  if (opened === connection) opened = null;
}

/** Open it; once more where the browser's own storage process was lost meanwhile. */
async function open(lost: () => void): Promise<Database> {
  try {
    return await openAny(lost);
  } catch (error) {
    if (!isNamed(error, ...LOST)) throw error;
    return openAny(lost);
  }
}

/** lost: called when the connection can no longer be used. */
async function openAny(lost: () => void): Promise<Database> {
  const closing = {
    // What is being written is written to its end; only then does the connection close.
    blocking: (_current: number, _wanted: number | null, event: IDBVersionChangeEvent) => {
      (event.target as IDBDatabase).close();
      lost();
    },
    terminated: lost,
  };
  const blocked = () => {
    storeTrouble.value = "blocked";
  };
  try {
    const db = await openDB<Schema>("seamtag", VERSION, { upgrade, blocked, ...closing });
    storeTrouble.value = "";
    return db;
  } catch (error) {
    if (!isNamed(error, "VersionError")) throw error;
    storeTrouble.value = "older";
    return openDB<Schema>("seamtag", undefined, closing);
  }
}

async function upgrade(
  db: Database,
  oldVersion: number,
  _version: number | null,
  tx: IDBPTransaction<Schema, Store[], "versionchange">,
): Promise<void> {
  if (oldVersion < 1) {
    db.createObjectStore("settings");
    db.createObjectStore("keys", { keyPath: "kid" });
    db.createObjectStore("master", { keyPath: "key" });
    db.createObjectStore("records", { keyPath: "id" }).createIndex("job", "job");
    db.createObjectStore("outbox", { keyPath: "id" }).createIndex("order", "order");
    db.createObjectStore("photos", { keyPath: "sha256" });
    db.createObjectStore("photo_outbox", { keyPath: "sha256" });
  }
  if (oldVersion < 2) {
    tx.objectStore("records").createIndex("state", "state");
    db.createObjectStore("photos_sent", { keyPath: "sha256" }).createIndex("after", "after");
    for await (const { value: photo } of tx.objectStore("photos")) {
      if ((await tx.objectStore("photo_outbox").getKey(photo.sha256)) !== undefined) continue;
      const [bytes, received] = [photo.bytes.byteLength, Date.now()];
      await tx
        .objectStore("photos_sent")
        .put({ sha256: photo.sha256, bytes, received, after: Number.POSITIVE_INFINITY, reason: photo.reason });
    }
  }
}

export function isNamed(error: unknown, ...names: string[]): boolean {
  return error instanceof Error && names.includes(error.name);
}

/**
 * Work on the database; where the connection was lost, reopen it and try once more.
 *
 * What was lost may have been committed all the same, so work must do no harm when it is done twice.
 */
export async function withStore<T>(work: (db: Database) => Promise<T>): Promise<T> {
  const connection = database();
  try {
    return await work(await connection);
  } catch (error) {
    if (!isNamed(error, ...LOST)) throw error;
    forget(connection);
    connection.then((db) => db.close()).catch(() => {});
    return work(await database());
  }
}

/** How often each store was written to from this tab: what is kept of a store holds until this grows. */
export const written = new Map<Store, number>();

/**
 * One writing transaction with strict durability: what it wrote is on disk before it is done.
 *
 * work may be called a second time, after a first that was lost on its way and may have been committed: it puts by id.
 */
export function writing<T>(stores: Store[], work: (tx: Writing) => Promise<T>): Promise<T> {
  return withStore(async (db) => {
    const tx = db.transaction(stores, "readwrite", { durability: "strict" });
    try {
      const result = await work(tx);
      await tx.done;
      for (const store of stores) written.set(store, (written.get(store) ?? 0) + 1);
      return result;
    } catch (error) {
      tx.done.catch(() => {});
      try {
        tx.abort();
      } catch {
        // It has ended already.
      }
      // Requests that were under way when storage ran out say only that they were aborted.
      throw isNamed(error, "AbortError") && tx.error ? tx.error : error;
    }
  });
}

export async function setting<T>(name: string): Promise<T | undefined> {
  return withStore(async (db) => (await db.get("settings", name)) as T | undefined);
}

export async function setSetting(name: string, value: unknown): Promise<void> {
  await withStore((db) => db.put("settings", value, name));
}

/** A setting that is made once and then kept: of two tabs that make it at once, both get the first. */
export async function settingOnce<T>(name: string, make: () => T | Promise<T>): Promise<T> {
  const known = await setting<T>(name);
  if (known !== undefined) return known;
  const made = await make();
  return writing(["settings"], async (tx) => {
    const first = (await tx.objectStore("settings").get(name)) as T | undefined;
    if (first === undefined) await tx.objectStore("settings").put(made, name);
    return first ?? made;
  });
}
