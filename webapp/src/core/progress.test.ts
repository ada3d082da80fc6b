import { describe, expect, test } from "vitest";
import { type Flag, flagsOf } from "./flags";
import type { ItemState } from "./items";
import { Job, type JobData } from "./job";
import type { Role } from "./judging";
import { textOf } from "./numbers";
import { type Blocked, Progress } from "./progress";
import type { Payload } from "./records";
import { vectors } from "./vectors";
import type { Verdict } from "./verdict";

type Entry = readonly [Payload, Role];
type Block = [piece: string, step: string, parties: string[]];

interface StepExpected {
  state?: string;
  waiting?: string[];
  holding?: string[];
  blocked?: Block[];
}

interface ItemExpected {
  state?: string;
  missing?: string[];
  photo_missing?: boolean;
  in_force?: Record<string, string[]>;
  derived?: Record<string, (string | null)[]>;
}

interface Expected {
  steps?: Record<string, StepExpected>;
  items?: Record<string, string | ItemExpected>;
  signoffs?: Record<string, string | null>;
  standing?: Record<string, string>;
  verdicts?: Record<string, string | (string | null)[]>;
  flags?: Record<string, string[][]>;
  flags_include?: Record<string, string[][]>;
  flags_exclude?: Record<string, string[][]>;
  flags_say?: Record<string, (string | null)[][]>;
  past_hold?: Record<string, Block[] | null>;
  relied_on?: Record<string, string[]>;
  covered?: Record<string, string[]>;
  repairs?: Record<string, number>;
  next_repair?: Record<string, number>;
  passed_on?: Record<string, string[]>;
  tagging?: Record<string, string | null>;
  stopped?: string[];
}

interface Case {
  name: string;
  rule: string;
  job: string;
  records: Entry[];
  expect: Expected;
}

const { jobs, cases } = vectors<{ jobs: Record<string, JobData>; cases: Case[] }>("progress");

