/** What waits to be sent: its order, its count, and what has come to nothing so far. */
import { signal } from "@preact/signals";
import { type StoredRecord, type Waiting, type WaitingPhoto, type Writing, withStore } from "./db";

export interface Count {
  records: number;
  photos: number;
  /** Sent, but not taken in: they wait for somebody's word, not for a network. */
  refused: number;
}

export const waiting = signal<Count>({ records: 0, photos: 0, refused: 0 });

/** How many have gone since there was last nothing to send: what makes sending seen to move. */
export const gone = signal(0);

export async function countWaiting(): Promise<void> {
  const [records, photos, refused] = await withStore((db) =>
    Promise.all([db.count("outbox"), db.count("photo_outbox"), db.countFromIndex("records", "state", "not taken in")]),
  );
  const before = waiting.value.records + waiting.value.photos;
  const now = records + photos;
  gone.value = now === 0 ? 0 : gone.value + Math.max(0, before - now);
  waiting.value = { records, photos, refused };
}

/** The place behind everything that waits, even where the phone's clock was put back. */
export async function lastPlace(tx: Writing): Promise<number> {
  const last = await tx.objectStore("outbox").index("order").openKeyCursor(null, "prev");
  return Math.max(Date.now(), (last?.key ?? 0) + 1);
}

/** Put records and photos back in front of everything that waits, in the order given. */
export async function putBack(tx: Writing, ids: readonly string[], photos: readonly string[]): Promise<void> {
  const first = await tx.objectStore("outbox").index("order").openKeyCursor();
  const before = Math.min(Date.now(), first?.key ?? Number.POSITIVE_INFINITY);
  for (const [place, id] of ids.entries()) {
    await tx.objectStore("outbox").put({ id, order: before - ids.length + place });
  }
  for (const [place, sha256] of photos.entries()) {
    await tx.objectStore("photo_outbox").put({ sha256, order: before - photos.length + place });
  }
}

export interface Unsent {
  row: Waiting;
  record: StoredRecord;
}

/** The records that wait, in the order in which they go. */
export function unsent(): Promise<Unsent[]> {
  return withStore(async (db) => {
    const tx = db.transaction(["outbox", "records"]);
    const rows = await tx.objectStore("outbox").index("order").getAll();
    const records = await Promise.all(rows.map((row) => tx.objectStore("records").get(row.id)));
    return rows.flatMap((row, place) => {
      const record = records[place];
      return record ? [{ row, record }] : [];
    });
  });
}

/** The photos that wait, in the order in which they go, and their size together, in bytes. */
export async function unsentPhotos(): Promise<{ rows: WaitingPhoto[]; size: number }> {
  const rows = (await withStore((db) => db.getAll("photo_outbox"))).sort((a, b) => a.order - b.order);
  let size = 0;
  for (const { sha256, bytes } of rows) {
    // One by one, so that hundreds of photos are never in memory at once.
    size += bytes ?? (await withStore((db) => db.get("photos", sha256)))?.bytes.byteLength ?? 0;
  }
  return { rows, size };
}

export function inState(state: StoredRecord["state"]): Promise<StoredRecord[]> {
  return withStore((db) => db.getAllFromIndex("records", "state", state));
}
