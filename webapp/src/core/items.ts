/** What each item of a step still lacks, from the records in force at one piece. */

import { FormulaError, holds, MissingValueError, type Names, workOut } from "./formula";
import { directInputs, type ItemKey, inputsOf, isAt, textOfKey } from "./inputs";
import { added, type Item, type Job, present, type Step } from "./job";
import { gaugeOf, isA, type Judged } from "./judging";
import { Decimal, ZERO } from "./numbers";
import type { Standing } from "./standing";
import { inOrder } from "./text";
import * as verdict from "./verdict";
import { bare, Gauge, type Verdict, type Word } from "./verdict";

export const MET = "met";
export const OPEN = "open";
export const STARTED = "started";
export const FLAGGED = "flagged";
export const NOT_ASKED = "not asked";

export type ItemWord = typeof MET | typeof OPEN | typeof STARTED | typeof FLAGGED | typeof NOT_ASKED;

export const BAD: readonly string[] = [verdict.OUT, verdict.CLOSE, verdict.UNJUDGED];

const RECORDED_AS = {
  visual: "visual",
  measure: "reading",
  photo: "photo",
  weld: "weld",
  report: "report",
  text: "text",
} as const;

/** Types of record that meet an item; others may name one and only speak about it. */
export const ON_ITEMS: readonly string[] = Object.values(RECORDED_AS);

export type DerivedWord = Word | typeof OPEN;

/** A value worked out, if it could be, and its verdict; 'open' where a reading or figure is still missing. */
export interface Derived {
  readonly value: Decimal | null;
  readonly verdict: Verdict<DerivedWord>;
}

/** state; ids in force by station; stations still asked; whether a photo is; derived values by station. */
export interface ItemState {
  readonly state: ItemWord;
  readonly inForce: ReadonlyMap<string, readonly string[]>;
  readonly missing: readonly string[];
  readonly photoMissing: boolean;
  readonly derived: ReadonlyMap<string, Derived>;
}

function itemState(state: ItemWord, rest: Partial<Omit<ItemState, "state">> = {}): ItemState {
  return { state, inForce: new Map(), missing: [], photoMissing: false, derived: new Map(), ...rest };
}

/** The records of one piece laid out by item, under one standing. */
export class Bench {
  private readonly inForce = new Map<string, Judged[]>();

  constructor(
    readonly piece: string,
    records: Iterable<Judged>,
    private readonly standing: Standing,
    private readonly job: Job,
  ) {
    for (const record of records) {
      const { step, item } = record.place;
      if (item && standing.inForce(record)) added(this.inForce, keyOf(step, item, record.type), record);
    }
  }

  private recordsOf(step: string, item: string, type: string): readonly Judged[] {
    return this.inForce.get(keyOf(step, item, type)) ?? [];
  }

  /** The state of an item of a step. */
  item(step: Step, item: Item): ItemState {
    if (!this.asked(item)) return itemState(NOT_ASKED);
    if (item.kind === "derived") return this.derived(step, item);
    const records = this.recordsOf(step.code, item.code, RECORDED_AS[item.kind]);
    const inForce = new Map<string, string[]>();
    for (const record of [...records].sort(byId)) added(inForce, record.place.station, record.id);
    const missing = missingStations(item, inForce);
    const bad = records.filter((record) => !this.standing.accepted(record));
    const photoMissing = this.photoMissing(step, item, records);
    if (bad.some((record) => record.adverse || this.standing.strictest(record.id))) {
      return itemState(FLAGGED, { inForce, missing, photoMissing });
    }
    if (missing.length > 0 || bad.length > 0 || photoMissing) {
      return itemState(records.length > 0 ? STARTED : OPEN, { inForce, missing, photoMissing });
    }
    return itemState(MET, { inForce });
  }

  /** By the item's 'only if'; a figure that is missing leaves it asked. */
  private asked(item: Item): boolean {
    if (!item.only_if) return true;
    try {
      return holds(item.only_if.tree, this.job.names(this.piece, this.job.basis));
    } catch (error) {
      if (error instanceof FormulaError) return true;
      throw error;
    }
  }