/** Small numbers that look random and are the same in every run. Source: mulberry32, public domain. */
function dice(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The entries in another order, about every third of them twice. */
function shuffled(entries: readonly Entry[], seed: number): Entry[] {
  const roll = dice(seed);
  const all = [...entries, ...entries.filter(() => roll() < 1 / 3)];
  return all
    .map((entry) => [roll(), entry] as const)
    .sort(([a], [b]) => a - b)
    .map(([, entry]) => entry);
}

function orders(entries: readonly Entry[]): [string, Entry[]][] {
  const seeds = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
  const others = seeds.map((seed): [string, Entry[]] => [`shuffled by ${seed}`, shuffled(entries, seed)]);
  return [["as given", [...entries]], ["reversed", [...entries].reverse()], ...others];
}

function entriesOf<T>(part: Record<string, T> | undefined): [string, T][] {
  return Object.entries(part ?? {});
}

function mapped<T, R>(part: Record<string, T> | undefined, answer: (key: string, wanted: T) => R): Record<string, R> {
  return Object.fromEntries(entriesOf(part).map(([key, wanted]) => [key, answer(key, wanted)]));
}

function blocks(found: readonly Blocked[]): Block[] {
  return found.map(({ piece, step, parties }) => [piece, step, [...parties]]);
}

/** Of a whole only what is asked for, so that one comparison shows every difference. */
function asFarAsAsked<T extends object>(found: T, wanted: object): Partial<T> {
  return Object.fromEntries(Object.entries(found).filter(([key]) => key in wanted)) as Partial<T>;
}

function cut(place: string): [piece: string, step: string, item: string] {
  const [piece, rest] = [place.slice(0, place.lastIndexOf(" ")), place.slice(place.lastIndexOf(" ") + 1)];
  const [step, item] = rest.split(".");
  return [piece, step ?? "", item ?? ""];
}

/** The word of a verdict, its margin and its reason. */
function words({ word, margin, reason }: Verdict<string>): [string, string | null, string] {
  return [word, margin && textOf(margin), reason];
}

function itemAnswer(found: ItemState, asked: ItemExpected): Required<ItemExpected> {
  const derived = [...found.derived].map(([station, { value, verdict }]) => [
    station,
    [value && textOf(value), ...words(verdict)].slice(0, asked.derived?.[station]?.length ?? 2),
  ]);
  return {
    state: found.state,
    missing: [...found.missing],
    photo_missing: found.photoMissing,
    in_force: mapped(Object.fromEntries(found.inForce), (_, ids) => [...(ids as readonly string[])]),
    derived: Object.fromEntries(derived),
  };
}

function stepAnswer(progress: Progress, place: string): Required<StepExpected> {
  const [piece, step] = cut(place);
  const { state, waiting, holding } = progress.step(piece, step);
  const blocked = blocks(progress.blocked(piece, step));
  return { state, waiting: [...waiting], holding: [...holding], blocked };
}

function itemAt(progress: Progress, place: string, asked: string | ItemExpected): string | Partial<ItemExpected> {
  const [piece, step, item] = cut(place);
  const found = progress.step(piece, step).items.get(item);
  if (!found) throw new Error(`there is no item ${place}`);
  return typeof asked === "string" ? found.state : asFarAsAsked(itemAnswer(found, asked), asked);
}

function recordOf(progress: Progress, id: string) {
  const record = progress.records.get(id);
  if (!record) throw new Error(`there is no record ${id}`);
  return record;
}

function reasonOf(progress: Progress, id: string): string | null {
  const { place } = recordOf(progress, id);
  return progress.piece(place.piece).signings.get(place.step)?.reasons.get(id) ?? null;
}

function flagRows(progress: Progress, piece: string, width: (row: number) => number): string[][] {
  return flagsOf(progress, piece).map(({ kind, record, state, disposition }, row) =>
    [kind, record, state, disposition].slice(0, width(row)),
  );
}

function past(flag: Flag): string | null {
  return flag.past && textOf(flag.past);
}

/** What the progress answers to all that a case asks, in the form of the case. */
function answers(progress: Progress, asked: Expected): Expected {
  const found: Required<Omit<Expected, "flags_include" | "flags_exclude" | "flags_say">> = {
    steps: mapped(asked.steps, (place, wanted) => asFarAsAsked(stepAnswer(progress, place), wanted)),
    items: mapped(asked.items, (place, wanted) => itemAt(progress, place, wanted)),
    signoffs: mapped(asked.signoffs, (id) => reasonOf(progress, id)),
    standing: mapped(asked.standing, (id) => {
      const record = recordOf(progress, id);
      return progress.piece(record.place.piece).standing.of(record);
    }),
    verdicts: mapped(asked.verdicts, (id, wanted) => {
      const found = words(recordOf(progress, id).verdict);
      return typeof wanted === "string" ? found[0] : found;
    }),
    flags: mapped(asked.flags, (piece, wanted) => flagRows(progress, piece, (row) => wanted[row]?.length ?? 4)),
    past_hold: mapped(asked.past_hold, (id) => {
      const missed = progress.pastHold(recordOf(progress, id));
      return missed && blocks(missed);
    }),
    relied_on: mapped(asked.relied_on, (place) => progress.reliedOn(cut(place)[0], cut(place)[1]).sort()),
    covered: mapped(asked.covered, (place) => progress.covered(cut(place)[0], cut(place)[1]).sort()),
    repairs: mapped(asked.repairs, (piece) => progress.piece(piece).repairs),
    next_repair: mapped(asked.next_repair, (id) => progress.piece(recordOf(progress, id).place.piece).nextRepair(id)),
    passed_on: mapped(asked.passed_on, (piece) => progress.piece(piece).passedOn.map((note) => note.id)),
    tagging: mapped(asked.tagging, (piece) => progress.piece(piece).tagging?.id ?? null),
    stopped: [...progress.stopped].sort(),
  };
  return asFarAsAsked(found, asked);
}

function wantedOf({ flags_include: _, flags_exclude: __, flags_say: ___, ...asked }: Expected): Expected {
  const sorted = (part: Record<string, string[]> | undefined) => mapped(part, (_place, ids) => [...ids].sort());
  return {
    ...asked,
    ...(asked.relied_on ? { relied_on: sorted(asked.relied_on) } : {}),
    ...(asked.covered ? { covered: sorted(asked.covered) } : {}),
  };
}

describe.each(cases)("$name: $rule", ({ job, records, expect: asked }) => {
  const data = jobs[job];
  if (!data) throw new Error(`there is no job ${job}`);
  const known = new Job(data);

  test.each(orders(records))("records %s", (_, entries) => {
    const progress = new Progress(known, entries);
    expect(answers(progress, asked)).toEqual(wantedOf(asked));
    for (const [piece, rows] of entriesOf(asked.flags_include)) {
      expect(flagRows(progress, piece, () => 3)).toEqual(expect.arrayContaining(rows));
    }
    for (const [piece, rows] of entriesOf(asked.flags_say)) {
      const said = flagsOf(progress, piece).map((flag) => [flag.kind, flag.record, flag.reason, past(flag)]);
      expect(said).toEqual(expect.arrayContaining(rows));
    }
    for (const [piece, rows] of entriesOf(asked.flags_exclude)) {
      const there = flagRows(progress, piece, () => 2).map(String);
      expect(there.filter((row) => rows.map(String).includes(row))).toEqual([]);
    }
  });
});
