/** Photos go apart from records, one by one, after the record that names them. */
import { ApiError, call } from "../api/client";
import { type StoredPhoto, type WaitingPhoto, withStore, writing } from "../store/db";
import { countWaiting } from "../store/outbox";
import { isLeftAlone } from "./times";

interface Received {
  sha256: string;
  outcome: string;
  shown: string;
}

/** A link slower than this many bytes a second is given up. */
const SLOWEST = 5_000;

/**
 * Send what waits; whether the server answered.
 *
 * A photo that the server will not have stays, with the reason, and holds up neither the next one nor the pull.
 */
export async function sendPhotos(urgent = false): Promise<boolean> {
  const rows = await withStore((db) => db.getAll("photo_outbox"));
  let heard = false;
  for (const row of rows.sort((a, b) => a.order - b.order)) {
    if (row.refused && !urgent && isLeftAlone(row.tried)) continue;
    const photo = await withStore((db) => db.get("photos", row.sha256));
    if (photo) heard = (await sendPhoto(row, photo)) || heard;
  }
  return heard;
}

async function sendPhoto(row: WaitingPhoto, photo: StoredPhoto): Promise<boolean> {
  const { sha256, bytes } = photo;
  let answer: Received;
  try {
    const options = { method: "PUT", headers: { "Content-Type": "application/octet-stream" }, body: bytes };
    answer = await call<Received>(`/photos/${sha256}`, options, Math.ceil(bytes.byteLength / SLOWEST) * 1000);
  } catch (error) {
    const refused = error instanceof ApiError && error.status >= 400 && error.status < 500 && error.status !== 429;
    if (!refused) throw error;
    await writing(["photo_outbox"], (tx) =>
      tx.objectStore("photo_outbox").put({ ...row, refused: error.message, tried: Date.now() }),
    );
    return true;
  }
  if (answer.sha256 !== sha256 || answer.outcome !== "taken in") return true;
  const reason = answer.shown === "yes" ? "" : answer.shown;
  await writing(["photos_sent", "photo_outbox"], async (tx) => {
    const sent = { sha256, bytes: bytes.byteLength, received: Date.now(), after: Number.POSITIVE_INFINITY, reason };
    await tx.objectStore("photos_sent").put(sent);
    await tx.objectStore("photo_outbox").delete(sha256);
  });
  await countWaiting();
  return true;
}
