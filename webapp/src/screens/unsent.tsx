/** Unsent: how many, how old, how big; what was not taken in, with the reason. */
import { Frame, Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { withStore } from "../store/db";
import { changes } from "../store/jobs";
import { sizeOf } from "../store/records";
import { heard, trouble, waiting, wake, working } from "../sync/loop";

async function unsent() {
  const rows = await withStore((db) => db.getAllFromIndex("outbox", "order"));
  const records = (await withStore((db) => Promise.all(rows.map((row) => db.get("records", row.id))))).filter(
    (one) => one !== undefined,
  );
  const refused = (await withStore((db) => db.getAll("records"))).filter((one) => one.state === "not taken in");
  const photos = (await withStore((db) => db.getAll("photos"))).filter((photo) => photo.reason);
  const size = records.reduce((sum, one) => sum + sizeOf(one), 0);
  return { records, refused, photos, size };
}

export function Unsent() {
  const found = useLoaded(unsent, [changes.value, waiting.value]);
  const kept = useLoaded(async () => (await navigator.storage?.persisted?.()) ?? false, []);
  return (
    <Frame>
      <div class="body">
        <h1>Unsent</h1>
        <p>
          <b>{waiting.value.records}</b> records ({Math.ceil((found?.size ?? 0) / 1000)} kB),{" "}
          <b>{waiting.value.photos}</b> photos.
          {found?.records[0] && ` The oldest is from ${found.records[0].payload.at.slice(0, 16).replace("T", " ")}.`}
        </p>
        {trouble.value ? (
          <Notice>{trouble.value} Everything is saved on this phone and goes out by itself.</Notice>
        ) : (
          <p class="soft">Server heard {heard.value ? new Date(heard.value).toLocaleTimeString() : "not yet"}.</p>
        )}
        {kept === false && (
          <p class="small soft">This browser has not promised to keep the data. Install the app, and send often.</p>
        )}
        <button type="button" class="button" disabled={working.value} onClick={wake}>
          {working.value ? "Sending" : "Send now"}
        </button>
        {found && found.refused.length > 0 && <h2>Not taken in</h2>}
        {found?.refused.map((one) => (
          <Notice key={one.id} kind="bad">
            {one.payload.type} at {one.payload.piece}: {one.reason}
          </Notice>
        ))}
        {found?.photos.map((photo) => (
          <Notice key={photo.sha256} kind="bad">
            {photo.reason}
          </Notice>
        ))}
      </div>
    </Frame>
  );
}
