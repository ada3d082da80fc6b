/** Unsent: how many, how old, how big; the way out by a file; what the server would not have, with the reason. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Frame, Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { linkTo, me } from "../state";
import { type StoredRecord, setting, withStore } from "../store/db";
import { download, type Export, exportUnsent } from "../store/export";
import { changes } from "../store/jobs";
import { inState, unsent } from "../store/outbox";
import { sizeOf } from "../store/records";
import { isShort, room } from "../store/room";
import type { Restored } from "../sync/hearing";
import { heard, sendNow, trouble, waiting, working } from "../sync/loop";

async function found() {
  const rows = await unsent();
  const photos = await withStore((db) => db.getAll("photo_outbox"));
  const shown = await withStore((db) => db.getAll("photos_sent"));
  return {
    oldest: rows[0]?.record.payload.at,
    size: rows.reduce((sum, { record }) => sum + sizeOf(record), 0),
    unreadable: rows.filter(({ row }) => row.unreadable),
    refused: await inState("not taken in"),
    missing: await inState("missing"),
    refusedPhotos: photos.filter((photo) => photo.refused),
    notShown: shown.filter((photo) => photo.reason),
    restored: await setting<Restored>("restored"),
    kept: (await navigator.storage?.persisted?.()) ?? false,
  };
}

export function Unsent() {
  const all = useLoaded(found, [changes.value, waiting.value]);
  const { records, photos } = waiting.value;
  const none = records + photos === 0;
  return (
    <Frame title={me.value ? "My work" : "Unlock"} back={linkTo("")}>
      <div class="body">
        <h1>Unsent</h1>
        {none ? (
          <p>Everything recorded on this phone is on the server.</p>
        ) : (
          <p>
            <b>{counted(records, "record")}</b> ({kilobytes(all?.size ?? 0)}) and <b>{counted(photos, "photo")}</b> wait
            on this phone.
            {all?.oldest && ` The oldest is from ${moment(all.oldest)}.`}
          </p>
        )}
        {trouble.value ? (
          <Notice>{trouble.value} Everything is saved on this phone and goes out by itself.</Notice>
        ) : (
          <p class="soft">Server heard {heard.value ? new Date(heard.value).toLocaleTimeString() : "not yet"}.</p>
        )}
        <button type="button" class="button main" disabled={working.value || none} onClick={sendNow}>
          {working.value ? "Sending" : "Send now"} <span>›</span>
        </button>
        <SaveToFile empty={none && !all?.missing.length} />
        {all && (
          <>
            <RestoredNotice restored={all.restored} missing={all.missing.length} />
            <NotBelieved rows={all.unreadable.map(({ row, record }) => ({ record, says: row.unreadable ?? "" }))} />
            <NotTakenIn records={all.refused} />
            <Section title="Photos the server would not have" count={all.refusedPhotos.length}>
              {all.refusedPhotos.map((photo) => (
                <Line key={photo.sha256} says={`${photo.refused} It is kept here, and tried again.`}>
                  Photo {photo.sha256.slice(0, 8)}
                </Line>
              ))}
            </Section>
            <Section title="Photos that cannot be shown" count={all.notShown.length}>
              {all.notShown.map((photo) => (
                <Line key={photo.sha256} says={photo.reason}>
                  Photo {photo.sha256.slice(0, 8)}
                </Line>
              ))}
            </Section>
            <RoomLeft kept={all.kept} />
          </>
        )}
      </div>
    </Frame>
  );
}

/** The way out where no server can be reached. It works with the app locked, and changes nothing here. */
function SaveToFile({ empty }: { empty: boolean }) {
  const [made, setMade] = useState<Export | null>(null);
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const make = async () => {
    setBusy(true);
    setSays("");
    try {
      const all = await exportUnsent();
      download(all.file);
      setMade(all);
    } catch (error) {
      setSays(`No file was made. ${error instanceof Error ? error.message : error}`);
    } finally {
      setBusy(false);
    }
  };
  const shares = made !== null && (navigator.canShare?.({ files: [made.file] }) ?? false);
  return (
    <>
      <button type="button" class="button" disabled={busy || empty} onClick={() => void make()}>
        {busy ? "Saving" : "Save to a file"}
      </button>
      {made && (
        <Notice>
          <p>
            {counted(made.records, "record")} and {counted(made.photos, "photo")} are in the file{" "}
            <b class="file-name">{made.file.name}</b> ({kilobytes(made.file.size)}). Carry it to the office: the server
            takes it in there. Everything stays on this phone, and still goes out by itself.
          </p>
        </Notice>
      )}
      {made && shares && (
        <button
          type="button"
          class="button"
          onClick={() => void navigator.share({ files: [made.file] }).catch(() => {})}
        >
          Share the file
        </button>
      )}
      {says && <Notice kind="bad">{says}</Notice>}
    </>
  );
}

