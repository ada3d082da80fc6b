/** Where on the piece: a clock's face where the places are hours, else a strip; what is recorded by shape and value. */
import type { ItemState } from "../core/items";
import type { Item } from "../core/job";
import { t } from "../language";
import type { OpenJob } from "../store/jobs";
import { faceOf, nearest } from "./clock";
import { Mark } from "./marks";

/** What is recorded at a place. */
export interface Here {
  readonly value: string;
  readonly good: boolean;
}

/** What is recorded in force at each place of an item. */
export function recordedAt(job: OpenJob, state: ItemState | undefined): Map<string, Here> {
  const found = new Map<string, Here>();
  for (const [station, ids] of state?.inForce ?? []) {
    const last = job.progress.records.get(ids.at(-1) ?? "");
    const body = last?.body as { entered?: string } | undefined;
    if (last && body?.entered) found.set(station, { value: body.entered, good: last.good });
  }
  return found;
}

/** Longer names and values than this need more room in the strip. */
const LONG = 5;

interface PickerProps {
  item: Item;
  recorded: ReadonlyMap<string, Here>;
  station: string;
  onStation: (name: string) => void;
}

/** How wide a face must be (see measure.css) so that places so many degrees apart do not lie over each other. */
const KINDS: readonly (readonly [number, string])[] = [
  [60, "clock few"],
  [45, "clock"],
  [0, "clock many"],
];

export function StationPicker({ item, recorded, station, onStation }: PickerProps) {
  const names = [...new Set([...(item.stations?.names ?? []), ...recorded.keys()])];
  const face = faceOf(item.stations);
  const one = (name: string, style?: Record<string, string>) => (
    <Place key={name} name={name} here={recorded.get(name)} now={name === station} onPick={onStation} style={style} />
  );
  if (!face) {
    const wide = [...names, ...[...recorded.values()].map(({ value }) => value)].some((text) => text.length > LONG);
    return <div class={wide ? "strip wide" : "strip"}>{names.map((name) => one(name))}</div>;
  }
  const place = (degrees: number) => {
    const turn = (degrees * Math.PI) / 180;
    return { "--x": Math.sin(turn).toFixed(4), "--y": (-Math.cos(turn)).toFixed(4) };
  };
  return (
    <section class={KINDS.find(([least]) => nearest(face) >= least)?.[1]} aria-label={t("measure-clock")}>
      <Dial />
      <p class="small soft">
        {item.stations?.seen_from && t("measure-seen-from", { end: item.stations.seen_from })}
        <br />
        {t("measure-stations-done", { done: recorded.size, asked: face.length })}
      </p>
      {face.map(([name, degrees]) => one(name, place(degrees)))}
    </section>
  );
}

/** The rim and its hours; the places stand on it. */
function Dial() {
  const hours = Array.from({ length: 12 }, (_, hour) => `rotate(${hour * 30} 50 50)`);
  return (
    <svg viewBox="0 0 100 100" aria-hidden="true">
      <circle cx="50" cy="50" r="48" fill="none" stroke="var(--line)" stroke-width="1" />
      {hours.map((turn) => (
        <path key={turn} d="M50 2v4" stroke="var(--ink-soft)" stroke-width="1" transform={turn} />
      ))}
    </svg>
  );
}

interface PlaceProps {
  name: string;
  here: Here | undefined;
  now: boolean;
  onPick: (name: string) => void;
  style: Record<string, string> | undefined;
}

/** One place: round while open or good, square where it is not good, beside the mark and the value. */
function Place({ name, here, now, onPick, style }: PlaceProps) {
  const kind = here ? (here.good ? "good" : "bad") : "open";
  const label = t(`measure-station-${kind}`, { station: name, ...(here ? { value: here.value } : {}) });
  return (
    <button
      type="button"
      class={`station ${kind}`}
      style={style}
      aria-pressed={now}
      aria-label={label}
      onClick={() => onPick(name)}
    >
      <b>{name}</b>
      {here && (
        <span>
          <Mark shape={here.good ? "in" : "out"} /> {here.value}
        </span>
      )}
    </button>
  );
}

/** Where one is, in one line, once something is typed; and the way to another place. */
export function StationLine({ item, station, onChange }: { item: Item; station: string; onChange: () => void }) {
  const clock = faceOf(item.stations) !== null;
  const numbered = /^\d+$/.test(station) ? "measure-at-number" : "measure-at";
  return (
    <div class="station-line">
      <b>{t(clock ? "measure-at-clock" : numbered, { station })}</b>
      <button type="button" class="link" onClick={onChange}>
        {t("measure-change")}
      </button>
    </div>
  );
}

interface OpenPlaceProps {
  item: Item;
  recorded: ReadonlyMap<string, Here>;
  station: string;
  /** Whether the keypad's keys go here, or letters by the phone's own keyboard. */
  typing: "keys" | "letters" | "";
  onTyping: () => void;
  onStation: (name: string) => void;
}

/** A place that the shop names as it goes along, such as hole 14-7, out of no fewer than so many. */
export function OpenPlace({ item, recorded, station, typing, onTyping, onStation }: OpenPlaceProps) {
  const { word = "", least } = item.stations ?? {};
  const label = t("measure-which-count", { word, done: recorded.size, least: least ?? 0 });
  if (typing === "letters") {
    return (
      <label class="field row-like">
        {label}
        <input
          autocapitalize="characters"
          autocomplete="off"
          value={station}
          onInput={(event) => onStation(event.currentTarget.value)}
        />
      </label>
    );
  }
  if (typing === "") {
    return (
      <div class="station-line">
        <b>{t("measure-at-place", { word, station })}</b>
        <button type="button" class="link" onClick={onTyping}>
          {t("measure-change-place", { word })}
        </button>
      </div>
    );
  }
  return (
    <div class="open-place">
      <span>{label}</span>
      <b aria-live="polite">{station || "–"}</b>
    </div>
  );
}
