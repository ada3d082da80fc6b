/** What every answer tells of the server: its epoch, the head of its chain, and how much of it a backup holds. */

import { ApiError } from "../api/client";
import { t } from "../language";
import type { Store, StoredRecord, Writing } from "../store/db";
import { putBack } from "../store/outbox";
import type { Head } from "../store/records";

export interface Said {
  epoch: string;
  head: Head;
  covered: number;
}

/** A restore of the server that this phone has noticed, for its screens. */
export interface Restored {
  at: number;
  records: number;
  photos: number;
}

export const HEARING: Store[] = ["settings", "records", "outbox", "photos", "photo_outbox", "photos_sent"];

/**
 * Write down what an answer says of the server; whether it was restored since it was last heard.
 *
 * latest: nothing else was under way when it answered, so that its head cannot be behind this phone's own unless the
 * server was restored.
 */
export async function hear(tx: Writing, said: Said, latest: boolean): Promise<boolean> {
  if (!said.epoch || typeof said.head?.number !== "number") {
    throw new ApiError(0, t("net-between"));
  }
  const settings = tx.objectStore("settings");
  const epoch = (await settings.get("epoch")) as string | undefined;
  const head = (await settings.get("head")) as Head | undefined;
  const restored = epoch !== undefined && (epoch !== said.epoch || (latest && isBehind(said.head, head)));
  if (restored) await startOver(tx, said);
  if (restored || head === undefined || said.head.number >= head.number) await settings.put(said.head, "head");
  const covered = restored ? 0 : (((await settings.get("covered")) as number | undefined) ?? 0);
  await settings.put(Math.max(covered, said.covered), "covered");
  await settings.put(said.epoch, "epoch");
  await markPhotos(tx, said.head.number);
  return restored;
}

function isBehind(said: Head, own: Head | undefined): boolean {
  if (own === undefined) return false;
  return said.number < own.number || (said.number === own.number && said.hash !== own.hash);
}

/** A photo that was taken in before this answer was there when the chain ended at this number. */
async function markPhotos(tx: Writing, number: number): Promise<void> {
  const sent = tx.objectStore("photos_sent");
  for (const photo of await sent.index("after").getAll(IDBKeyRange.only(Number.POSITIVE_INFINITY))) {
    await sent.put({ ...photo, after: number });
  }
}

/**
 * The server was restored: what this phone made and has goes out again, and everything is pulled from the start.
 *
 * Its own records go back in the order of their key's chain, whether they were received or not taken in, since the
 * server may have lost either; so do the photos whose bytes are still here. Records of others stay as they are until
 * their job has been pulled anew (see `sweep`).
 */
async function startOver(tx: Writing, said: Said): Promise<void> {
  const settings = tx.objectStore("settings");
  for (const name of await settings.getAllKeys()) {
    if (!name.startsWith("cursor ")) continue;
    await settings.delete(name);
    await settings.put(said.epoch, `anew ${name.slice("cursor ".length)}`);
  }
  const own = await ownRecords(tx);
  for (const record of own) {
    if (record.state === "received") await tx.objectStore("records").put(unreceived(record));
  }
  const photos = await photosHere(tx, own);
  for (const sha256 of photos) await tx.objectStore("photos_sent").delete(sha256);
  const ids = own.map((record) => record.id);
  await putBack(tx, ids, photos);
  const noticed: Restored = { at: Date.now(), records: ids.length, photos: photos.length };
  await settings.put(noticed, "restored");
}

/** This phone's records that have left the outbox, each key's in the order in which it signed. */
async function ownRecords(tx: Writing): Promise<StoredRecord[]> {
  const device = await tx.objectStore("settings").get("device");
  const state = tx.objectStore("records").index("state");
  const gone = [...(await state.getAll("received")), ...(await state.getAll("not taken in"))];
  const own = gone.filter((record) => record.payload.device === device);
  return own.sort((one, other) => one.payload.seq - other.payload.seq);
}

function unreceived({ received: _, epoch: __, ...record }: StoredRecord): StoredRecord {
  return { ...record, state: "saved", number: null, verdict: "" };
}

/** The photos whose bytes are here, those first that the records name, in their order. */
async function photosHere(tx: Writing, own: readonly StoredRecord[]): Promise<string[]> {
  const here = new Set(await tx.objectStore("photos").getAllKeys());
  const named = own.flatMap(({ payload }) =>
    payload.type === "photo" ? [(payload.body as { sha256: string }).sha256] : [],
  );
  return [...new Set([...named.filter((sha256) => here.has(sha256)), ...here])];
}

/** Master data that a restored server's silence does not unmake: names, what is found by its content, whole jobs. */
const STAYS = ["shop", "person", "key", "plan", "job"];

/**
 * The end of a pull from the start, after a restore: what the server no longer has does not count any more.
 *
 * Records of others are kept, to be shown and exported, until they come again. Figures, pieces, tags and gauges give way
 * to the server's, unless it knows nothing at all of the job: then work goes on by what this phone has, and the server
 * judges it once the job is opened there again.
 */
export async function sweep(tx: Writing, scope: string, epoch: string): Promise<void> {
  const settings = tx.objectStore("settings");
  if ((await settings.get(`anew ${scope}`)) === undefined) return;
  await settings.delete(`anew ${scope}`);
  const rows = (await tx.objectStore("master").getAll()).filter((row) => row.scope === scope);
  if (rows.some((row) => row.epoch === epoch)) {
    for (const row of rows) {
      if (row.epoch !== epoch && !STAYS.includes(row.kind)) await tx.objectStore("master").delete(row.key);
    }
  }
  if (!scope.startsWith("job:")) return;
  const device = await settings.get("device");
  const records = tx.objectStore("records");
  for (const record of await records.index("job").getAll(scope.slice("job:".length))) {
    const others = record.payload.device !== device && record.state === "received" && record.epoch !== epoch;
    if (others) await records.put({ ...record, state: "missing", number: null, verdict: "" });
  }
}