function RestoredNotice({ restored, missing }: { restored: Restored | undefined; missing: number }) {
  if (!restored) return null;
  return (
    <Notice kind="care">
      <p>
        The server was restored from a backup; this phone noticed on {new Date(restored.at).toLocaleString()}.{" "}
        {counted(restored.records, "record")} and {counted(restored.photos, "photo")} of this phone go out again.
      </p>
      {missing > 0 && (
        <p>
          {counted(missing, "record")} made on other phones {missing === 1 ? "is" : "are"} not on the server any more.
          They do not count until they are: those phones send them again, and they are in the file as well.
        </p>
      )}
    </Notice>
  );
}

/** Sent, read, and kept by the server, but not counted: they wait for a supervisor's word. */
function NotTakenIn({ records }: { records: StoredRecord[] }) {
  return (
    <Section title="Not taken in" count={records.length}>
      <li class="small soft">
        Not counted, here or on the server. The server keeps them; a supervisor sees them and the reason.
      </li>
      {records.map((record) => (
        <Line key={record.id} says={record.reason}>
          {nameOf(record)}
        </Line>
      ))}
    </Section>
  );
}

function NotBelieved({ rows }: { rows: { record: StoredRecord; says: string }[] }) {
  return (
    <Section title="Not believed by the server" count={rows.length}>
      <li class="small soft">They stay here and are tried again every ten minutes. Tell your supervisor.</li>
      {rows.map(({ record, says }) => (
        <Line key={record.id} says={says}>
          {nameOf(record)}
        </Line>
      ))}
    </Section>
  );
}

function Section({ title, count, children }: { title: string; count: number; children: ComponentChildren }) {
  if (count === 0) return null;
  return (
    <section>
      <h2>
        {title}: {count}
      </h2>
      <ul class="list" aria-label={title}>
        {children}
      </ul>
    </section>
  );
}

function Line({ says, children }: { says: string; children: ComponentChildren }) {
  return (
    <li class="row">
      <span class="grow">
        <b>{children}</b>
        <br />
        <span class="small">{says}</span>
      </span>
    </li>
  );
}

/** Room for more, and whether the browser has promised to keep what is here. */
function RoomLeft({ kept }: { kept: boolean }) {
  return (
    <>
      {isShort() && (
        <Notice kind="care">
          {room.value === 0
            ? "This phone has no room for another photo."
            : `This phone has room for about ${counted(room.value ?? 0, "more photo")}.`}{" "}
          Photos that are on the server and in its backup are let go of by themselves; what is unsent never is. So send,
          or save it to a file, and free room on the phone.
        </Notice>
      )}
      {!kept && (
        <p class="small soft">This browser has not promised to keep the data. Install the app, and send often.</p>
      )}
    </>
  );
}

function nameOf({ payload }: StoredRecord): string {
  const place = [payload.step, payload.item, payload.station].filter(Boolean).join(" ");
  return `${payload.type} at ${payload.piece}${place ? `, ${place}` : ""}, ${moment(payload.at)}`;
}

function moment(at: string): string {
  return at.slice(0, 16).replace("T", " ");
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

function kilobytes(size: number): string {
  return size < 1_000_000 ? `${Math.ceil(size / 1000)} kB` : `${(size / 1_000_000).toFixed(1)} MB`;
}
