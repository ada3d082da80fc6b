/** A measurement: the reading large, where it falls, the verdict, and a keypad. */
import { useEffect, useMemo, useState } from "preact/hooks";
import type { Item } from "../core/job";
import { gaugeOf, wordOfReading } from "../core/judging";
import { type Decimal, NumberError, parse } from "../core/numbers";
import type { Why } from "../core/records";
import { CLOSE, IN, OUT, RECORDED, tooCoarse, type Verdict } from "../core/verdict";
import { t, word } from "../language";
import { faceOf } from "../parts/clock";
import { comma } from "../parts/customs";
import { type Fed, fedItems, withReading } from "../parts/fed";
import { FedLines } from "../parts/fed-lines";
import { tell } from "../parts/feedback";
import { Notice } from "../parts/frame";
import { GaugeDoubts, GaugeLine, GaugeNow, useGauge } from "../parts/gauge-line";
import { Keypad } from "../parts/keypad";
import { LimitBar } from "../parts/limit-bar";
import { limitsRead, uomsFor } from "../parts/notation";
import { type Found, Onward } from "../parts/onward";
import { asWell, ReadingRow, VerdictLine } from "../parts/reading";
import { doubtText, reasonText } from "../parts/reasons";
import { OpenPlace, recordedAt, StationLine, StationPicker } from "../parts/stations";
import { WhyAgain, WhyChosen } from "../parts/why-again";
import { me } from "../state";
import { type EntryProps, mine, nextStation, record } from "./item";
import type { At } from "./step";

interface Read {
  value: Decimal | null;
  fault: string;
  doubt: string;
}

/** So many places stand in a strip above the reading; more of them, or a clock's face, take its room while one picks. */
const MOST_BESIDE = 5;

/** What is typed so far as a value; a half-typed one is no fault yet. */
export function reading(typed: string): Read {
  if (!typed.trim()) return { value: null, fault: "", doubt: "" };
  try {
    const { value, doubt } = parse(typed, comma() && typed.includes(","));
    return { value, fault: "", doubt };
  } catch (error) {
    if (!(error instanceof NumberError)) throw error;
    return { value: null, fault: reasonText(error.message), doubt: "" };
  }
}

interface Typing {
  typed: string;
  station: string;
  why: Why | "";
  /** Whether the places are shown to pick one; which keys go to the place. */
  picking: boolean;
  place: "keys" | "letters" | "";
  /** What was just saved, in words, and what it made of values worked out. */
  saved: string;
  fed: readonly Fed[];
  /** What was just found to be out. */
  found: Found | null;
}

export function MeasureEntry({ at, item, onDone }: EntryProps) {
  const open = item.stations?.least != null;
  const begin: Pick<Typing, "typed" | "why" | "picking" | "place" | "found"> = {
    typed: "",
    why: "",
    picking: true,
    place: open ? "keys" : "",
    found: null,
  };
  const first = { ...begin, station: open ? "" : nextStation(at, item), saved: "", fed: [] };
  const [now, setNow] = useState<Typing>(first);
  const change = (some: Partial<Typing>) => setNow((before) => ({ ...before, ...some }));
  const station = now.station.trim();
  const entry = useEntry(at, item, now);
  const before = mine(at, item, station);
  const placed = station !== "" || !item.stations;
  const ready = entry.value !== null && placed && (!before || now.why !== "");
  const keep = async () => {
    if (entry.value === null) return;
    const said = entry.verdict?.word ?? RECORDED;
    const again = before && now.why ? { replaces: before, why: now.why } : {};
    await record(at, item, "reading", { ...entry.body, verdict: entry.verdict?.word ?? "" }, { station, ...again });
    const values = { station, entered: entry.body.entered, uom: entry.uom, verdict: word("verdict", said) };
    const saved = t(station ? "measure-saved-at" : "measure-saved", values);
    const next = nextStation(at, item);
    if (said === OUT || said === CLOSE) {
      change({ ...begin, saved, fed: entry.fed, found: { station, verdict: said } });
      return;
    }
    change({ ...begin, saved, fed: entry.fed, station: open ? "" : next });
    if (!open && !next) onDone();
  };
  const leave = () => {
    const next = nextStation(at, item);
    change({ ...begin, station: open ? "" : next });
    if (!open && !next) onDone();
  };
  if (now.found) {
    const retry = (why: Why) => change({ ...begin, picking: false, place: "", why, saved: "" });
    return <Onward at={at} item={item} found={now.found} saved={now.saved} onAgain={retry} onLeave={leave} />;
  }
  return (
    <>
      <div class="measure">
        <Above at={at} item={item} now={now} change={change} entry={entry} />
        {(placed || open) && (
          <Pad
            at={at}
            now={now}
            change={change}
            entry={entry}
            before={before}
            ready={ready}
            onSave={() => void keep()}
          />
        )}
      </div>
      <GaugeLine kind={item.gauge ?? ""} picked={entry.picked} />
      {item.source && <p class="small soft">{t("measure-source", { source: item.source })}</p>}
      {item.where && <p class="small soft">{item.where}</p>}
    </>
  );
}

