/** A measurement: the reading large, where it falls, the verdict, and a keypad. */
import { useEffect, useState } from "preact/hooks";
import type { Item } from "../core/job";
import { gaugeOf, wordOfReading } from "../core/judging";
import { type Decimal, NumberError, parse } from "../core/numbers";
import type { Why } from "../core/records";
import { tooCoarse, type Verdict } from "../core/verdict";
import { Notice } from "../parts/frame";
import { Keypad } from "../parts/keypad";
import { LimitBar } from "../parts/limit-bar";
import { Mark } from "../parts/marks";
import { beside, COMMA, limitsRead, marginRead, shownValue, uomsFor } from "../parts/notation";
import { useLoaded } from "../parts/use";
import { WhyAgain } from "../parts/why-again";
import { setSetting, setting } from "../store/db";
import { type Gauge, gauges } from "../store/jobs";
import { type EntryProps, mine, nextStation, record } from "./item";
import type { At } from "./step";

interface Read {
  value: Decimal | null;
  fault: string;
  doubt: string;
}

/** What is typed so far as a value; a half-typed one is no fault yet. */
export function reading(typed: string): Read {
  if (!typed.trim()) return { value: null, fault: "", doubt: "" };
  try {
    const { value, doubt } = parse(typed, COMMA && typed.includes(","));
    return { value, fault: "", doubt };
  } catch (error) {
    if (!(error instanceof NumberError)) throw error;
    return { value: null, fault: error.message, doubt: "" };
  }
}

export function MeasureEntry({ at, item, onDone }: EntryProps) {
  const [typed, setTyped] = useState("");
  const [station, setStation] = useState(nextStation(at, item));
  const [why, setWhy] = useState<Why | "">("");
  const [saved, setSaved] = useState("");
  const shelf = useLoaded(gauges, []);
  const fitting = shelf?.filter((gauge) => gauge.kind === item.gauge) ?? [];
  const [gaugeId, setGauge] = useGauge(item.gauge ?? "", fitting);
  const gauge = fitting.find((one) => one.id === gaugeId);
  const { job } = at.job.progress;
  const { basis } = job;
  const limits = job.limits(at.piece, at.step.code, item.code, basis.plan, basis.figures);
  const { value: figure, fault, doubt } = reading(typed);
  const own = item.uom ?? "";
  const uoms = uomsFor(own, gauge?.uom);
  const [picked, setPicked] = useState("");
  const uom = uoms.includes(picked) ? picked : gauge && uoms.includes(gauge.uom) ? gauge.uom : own;
  const entry = {
    entered: typed.trim(),
    uom,
    ...(COMMA && typed.includes(",") ? { comma: true } : {}),
    ...(gaugeId ? { gauge: gaugeId } : {}),
  };
  const here = { piece: at.piece, step: at.step.code, item: item.code, station: station.trim() };
  const [value, verdict] = figure === null ? [null, null] : wordOfReading(entry, here, job, item, basis);
  useEffect(() => buzz(verdict?.word), [verdict?.word, typed]);
  const before = mine(at, item, station);
  const open = Boolean(item.stations && item.stations.least != null);
  const ready = value !== null && (!open || station.trim() !== "") && (!before || why !== "");
  const keep = async () => {
    if (value === null) return;
    const body = { ...entry, verdict: verdict?.word ?? "" };
    const again = before && why ? { replaces: before, why } : {};
    await record(at, item, "reading", body, { station: station.trim(), ...again });
    setSaved(
      `${station ? `${station}: ` : ""}${typed.trim()} ${uom}, ${verdict?.word ?? "recorded"}: saved on this phone`,
    );
    setTyped("");
    setWhy("");
    const next = nextStation(at, item);
    setStation(open ? "" : next);
    if (!open && !next && verdict?.word !== "out of tolerance") onDone();
  };
  return (
    <>
      <p class="small soft">
        {limitsRead(limits, own, uom)}
        {(item.lower || item.upper) && ` · ${item.binds}`}
      </p>
      <Stations at={at} item={item} station={station} onStation={setStation} />
      <ReadingRow
        typed={typed}
        uom={uom}
        other={nextOf(uoms, uom)}
        beside={figure !== null && value !== null ? asWell(figure, value, own, uom, typed) : ""}
        onOther={setPicked}
      />
      {verdict && <VerdictLine verdict={verdict} own={own} uom={uom} />}
      <LimitBar limits={limits} value={value} uom={own} />
      {fault && <Notice>{fault}</Notice>}
      {doubt && <Notice kind="care">Is it {doubt}</Notice>}
      {saved && !typed && <Notice>{saved}</Notice>}
      <div class="pad">
        {before && typed && <WhyAgain at={at} before={before} why={why} onWhy={setWhy} />}
        <Keypad
          typed={typed}
          onType={setTyped}
          onSave={() => void keep()}
          canSave={ready}
          inches={uom === "in"}
          point={COMMA ? "," : "."}
          brief={Boolean(before && typed)}
          saveWord={value !== null && before && !why ? "Choose why" : "Save"}
        />
      </div>
      <GaugeLine
        gauge={gauge}
        fitting={fitting}
        onGauge={setGauge}
        coarse={tooCoarse(limits, gaugeOf(entry, job, item))}
      />
      {item.source && <p class="small soft">Source of the limit: {item.source}</p>}
      {item.where && <p class="small soft">{item.where}</p>}
    </>
  );
}

