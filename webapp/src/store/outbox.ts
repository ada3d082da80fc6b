/** What waits to be sent: its order, its count, and what has come to nothing so far. */
import { signal } from "@preact/signals";
import { type StoredRecord, type Waiting, type Writing, withStore } from "./db";

export interface Count {
  records: number;
  photos: number;
  /** Sent, but not taken in: they wait for somebody's word, not for a network. */
  refused: number;
}

export const waiting = signal<Count>({ records: 0, photos: 0, refused: 0 });

export async function countWaiting(): Promise<void> {
  const [records, photos, refused] = await withStore((db) =>
    Promise.all([db.count("outbox"), db.count("photo_outbox"), db.countFromIndex("records", "state", "not taken in")]),
  );
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

export function inState(state: StoredRecord["state"]): Promise<StoredRecord[]> {
  return withStore((db) => db.getAllFromIndex("records", "state", state));
}