  private photoMissing(step: Step, item: Item, records: readonly Judged[]): boolean {
    const asked = item.photo === "always" || (item.photo === "out" && records.some((record) => record.adverse));
    return asked && this.recordsOf(step.code, item.code, "photo").length === 0;
  }

  private derived(step: Step, item: Item): ItemState {
    const stations = this.derivedStations(step, item);
    const derived = new Map(stations.map((station) => [station, this.derivedAt(step, item, station)]));
    const words = [...derived.values()].map((found) => found.verdict.word).filter((word) => word !== OPEN);
    const missing = [...derived].filter(([, found]) => found.verdict.word === OPEN).map(([station]) => station);
    if (![...derived].every(([station, found]) => this.accepted(step, item, station, found.verdict.word))) {
      return itemState(FLAGGED, { missing, derived });
    }
    if (missing.length > 0 || derived.size === 0) {
      return itemState(words.length > 0 ? STARTED : OPEN, { missing, derived });
    }
    return itemState(MET, { derived });
  }

  /** Whether a value worked out is good (or not there yet), or covered by a 'use as is' that has effect. */
  private accepted(step: Step, item: Item, station: string, word: DerivedWord): boolean {
    if (word === OPEN || !BAD.includes(word)) return true;
    const place = { piece: this.piece, step: step.code, item: item.code, station };
    const decided = this.standing.strictestOfDerived(place, this.newestInput(step, item, station), word);
    return decided?.body.disposition === "use as is";
  }

  /** The id of the newest reading in force that a derived item was worked out from; '' where there is none. */
  newestInput(step: Step, item: Item, station: string): string {
    const used = inputsOf(step, item, this.job).flatMap((input) => this.recordsOf(input.step, input.item, "reading"));
    const ids = used.filter((record) => isAt(record.place.station, station)).map((record) => record.id);
    return ids.sort(inOrder).at(-1) ?? "";
  }

  private derivedStations(step: Step, item: Item): readonly string[] {
    const { names, least } = item.stations ?? {};
    if (names?.length) return names;
    if (least === undefined || least === null) return [""];
    const used = inputsOf(step, item, this.job).flatMap((input) => this.recordsOf(input.step, input.item, "reading"));
    return [...new Set(used.map((record) => record.place.station))].sort(inOrder);
  }

  private derivedAt(step: Step, item: Item, station: string): Derived {
    const { basis } = this.job;
    let value: Decimal;
    try {
      value = this.workOut(item, (stepCode, itemCode) =>
        this.readings({ step: stepCode || step.code, item: itemCode }, station),
      );
    } catch (error) {
      if (error instanceof MissingValueError) return { value: null, verdict: bare(OPEN) };
      if (error instanceof FormulaError) return { value: null, verdict: bare(verdict.UNJUDGED, error.message) };
      throw error;
    }
    const limits = this.job.limits(this.piece, step.code, item.code, basis.plan, basis.figures);
    const rule = item.rule || "simple";
    const roundTo = item.place ? new Decimal(item.place) : null;
    const gauge = rule === "guarded" ? new Gauge(this.uncertaintyAt(step, item, station)) : null;
    return { value, verdict: verdict.judge(value, limits, gauge, rule, roundTo) };
  }

  private workOut(item: Item, readings: Names["readings"]): Decimal {
    const formula = present(item.formula, `item ${item.code} has no formula`);
    return workOut(formula.tree, this.job.names(this.piece, this.job.basis, readings));
  }

  /**
   * U of a value worked out: the root of the sum of squares of half of what the value changes by when each reading in
   * turn is moved by its own U up and down, as of readings that have nothing to do with one another. Readings of one
   * station agree, and move together by the largest U among them.
   *
   * null where the U of a reading is not known, or the value cannot be worked out nearby.
   * Source: JCGM 100:2008 (GUM) 5.1.3, note 2, from memory.
   */
  private uncertaintyAt(step: Step, item: Item, station: string): Decimal | null {
    let squares = ZERO;
    try {
      const keys = [...new Map(directInputs(step.code, item, this.job).map((key) => [textOfKey(key), key])).values()];
      const inputs = new Map(keys.map((key) => [textOfKey(key), this.readings(key, station)]));
      for (const key of keys) {
        for (const [places, uncertainty] of this.uncertainties(key, station)) {
          if (uncertainty === null) return null;
          const half = this.halfChange(step, item, inputs, key, places, uncertainty);
          squares = squares.plus(half.times(half));
        }
      }
    } catch (error) {
      if (error instanceof FormulaError) return null;
      throw error;
    }
    return squares.sqrt();
  }

