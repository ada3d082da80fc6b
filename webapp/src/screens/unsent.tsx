/** Unsent: how many, how old, how big, and how sending goes; what the server would not have; how long there is room. */
import { locale, t, word } from "../language";
import { Frame, Notice } from "../parts/frame";
import { Mark } from "../parts/marks";
import { sizeText } from "../parts/sizes";
import { useLoaded } from "../parts/use";
import { linkTo, me } from "../state";
import { type StoredRecord, setSetting, setting, withStore } from "../store/db";
import { changes, type Person, people } from "../store/jobs";
import { gone, inState, unsent, unsentPhotos } from "../store/outbox";
import { sizeOf } from "../store/records";
import { isShort, room, roomLeft } from "../store/room";
import type { Restored } from "../sync/hearing";
import { heard, sendNow, trouble, waiting, working } from "../sync/loop";
import { ToFile } from "./to-file";

async function found() {
  const rows = await unsent();
  const photos = await unsentPhotos();
  const shown = await withStore((db) => db.getAll("photos_sent"));
  return {
    oldest: rows[0]?.record.payload.at,
    size: rows.reduce((sum, { record }) => sum + sizeOf(record), 0),
    photosSize: photos.size,
    unreadable: rows.filter(({ row }) => row.unreadable),
    refused: await inState("not taken in"),
    missing: await inState("missing"),
    refusedPhotos: photos.rows.filter((photo) => photo.refused),
    notShown: shown.filter((photo) => photo.reason),
    restored: await setting<Restored>("restored"),
    people: await people(),
    kept: (await navigator.storage?.persisted?.()) ?? false,
  };
}

type Found = Awaited<ReturnType<typeof found>>;

export function Unsent() {
  const all = useLoaded(found, [changes.value, waiting.value]);
  const none = waiting.value.records + waiting.value.photos === 0;
  return (
    <Frame title={t(me.value ? "frame-my-work" : "unlock-do")} back={linkTo("")}>
      <div class="body">
        <h1>{t("unsent")}</h1>
        {none ? <NothingWaits /> : <Tally all={all} />}
        <Sending />
        {!none && (
          <button type="button" class="button main" disabled={working.value} onClick={sendNow}>
            {t(working.value ? "unsent-sending" : "unsent-send")} <span>›</span>
          </button>
        )}
        <ToFile empty={none && !all?.missing.length} />
        {all?.restored && <RestoredNotice restored={all.restored} />}
        {all && <Refused all={all} />}
        {all && <RoomLeft kept={all.kept} />}
      </div>
    </Frame>
  );
}

function NothingWaits() {
  return (
    <p class="row item-name">
      <Mark shape="in" />
      {t("unsent-none")}
    </p>
  );
}

/** What waits: the count for the eye, the rest to read. */
function Tally({ all }: { all: Found | undefined }) {
  const { records, photos } = waiting.value;
  return (
    <div>
      <p class="tally">
        <b>{number(records + photos)}</b> {t("unsent-wait", { count: records + photos })}
      </p>
      <dl class="facts">
        <div>
          <dt>{t("unsent-records")}</dt>
          <dd>
            {number(records)} <span class="soft">· {sizeText(all?.size ?? 0)}</span>
          </dd>
        </div>
        <div>
          <dt>{t("unsent-photos")}</dt>
          <dd>
            {number(photos)} <span class="soft">· {sizeText(all?.photosSize ?? 0)}</span>
          </dd>
        </div>
        {all?.oldest && (
          <div>
            <dt>{t("unsent-oldest")}</dt>
            <dd>
              {moment(all.oldest)} <span class="soft">· {ago(all.oldest)}</span>
            </dd>
          </div>
        )}
      </dl>
    </div>
  );
}

/** How far sending has come, or what keeps it. */
function Sending() {
  const left = waiting.value.records + waiting.value.photos;
  const whole = gone.value + left;
  return (
    <>
      {gone.value > 0 && (
        <div class="sending">
          <progress aria-label={t("unsent-progress")} max={whole} value={gone.value} />
          <p>{t("unsent-gone", { gone: gone.value, whole })}</p>
        </div>
      )}
      {trouble.value ? (
        <Notice kind="care">{t("unsent-trouble", { says: trouble.value })}</Notice>
      ) : (
        <p class="soft">{heard.value ? t("unsent-heard", { time: moment(heard.value) }) : t("unsent-not-heard")}</p>
      )}
    </>
  );
}