type Entry = ReturnType<typeof useEntry>;

/** What is typed as a reading: its value, its verdict, and what it makes of values worked out. */
function useEntry(at: At, item: Item, { typed, station, why }: Typing) {
  const picked = useGauge(item);
  const [wanted, setWanted] = useState("");
  const { job } = at.job.progress;
  const { basis } = job;
  const limits = job.limits(at.piece, at.step.code, item.code, basis.plan, basis.figures);
  const own = item.uom ?? "";
  const uoms = uomsFor(own, picked.gauge?.uom);
  const uom = uoms.find((one) => one === wanted) ?? uoms.find((one) => one === picked.gauge?.uom) ?? own;
  const body = {
    entered: typed.trim(),
    uom,
    ...(comma() && typed.includes(",") ? { comma: true } : {}),
    ...(picked.gauge ? { gauge: picked.gauge.id } : {}),
  };
  const { value: figure, fault, doubt } = reading(typed);
  const here = { piece: at.piece, step: at.step.code, item: item.code, station: station.trim() };
  const judged = figure === null ? null : wordOfReading(body, here, job, item, basis);
  const [value, verdict]: [Decimal | null, Verdict | null] = judged ?? [null, null];
  useEffect(() => speakUp(verdict?.word), [verdict?.word, typed]);
  const other = uoms[(uoms.indexOf(uom) + 1) % uoms.length] ?? uom;
  const fed = useFed(at, item, value === null ? null : body, station.trim(), why);
  const coarse = tooCoarse(limits, gaugeOf(body, job, item));
  return {
    picked,
    limits,
    own,
    uom,
    other,
    setUom: setWanted,
    body,
    figure,
    fault,
    doubt,
    value,
    verdict,
    fed,
    coarse,
  };
}

/** Good or not good, told by hand and ear before the key is released. */
function speakUp(said: string | undefined): void {
  if (said && said !== RECORDED) tell(said === IN ? "good" : "bad");
}

/** What the values become that this reading goes into; worked out again only where something of it has changed. */
function useFed(at: At, item: Item, body: Entry["body"] | null, station: string, why: string): readonly Fed[] {
  const { progress } = at.job;
  const fed = useMemo(() => fedItems(progress.job, at.piece, at.step, item), [progress, at.piece, at.step, item]);
  const under = useMemo(() => progress.reliedOn(at.piece, at.step.code), [progress.records.size]);
  return useMemo(() => {
    if (body === null || fed.length === 0) return [];
    const replaces = (why && mine(at, item, station)) || "";
    const said = { body, station, by: me.value?.person ?? "", replaces, under };
    return withReading(at.job, at.piece, { step: at.step.code, item: item.code }, said, fed);
  }, [JSON.stringify(body), station, why, under, fed]);
}

