/** Records made on this phone: signed, chained, and written with their photos and outbox row at one stroke. */
import type { Role } from "../core/judging";
import { type Bodies, type Kind, type Payload, SCHEMA, speakingRoles } from "../core/records";
import { VERSION } from "../core/version";
import { utf8, uuid7, wallClock } from "./bytes";
import { type StoredPhoto, type StoredRecord, setting, withStore, writing } from "./db";
import type { OpenJob } from "./jobs";
import { deviceId, digestOf, type Signer, sign } from "./keys";

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

/**
 * Sign a record and save it with its photos. When this is done, it is on disk.
 *
 * One lock a key spans 'read head, sign, write'; the head is read again inside the writing transaction, so that two
 * tabs and a double tap cannot fork the key's chain. No signing is awaited inside the transaction.
 */
export async function save<K extends Kind>(
  signer: Signer,
  job: OpenJob,
  record: NewRecord<K>,
  photos: StoredPhoto[] = [],
): Promise<StoredRecord> {
  return await navigator.locks.request(`key ${signer.kid}`, async (): Promise<StoredRecord> => {
    const stored = await withStore((db) => db.get("keys", signer.kid));
    if (!stored) throw new Error("Your key is no longer on this phone. Ask for a new invitation.");
    const payload = await payloadFor(signer, job, record, stored.seq + 1, stored.prev);
    const text = await sign(payload, signer.kid, signer.key);
    const next = { ...stored, seq: stored.seq + 1, prev: await digestOf(text) };
    const kept = keptRecord(signer, job, payload, text);
    await writing(["keys", "records", "outbox", "photos", "photo_outbox"], async (tx) => {
      const now = await tx.objectStore("keys").get(signer.kid);
      if (now?.seq !== stored.seq || now.prev !== stored.prev) throw new Error("Another tab was faster. Try again.");
      await tx.objectStore("keys").put(next);
      await tx.objectStore("records").add(kept);
      await tx.objectStore("outbox").add({ id: kept.id, order: Date.now() });
      for (const photo of photos) {
        await tx.objectStore("photos").put(photo);
        await tx.objectStore("photo_outbox").put({ sha256: photo.sha256, order: Date.now() });
      }
    });
    return kept;
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