function RestoredNotice({ restored: { at, records, photos } }: { restored: Restored }) {
  const putAway = async () => {
    await setSetting("restored", undefined);
    changes.value += 1;
  };
  return (
    <Notice kind="care">
      <p>{t("unsent-restored", { time: moment(at), records, photos })}</p>
      <button type="button" class="button" onClick={() => void putAway()}>
        {t("not-saved-read")}
      </button>
    </Notice>
  );
}

/** What did not come in, kind by kind, each with the reason as the server gave it. */
function Refused({ all }: { all: Found }) {
  const line = (record: StoredRecord, says: string) => lineOf(record, says, all.people);
  return (
    <>
      <Section id="unreadable" lines={all.unreadable.map(({ row, record }) => line(record, row.unreadable ?? ""))} />
      <Section id="refused" lines={all.refused.map((record) => line(record, record.reason))} />
      <Section id="missing" lines={all.missing.map((record) => line(record, ""))} />
      <Section id="photos-refused" lines={all.refusedPhotos.map((one) => photoLine(one.sha256, one.refused))} />
      <Section id="photos-not-shown" lines={all.notShown.map((one) => photoLine(one.sha256, one.reason))} />
    </>
  );
}

interface Line {
  id: string;
  name: string;
  made: string;
  says: string;
}

function Section({ id, lines }: { id: string; lines: Line[] }) {
  if (lines.length === 0) return null;
  return (
    <section class="body bare tight">
      <h2>
        {t(`unsent-title-${id}`)}: {number(lines.length)}
      </h2>
      <p class="small soft">{t(`unsent-says-${id}`)}</p>
      <ul class="list" aria-label={t(`unsent-title-${id}`)}>
        {lines.map((line) => (
          <li key={line.id} class="row">
            <span class="grow">
              <b>{line.name}</b>
              {line.made && (
                <>
                  <br />
                  <span class="small soft">{line.made}</span>
                </>
              )}
              {line.says && <span class="reason">{line.says}</span>}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function lineOf({ id, payload }: StoredRecord, says: string, known: ReadonlyMap<string, Person>): Line {
  const place = [payload.piece, payload.step, payload.item, payload.station].filter(Boolean).join(" ");
  const name = t("unsent-line", { type: word("type", payload.type), place });
  return { id, name, made: `${known.get(payload.by)?.name ?? payload.by} · ${moment(payload.at)}`, says };
}

function photoLine(sha256: string, says = ""): Line {
  return { id: sha256, name: `${word("type", "photo")} ${sha256.slice(0, 8)}`, made: "", says };
}

/** For how long this phone can hold out, and whether the browser has promised to keep what is here. */
function RoomLeft({ kept }: { kept: boolean }) {
  const left = roomLeft();
  return (
    <section class="body bare tight">
      <h2>{t("unsent-room")}</h2>
      {isShort() && (
        <Notice kind="care">
          {t(room.value === 0 ? "unsent-no-room" : "unsent-short", { count: room.value ?? 0 })} {t("unsent-make-room")}
        </Notice>
      )}
      {!isShort() && <p>{left ? t("unsent-room-left", rounded(left)) : t("unsent-room-unknown")}</p>}
      <p class="small soft">{t(kept ? "unsent-kept" : "unsent-not-kept")}</p>
    </section>
  );
}

/** Two figures are as many as a guess deserves. */
function rounded(left: { photos: number; records: number }) {
  const about = (count: number) => count.toLocaleString(locale(), { maximumSignificantDigits: 2 });
  return { photos: about(left.photos), records: about(left.records) };
}

function number(count: number): string {
  return count.toLocaleString(locale());
}

function moment(at: string | number): string {
  return new Date(at).toLocaleString(locale(), { dateStyle: "medium", timeStyle: "short" });
}

const SPANS = [
  ["day", 86_400_000],
  ["hour", 3_600_000],
  ["minute", 60_000],
] as const;

/** How long ago, in the largest unit of which there is one. */
function ago(at: string): string {
  const past = Math.max(0, Date.now() - Date.parse(at));
  const [unit, length] = SPANS.find(([, size]) => past >= size) ?? ["minute", 60_000];
  return new Intl.RelativeTimeFormat(locale(), { numeric: "auto" }).format(-Math.floor(past / length), unit);
}