  /** Half of what a value worked out changes by when some readings are moved together up and down. */
  private halfChange(
    step: Step,
    item: Item,
    inputs: ReadonlyMap<string, readonly Decimal[]>,
    key: ItemKey,
    places: readonly number[],
    by: Decimal,
  ): Decimal {
    const own = inputs.get(textOfKey(key)) ?? [];
    const moved = (distance: Decimal): Decimal => {
      const replaced = own.map((one, at) => (places.includes(at) ? one.plus(distance) : one));
      const changed = new Map([...inputs, [textOfKey(key), replaced]]);
      return this.workOut(
        item,
        (stepCode, itemCode) => changed.get(textOfKey({ step: stepCode || step.code, item: itemCode })) ?? [],
      );
    };
    return moved(by).minus(moved(by.neg())).div(2);
  }

  /**
   * The values of an item at a station and at those that begin with it and a blank.
   *
   * Throws FormulaError where readings at one and the same station disagree.
   */
  private readings(key: ItemKey, station: string): Decimal[] {
    const [step, item] = [this.job.steps.get(key.step), this.job.item(key.step, key.item)];
    if (step && item?.kind === "derived") {
      const { value } = this.derivedAt(step, item, station);
      return value === null ? [] : [value];
    }
    const first = new Map<string, Decimal>();
    const here = this.readAt(key, station);
    for (const [record, value] of here) {
      const before = first.get(record.place.station) ?? value;
      if (!before.eq(value)) throw new FormulaError(`readings of ${key.item} disagree`);
      first.set(record.place.station, before);
    }
    return here.map(([, value]) => value);
  }

  /** Of each station the places of its readings among all of them, and U in the item's uom; null where not known. */
  private uncertainties(key: ItemKey, station: string): [number[], Decimal | null][] {
    const [step, item] = [this.job.steps.get(key.step), this.job.item(key.step, key.item)];
    if (step && item?.kind === "derived") {
      return this.readings(key, station).length > 0 ? [[[0], this.uncertaintyAt(step, item, station)]] : [];
    }
    const found = new Map<string, [number[], Decimal | null]>();
    for (const [place, [record]] of this.readAt(key, station).entries()) {
      const known = gaugeOf(record.body, this.job, item)?.quotient()?.value() ?? null;
      const before = found.get(record.place.station);
      if (before === undefined) found.set(record.place.station, [[place], known]);
      else found.set(record.place.station, [[...before[0], place], larger(before[1], known)]);
    }
    return [...found.values()];
  }

  /** The readings in force that have a value, at a station and at those that begin with it and a blank. */
  private readAt(key: ItemKey, station: string): [Judged<"reading">, Decimal][] {
    const records = [...this.recordsOf(key.step, key.item, "reading")].sort(byId);
    return records.flatMap((record): [Judged<"reading">, Decimal][] => {
      const here = isA(record, "reading") && record.value !== null && isAt(record.place.station, station);
      return here ? [[record, record.value]] : [];
    });
  }
}

function larger(one: Decimal | null, other: Decimal | null): Decimal | null {
  return one === null || other === null ? null : Decimal.max(one, other);
}

/** The order of records by their ids, for `sort`. */
export function byId(one: Judged, other: Judged): number {
  return inOrder(one.id, other.id);
}

function keyOf(step: string, item: string, type: string): string {
  return [step, item, type].join("\0");
}

/** The stations asked for that have no record; for an open list, how many more are asked. */
function missingStations(item: Item, byStation: ReadonlyMap<string, unknown>): string[] {
  const { names, least } = item.stations ?? {};
  if (names?.length) return names.filter((name) => !byStation.has(name));
  if (least === undefined || least === null) return byStation.size > 0 ? [] : [""];
  return byStation.size < least ? [`${least - byStation.size} more`] : [];
}
