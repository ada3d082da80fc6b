/** Records made on this phone: signed, chained, and written with their photos and outbox row at one stroke. */

import { signal } from "@preact/signals";
import type { Role } from "../core/judging";
import { type Bodies, type Kind, MOST_BYTES, type Payload, SCHEMA, speakingRoles } from "../core/records";
import { VERSION } from "../core/version";
import { t } from "../language";
import { utf8, uuid7, wallClock } from "./bytes";
import {
  database,
  isNamed,
  type StoredKey,
  type StoredPhoto,
  type StoredRecord,
  setting,
  storeTrouble,
  withStore,
  writing,
} from "./db";
import type { OpenJob } from "./jobs";
import { deviceId, digestOf, type Signer, sign } from "./keys";
import { lastPlace } from "./outbox";
import { lookAtRoom, makeRoom, noteRoom } from "./room";

export type NewRecord<K extends Kind = Kind> = {
  type: K;
  body: Bodies[K];
  piece: string;
  found_by: Payload["found_by"];
  step?: string;
  item?: string;
  station?: string;
  replaces?: string;
  why?: Payload["why"];
  under?: readonly string[];
};

export interface Head {
  number: number;
  hash: string;
}

const START: Head = { number: 0, hash: "0".repeat(64) };

/** Nothing of it was written. The message says why, and what to do. */
export class NotSavedError extends Error {}

/** What was not saved just now, for every screen to say until something is; '' where nothing was lost. */
export const notSaved = signal("");

/**
 * Sign a record and save it with its photos. When this is done, it is on disk.
 *
 * Where there is no room, photos are let go of that the server and its backup have, and it is tried once more. Throws NotSavedError where nothing of it was written, and says so on every screen.
 */
export async function save<K extends Kind>(
  signer: Signer,
  job: OpenJob,
  record: NewRecord<K>,
  photos: StoredPhoto[] = [],
): Promise<StoredRecord> {
  try {
    const kept = await withRoom(() => keep(signer, job, record, photos));
    notSaved.value = "";
    if (photos.length > 0) noteRoom(true);
    void lookAtRoom();
    return kept;
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    notSaved.value = isNamed(error, "QuotaExceededError") ? t("save-full") : message;
    throw new NotSavedError(notSaved.value, { cause: error });
  }
}

async function withRoom<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!isNamed(error, "QuotaExceededError")) throw error;
    noteRoom(false);
    if ((await makeRoom()) === 0) throw error;
    return work();
  }
}

/**
 * One lock a key spans 'read head, sign, write'; the head is read again inside the writing transaction, so that two
 * tabs and a double tap cannot fork the key's chain. No signing is awaited inside the transaction.
 */
async function keep(
  signer: Signer,
  job: OpenJob,
  record: NewRecord,
  photos: readonly StoredPhoto[],
): Promise<StoredRecord> {
  await database();
  if (storeTrouble.value === "older") throw new NotSavedError(t("trouble-older"));
  return await navigator.locks.request(`key ${signer.kid}`, async (): Promise<StoredRecord> => {
    const head = await withStore((db) => db.get("keys", signer.kid));
    if (!head) throw new NotSavedError(t("save-no-key"));
    if (head.replacedBy) throw new NotSavedError(t("save-newer-key"));
    const payload = await payloadFor(signer, job, record, head.seq + 1, head.prev);
    const text = await sign(payload, signer.kid, signer.key);
    if (text.length > MOST_BYTES) throw new NotSavedError(t("save-too-large"));
    const kept = keptRecord(signer, job, payload, text);
    await write(kept, head, { seq: payload.seq, prev: await digestOf(text) }, photos);
    return kept;
  });
}

type KeyHead = Pick<StoredKey, "seq" | "prev">;

/** Write a record, its key's new head, its outbox row and its photos. Harmless where it was written before. */
async function write(kept: StoredRecord, was: StoredKey, next: KeyHead, photos: readonly StoredPhoto[]): Promise<void> {
  await writing(["keys", "records", "outbox", "photos", "photo_outbox"], async (tx) => {
    const now = await tx.objectStore("keys").get(was.kid);
    // Its digest is this very record's: what seemed lost had been written.
    if (now?.prev === next.prev) return;
    if (now?.seq !== was.seq || now.prev !== was.prev) throw new NotSavedError(t("save-other-tab"));
    const order = await lastPlace(tx);
    await tx.objectStore("keys").put({ ...now, ...next });
    await tx.objectStore("records").put(kept);
    await tx.objectStore("outbox").put({ id: kept.id, order });
    for (const photo of photos) {
      await tx.objectStore("photos").put(photo);
      await tx.objectStore("photo_outbox").put({ sha256: photo.sha256, order, bytes: photo.bytes.byteLength });
    }
  });
}

async function payloadFor<K extends Kind>(
  signer: Signer,
  job: OpenJob,
  record: NewRecord<K>,
  seq: number,
  prev: string,
): Promise<Payload> {
  const under = record.under ?? (record.step ? job.progress.reliedOn(record.piece, record.step) : []);
  const { body, under: _, ...place } = record;
  return {
    id: uuid7(),
    schema: SCHEMA,
    core: VERSION,
    job: job.id,
    by: signer.person,
    device: await deviceId(),
    seq,
    prev,
    seen: (await setting<Head>("head")) ?? START,
    basis: job.progress.job.basis,
    at: wallClock(),
    ...place,
    under,
    body,
  } as unknown as Payload;
}

function keptRecord(signer: Signer, job: OpenJob, payload: Payload, text: string): StoredRecord {
  return {
    id: payload.id,
    job: job.id,
    piece: payload.piece,
    text,
    payload,
    role: provisionalRole(signer, job, payload),
    state: "saved",
    number: null,
    verdict: "",
    reason: "",
  };
}

/** The role as this phone knows it, until the server's stamp is here. */
export function provisionalRole(signer: { roles: string[] }, job: OpenJob, payload: Payload): Role {
  const wanted = speakingRoles(payload, job.progress.job.steps.get(payload.step ?? "") ?? null);
  if (wanted === null) return "";
  return wanted.some((role) => signer.roles.includes(role)) ? "held" : "not held";
}

/** How large what a record will be is, in bytes; for what is said about waiting records. */
export function sizeOf(record: StoredRecord): number {
  return utf8(record.text).length;
}