interface PartProps {
  at: At;
  item: Item;
  now: Typing;
  change: (some: Partial<Typing>) => void;
  entry: Entry;
}

/** What stands above the keypad: the place, or what is typed with its verdict. */
function Above({ at, item, now, change, entry }: PartProps) {
  const { limits, own, uom, figure, value, verdict } = entry;
  const { stations } = item;
  const recorded = recordedAt(at.job, at.job.progress.step(at.piece, at.step.code).items.get(item.code));
  const named = (stations?.names?.length ?? 0) > 0;
  const beside = named && (stations?.names?.length ?? 0) <= MOST_BESIDE && faceOf(stations) === null;
  const picker = named && (beside || (now.picking && !now.typed));
  const pick = (station: string) => change({ station, why: "" });
  const text = limitsRead(limits, own, uom);
  const binds = item.lower || item.upper ? word("binds", item.binds ?? "shop") : "";
  return (
    <>
      <p class="small soft">{binds ? t("measure-limits", { limits: text, binds }) : text}</p>
      {now.saved && !now.typed && (
        <p class="saved small" role="status">
          {now.saved}
        </p>
      )}
      {named && !now.station && (
        <p>{t("measure-choose-station", { done: recorded.size, asked: stations?.names?.length ?? 0 })}</p>
      )}
      {picker && <StationPicker item={item} recorded={recorded} station={now.station} onStation={pick} />}
      {named && !picker && (
        <StationLine item={item} station={now.station} onChange={() => change({ picking: true, typed: "" })} />
      )}
      {stations?.least != null && (
        <OpenPlace
          item={item}
          recorded={recorded}
          station={now.station}
          typing={now.place}
          onTyping={() => change({ place: "keys" })}
          onStation={pick}
        />
      )}
      {(!picker || beside) && (
        <>
          <ReadingRow
            typed={now.typed}
            uom={uom}
            other={entry.other}
            beside={figure !== null && value !== null ? asWell(figure, value, own, uom, now.typed) : ""}
            onOther={entry.setUom}
          />
          {verdict ? <VerdictLine verdict={verdict} own={own} uom={uom} /> : <GaugeNow gauge={entry.picked.gauge} />}
          <LimitBar limits={limits} value={value} uom={own} />
          {entry.fault && <p class="small">{entry.fault}</p>}
          {entry.doubt && <Notice kind="care">{doubtText(entry.doubt)}</Notice>}
        </>
      )}
      <FedLines fed={now.typed ? entry.fed : now.fed} />
      <GaugeDoubts gauge={entry.picked.gauge} coarse={entry.coarse} />
    </>
  );
}

interface PadProps extends Omit<PartProps, "item"> {
  before: string | undefined;
  ready: boolean;
  onSave: () => void;
}

/** The keys: of the place while one types it, else of the reading; and why it is made again, where it is. */
function Pad({ at, now, change, entry, before, ready, onSave }: PadProps) {
  if (now.place === "keys") {
    return (
      <div class="pad">
        <Keypad
          typed={now.station}
          onType={(station) => change({ station, why: "" })}
          onSave={() => change({ place: "" })}
          canSave={now.station.trim() !== ""}
          inches={false}
          saveWord={t("measure-then-reading")}
          onLetters={() => change({ place: "letters" })}
        />
      </div>
    );
  }
  const asking = Boolean(before && now.typed && !now.why);
  return (
    <div class={before && now.why ? "pad again" : "pad"}>
      {before && asking && <WhyAgain at={at} before={before} why={now.why} onWhy={(why) => change({ why })} />}
      {before && now.why && <WhyChosen at={at} before={before} why={now.why} onOther={() => change({ why: "" })} />}
      <Keypad
        typed={now.typed}
        onType={(typed) => change({ typed, picking: false })}
        onSave={onSave}
        canSave={ready}
        inches={entry.uom === "in"}
        point={comma() ? "," : "."}
        brief={asking}
        saveWord={t(entry.value !== null && asking ? "measure-choose-why" : "measure-save")}
      />
    </div>
  );
}