/** What is typed, the largest thing on the screen, with its uom and what it is as well; and the way to another uom. */
function ReadingRow({
  typed,
  uom,
  other,
  beside,
  onOther,
}: {
  typed: string;
  uom: string;
  other: string;
  beside: string;
  onOther: (uom: string) => void;
}) {
  return (
    <div class="reading-row">
      <div class="reading" aria-live="polite">
        {typed || "–"}
        <span class="uom">
          {uom}
          <small>{beside}</small>
        </span>
      </div>
      {other !== uom && (
        <button type="button" class="uom-key" onClick={() => onOther(other)}>
          {other}
          <span class="small"> instead</span>
        </button>
      )}
    </div>
  );
}

/** A short buzz for in tolerance, two long ones for anything else; nothing where a phone cannot. */
function buzz(word: string | undefined): void {
  if (!word || word === "recorded") return;
  navigator.vibrate?.(word === "in tolerance" ? 20 : [90, 60, 90]);
}

function nextOf(uoms: string[], uom: string): string {
  return uoms[(uoms.indexOf(uom) + 1) % uoms.length] ?? uom;
}

/** What the figure typed is as well: its decimal or its nearest fraction, or the value in the item's own uom. */
function asWell(figure: Decimal, value: Decimal, own: string, uom: string, typed: string): string {
  return uom === own ? beside(figure, uom, typed) : `${shownValue(value, own)} ${own}`;
}

/** The gauge picked once for its kind, and kept. */
function useGauge(kind: string, fitting: Gauge[]): [string, (id: string) => void] {
  const [picked, setPicked] = useState<string | null>(null);
  const kept = useLoaded(() => setting<string>(`gauge ${kind}`), [kind]);
  const chosen = picked ?? (fitting.some((one) => one.id === kept) ? kept : fitting[0]?.id) ?? "";
  const pick = (id: string) => {
    setPicked(id);
    void setSetting(`gauge ${kind}`, id);
  };
  return [chosen, pick];
}

function GaugeLine({
  gauge,
  fitting,
  onGauge,
  coarse,
}: {
  gauge: Gauge | undefined;
  fitting: Gauge[];
  onGauge: (id: string) => void;
  coarse: string;
}) {
  if (!gauge) return <p class="small soft">no gauge named</p>;
  const ranOut = gauge.due && new Date().toISOString().slice(0, 10) > gauge.due;
  return (
    <>
      <label class="field small">
        Gauge · calibrated to {gauge.due}
        <select value={gauge.id} onChange={(event) => onGauge(event.currentTarget.value)}>
          {fitting.map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
      {ranOut && (
        <Notice kind="care">
          The calibration of this gauge has run out. Take another; a reading with it is flagged.
        </Notice>
      )}
      {coarse && <Notice kind="care">This gauge is coarse for this limit: its {coarse}.</Notice>}
    </>
  );
}

function VerdictLine({ verdict, own, uom }: { verdict: Verdict; own: string; uom: string }) {
  const margin = verdict.margin && marginRead(verdict.margin, own, uom);
  const past = margin?.isNegative() ? ` by ${shownValue(margin.abs(), uom)} ${uom}` : "";
  const kinds: Record<string, "in" | "out" | "close"> = {
    "in tolerance": "in",
    recorded: "in",
    "out of tolerance": "out",
  };
  const kind = kinds[verdict.word] ?? "close";
  const word = verdict.word.charAt(0).toUpperCase() + verdict.word.slice(1);
  return (
    <div class={`verdict ${kind}`} role="status">
      <Mark shape={kind} />
      <span>
        {word}
        {past}
        {verdict.reason && `: ${verdict.reason}`}
      </span>
    </div>
  );
}

function Stations({
  at,
  item,
  station,
  onStation,
}: {
  at: At;
  item: Item;
  station: string;
  onStation: (name: string) => void;
}) {
  const state = at.job.progress.step(at.piece, at.step.code).items.get(item.code);
  if (!item.stations) return null;
  const recorded = [...(state?.inForce.keys() ?? [])];
  const names = [...new Set([...(item.stations.names ?? []), ...recorded])];
  const shown = (name: string) => {
    const last = at.job.progress.records.get(state?.inForce.get(name)?.at(-1) ?? "");
    return { entered: (last?.body as { entered?: string } | undefined)?.entered, good: last?.good };
  };
  return (
    <>
      {item.stations.seen_from && <p class="small soft">clock seen from the {item.stations.seen_from}</p>}
      <div class="stations">
        {names.map((name) => {
          const { entered, good } = shown(name);
          const kind = entered === undefined ? "" : good ? "good" : "bad";
          return (
            <button
              key={name}
              type="button"
              class={`station ${kind}`}
              aria-pressed={name === station}
              onClick={() => onStation(name)}
            >
              {name}
              {entered && <br />}
              {entered}
            </button>
          );
        })}
      </div>
      {item.stations.least != null && (
        <label class="field row-like">
          Which {item.stations.word} ({recorded.length} of {item.stations.least})
          <input value={station} onInput={(event) => onStation(event.currentTarget.value)} />
        </label>
      )}
    </>
  );
}
