/** How much room is left on this phone, said in photos before it runs out. */
import { signal } from "@preact/signals";
import { writing } from "./db";

/** What a photo takes at most, by and large, once it is made small enough to send; in bytes. */
const PHOTO = 600_000;
/** With room for fewer photos than this, it is said before the next one. */
export const SHORT = 50;

/** For how many more photos there is room; null where the browser does not tell. */
export const room = signal<number | null>(null);

/** Some browsers promise room that they do not have, so a write that failed counts for more than their estimate. */
let ranOut = false;

/** A write failed for want of room, or one of a photo did not. */
export function noteRoom(enough: boolean): void {
  ranOut = !enough;
  if (ranOut) room.value = 0;
}

export async function lookAtRoom(): Promise<void> {
  const { quota, usage } = (await navigator.storage?.estimate?.().catch(() => null)) ?? {};
  if (ranOut) return;
  room.value = quota === undefined || usage === undefined ? null : Math.max(0, Math.floor((quota - usage) / PHOTO));
}

/** What a record takes at most, by and large, with its indexes; in bytes. */
const RECORD = 4_000;

/** How many more photos, or records instead of them, there is room for before it is short; null where nobody tells. */
export function roomLeft(): { photos: number; records: number } | null {
  if (room.value === null) return null;
  const photos = Math.max(0, room.value - SHORT);
  return { photos, records: Math.floor((photos * PHOTO) / RECORD) };
}

export function isShort(): boolean {
  return room.value !== null && room.value < SHORT;
}

/** Ask the browser to keep this phone's data; once is enough, and its answer is shown under Unsent. */
export async function askToKeep(): Promise<void> {
  await navigator.storage?.persist?.().catch(() => false);
}

/**
 * Where room is short, let go of photos' bytes, the oldest first, until there is room again. How many were let go.
 *
 * Only of a photo that the server has taken in and a verified backup holds: a backup of more of the chain than there
 * was when the photo was there already. The server shows it from then on.
 */
export async function makeRoom(): Promise<number> {
  await lookAtRoom();
  if (!isShort()) return 0;
  const gone = await writing(["settings", "photos", "photos_sent", "photo_outbox"], async (tx) => {
    const covered = ((await tx.objectStore("settings").get("covered")) as number | undefined) ?? 0;
    const held = await tx.objectStore("photos_sent").index("after").getAll(IDBKeyRange.upperBound(covered, true));
    let wanted = SHORT * PHOTO;
    let count = 0;
    for (const { sha256, bytes } of held.sort((a, b) => a.received - b.received)) {
      if (wanted <= 0) break;
      if ((await tx.objectStore("photos").getKey(sha256)) === undefined) continue;
      if ((await tx.objectStore("photo_outbox").getKey(sha256)) !== undefined) continue;
      await tx.objectStore("photos").delete(sha256);
      wanted -= bytes;
      count += 1;
    }
    return count;
  });
  if (gone > 0) await lookAtRoom();
  return gone;
}
