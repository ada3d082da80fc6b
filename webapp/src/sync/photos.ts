/** Photos go apart from records, one by one, after the record that names them. */
import { call } from "../api/client";
import { withStore, writing } from "../store/db";

interface Received {
  sha256: string;
  outcome: string;
  shown: string;
}

/** Send what waits; whether anything was sent. */
export async function sendPhotos(): Promise<boolean> {
  const rows = await withStore((db) => db.getAll("photo_outbox"));
  for (const { sha256 } of rows.sort((a, b) => a.order - b.order)) {
    const photo = await withStore((db) => db.get("photos", sha256));
    if (!photo) continue;
    const answer = await call<Received>(`/photos/${sha256}`, {
      method: "PUT",
      headers: { "Content-Type": "application/octet-stream" },
      body: photo.bytes,
    });
    if (answer.sha256 !== sha256 || answer.outcome !== "taken in") continue;
    await writing(["photos", "photo_outbox"], async (tx) => {
      await tx.objectStore("photos").put({ ...photo, reason: answer.shown === "yes" ? "" : answer.shown });
      await tx.objectStore("photo_outbox").delete(sha256);
    });
  }
  return rows.length > 0;
}
