/** Unsent: how many, how old, how big; the way out by a file; what the server would not have, with the reason. */
import { useState } from "preact/hooks";
import { Frame, Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { linkTo, me } from "../state";
import { wallClock } from "../store/bytes";
import { type StoredRecord, setSetting, setting, withStore } from "../store/db";
import { download, type Export, exportUnsent, shareable } from "../store/export";
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
          <p class="soft">Server heard {heard.value ? `at ${when(heard.value).slice(11)}` : "not yet"}.</p>
        )}
        <button type="button" class="button main" disabled={working.value || none} onClick={sendNow}>
          {working.value ? "Sending" : "Send now"} <span>›</span>
        </button>
        <SaveToFile empty={none && !all?.missing.length} />
        {all && (
          <>
            <RestoredNotice restored={all.restored} />
            <Section
              title="Not believed by the server"
              says="They stay here and are tried again every ten minutes. Tell your supervisor."
              lines={all.unreadable.map(({ row, record }) => lineOf(record, row.unreadable ?? ""))}
            />
            <Section
              title="Not taken in"
              says="Not counted, here or on the server. The server keeps them; a supervisor sees them and the reason."
              lines={all.refused.map((record) => lineOf(record, record.reason))}
            />
            <Section
              title="Not on the server any more"
              says="Made on other phones, and lost when the server was restored. Not counted until they are there again:
                their own phones send them, and the file here holds them as well."
              lines={all.missing.map((record) => lineOf(record, `by ${record.payload.by}`))}
            />
            <Section
              title="Photos the server would not have"
              says="They are kept here, and tried again every ten minutes."
              lines={all.refusedPhotos.map(({ sha256, refused }) => photoLine(sha256, refused ?? ""))}
            />
            <Section
              title="Photos that cannot be shown"
              says="The server has them as they are."
              lines={all.notShown.map(({ sha256, reason }) => photoLine(sha256, reason))}
            />
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
  const shared = made && shareable(made.file);
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
      {shared && (
        <button type="button" class="button" onClick={() => void navigator.share({ files: [shared] }).catch(() => {})}>
          Share the file
        </button>
      )}
      {says && <Notice kind="bad">{says}</Notice>}
    </>
  );
}

function RestoredNotice({ restored }: { restored: Restored | undefined }) {
  const [read, setRead] = useState(false);
  if (!restored || read) return null;
  const putAway = async () => {
    await setSetting("restored", undefined);
    setRead(true);
  };
  return (
    <Notice kind="care">
      <p>
        The server was restored from a backup; this phone noticed on {when(restored.at)}. What it had made was put back
        to be sent: {counted(restored.records, "record")} and {counted(restored.photos, "photo")}.
      </p>
      <button type="button" class="button" onClick={() => void putAway()}>
        I have read it
      </button>
    </Notice>
  );
}

interface Said {
  id: string;
  name: string;
  says: string;
}

function Section({ title, says, lines }: { title: string; says: string; lines: Said[] }) {
  if (lines.length === 0) return null;
  return (
    <section>
      <h2>
        {title}: {lines.length}
      </h2>
      <p class="small soft">{says}</p>
      <ul class="list" aria-label={title}>
        {lines.map((line) => (
          <li key={line.id} class="row">
            <span class="grow">
              <b>{line.name}</b>
              <br />
              <span class="small">{line.says}</span>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function lineOf({ id, payload }: StoredRecord, says: string): Said {
  const place = [payload.step, payload.item, payload.station].filter(Boolean).join(" ");
  return { id, name: `${payload.type} at ${payload.piece} ${place}`, says: `${moment(payload.at)} · ${says}` };
}

function photoLine(sha256: string, says: string): Said {
  return { id: sha256, name: `photo ${sha256.slice(0, 8)}`, says };
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

function moment(at: string): string {
  return at.slice(0, 16).replace("T", " ");
}

function when(milliseconds: number): string {
  return moment(wallClock(new Date(milliseconds)));
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

function kilobytes(size: number): string {
  return size < 1_000_000 ? `${Math.ceil(size / 1000)} kB` : `${(size / 1_000_000).toFixed(1)} MB`;
}
