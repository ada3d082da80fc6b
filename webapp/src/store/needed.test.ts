import { expect, test } from "vitest";
import { Job, type JobData, type Piece } from "../core/job";
import type { Role } from "../core/judging";
import { Progress } from "../core/progress";
import type { Payload } from "../core/records";
import { vectors } from "../core/vectors";
import type { StoredRecord } from "./db";
import { neededBy } from "./needed";

type Entry = readonly [Payload, Role];

interface Case {
  name: string;
  job: string;
  records: Entry[];
}

const { jobs, cases } = vectors<{ jobs: Record<string, JobData>; cases: Case[] }>("progress");

function dataOf(name: string): JobData {
  const data = jobs[name];
  if (!data) throw new Error(`no job ${name} in the vectors`);
  return data;
}

/** All that the screen of a piece shows of it, and what a record made there would rely on. */
function shown(progress: Progress, piece: string): unknown {
  const own = progress.piece(piece);
  const steps = [...own.steps].map(([code, state]) => ({
    code,
    ...state,
    reasons: [...own.signing(code).reasons],
    records: own.signing(code).here.map(({ id, verdict, current }) => [id, verdict.word, verdict.reason, current]),
    points: own.signing(code).points,
    blocked: progress.blocked(piece, code),
    reliedOn: progress.reliedOn(piece, code),
    stopped: progress.stopped.has(piece),
    covered: progress.covered(piece, code),
  }));
  const { repairs, scrapped, passedOn, tagging } = own;
  const standing = own.records.map((record) => own.standing.of(record));
  return { steps, repairs, scrapped, standing, passedOn: passedOn.map(({ id }) => id), tagging: tagging?.id };
}

function partOf(data: JobData, piece: string, entries: readonly Entry[]): { progress: Progress; left: number } {
  const counted = entries.map(([payload, role]) => ({ id: payload.id, payload, role }) as StoredRecord);
  const needed = neededBy(new Job(data), piece, counted);
  const pieces = data.pieces.filter(({ id }) => needed.pieces.has(id));
  const some = needed.records.map(({ payload, role }) => [payload, role] as const);
  const left = counted.length - some.length + data.pieces.length - pieces.length;
  return { progress: new Progress(new Job({ ...data, pieces }), some), left };
}

test.each(cases)("a part of the job says of a piece what the whole says: $name", ({ job, records }) => {
  const data = dataOf(job);
  const whole = new Progress(new Job(data), records);
  for (const piece of data.pieces) {
    expect(shown(partOf(data, piece.id, records).progress, piece.id)).toEqual(shown(whole, piece.id));
  }
});

/** Numbers below the one asked for that look random and are the same in every run. Source: mulberry32, public domain. */
function dice(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) % below;
  };
}

type Roll = (below: number) => number;

const KINDS = ["shell", "plate", "clip", "seam"];
const BASIS = { plan: "p", figures: 1 };

function oneOf<T>(roll: Roll, all: readonly T[]): T {
  return all[roll(all.length)] as T;
}

/** A job of shells, their plates and what is on these, and seams; with rules of every kind between the steps. */
function madeJob(roll: Roll): JobData {
  const id = (place: number) => `P-${place}`;
  const pieces = Array.from({ length: 9 }, (_, place): Piece => {
    const kind = oneOf(roll, KINDS);
    const others = [roll(9), roll(9)].filter((one) => one < place).map(id);
    const above = kind === "seam" ? { joins: others } : { part_of: others.slice(0, 1) };
    return { id: id(place), mark: id(place), kind, ...above, ...(roll(6) === 0 ? { remade: id(roll(9)) } : {}) };
  });
  const of = () => oneOf(roll, ["piece", "joins", "parts", "kinds", "kinds", "parts"] as const);
  const steps = ["1.1", "1.2", "2.1", "2.2"].map((number) => ({
    code: `s${number}`,
    number,
    stage: number.slice(0, 1),
    kinds: KINDS.filter(() => roll(3) > 0),
    points: [{ party: "maker", point: "sign" } as const, { party: "QC", point: oneOf(roll, ["H", "W", "R"] as const) }],
    items: [{ code: "look", kind: "visual" } as const],
    ...(roll(6) === 0 ? { reach: "job" } : {}),
    not_before: roll(2) ? [{ steps: "earlier" as const, of: of(), kinds: [oneOf(roll, KINDS)] }] : [],
  }));
  const plan = { stages: [{ number: "1" }, { number: "2" }], steps };
  return { id: "J", bases: [BASIS], plans: { p: plan }, figure_sets: { 1: { values: {} } }, pieces };
}

/** Records of every kind that can matter, by few people, on anything and naming anything that was made before. */
function madeRecords(roll: Roll, { pieces }: JobData): Entry[] {
  const made: Payload[] = [];
  const earlier = (piece = "") => made.filter((one) => !piece || one.piece === piece).map(({ id }) => id);
  for (let place = 0; place < 40; place += 1) {
    const { id: piece } = oneOf(roll, pieces);
    const [step, own] = [oneOf(roll, ["s1.1", "s1.2", "s2.1", "s2.2"]), earlier(piece)];
    const [record, party] = [oneOf(roll, own) ?? "", oneOf(roll, ["maker", "QC"])];
    const [type, body, at] = oneOf(roll, [
      ["visual", { result: oneOf(roll, ["accept", "accept", "reject"]) }, { step, item: "look" }],
      ["visual", { result: "accept" }, { step, item: "look" }],
      ["sign-off", { party, covers: own }, { step }],
      ["sign-off", { party, covers: own.filter(() => roll(4) > 0) }, { step }],
      ["call", { party }, { step }],
      ["point", { party: "customer", point: "H", reach: oneOf(roll, ["job", "piece"]) }, { step }],
      ["void", { record, reason: "" }, {}],
      ["disposition", { disposition: oneOf(roll, ["scrap", "rework"]), reason: "", about: { records: [record] } }, {}],
    ] as const);
    const common = {
      id: `r${String(place).padStart(3, "0")}`,
      job: "J",
      basis: BASIS,
      at: "2026-11-20T09:00:00-06:00",
    };
    const under = earlier().filter(() => roll(3) === 0);
    made.push({ ...common, by: oneOf(roll, ["ann", "bob"]), piece, under, ...at, type, body } as unknown as Payload);
  }
  return made.map((payload) => [payload, oneOf(roll, ["held", "held", "held", "not held"] as const)] as const);
}

test("a seam waits for a part of a part of what it joins, though nothing is asked of the part between", () => {
  const piece = (id: string, kind: string, more: Partial<Piece> = {}): Piece => ({ id, mark: id, kind, ...more });
  const step = (code: string, stage: string, kind: string) => ({ code, number: code, stage, kinds: [kind], items: [] });
  const first = { ...step("fit", "1", "clip"), points: [{ party: "QC", point: "H" } as const] };
  const rule = { steps: ["fit"], of: "joins" as const };
  const second = { ...step("weld", "2", "seam"), points: [], not_before: [rule] };
  const pieces = [
    piece("shell", "shell"),
    piece("plate", "plate", { part_of: ["shell"] }),
    piece("clip", "clip", { part_of: ["plate"] }),
    piece("seam", "seam", { joins: ["shell"] }),
    ...["a", "b", "c"].map((id) => piece(id, "plate")),
  ];
  const plan = { stages: [{ number: "1" }, { number: "2" }], steps: [first, second] };
  const data: JobData = { id: "J", bases: [BASIS], plans: { p: plan }, figure_sets: { 1: { values: {} } }, pieces };
  const { progress } = partOf(data, "seam", []);
  expect(progress.blocked("seam", "weld")).toMatchObject([{ piece: "clip", step: "fit" }]);
  expect(progress.job.pieces.has("a")).toBe(false);
});

test("of 300 made-up jobs a part leaves pieces and records out, and says the same", () => {
  let [left, stopped, seen] = [0, 0, 0];
  for (let seed = 1; seed <= 300; seed += 1) {
    const roll = dice(seed);
    const data = madeJob(roll);
    const records = madeRecords(roll, data);
    const whole = new Progress(new Job(data), records);
    for (const { id } of data.pieces) {
      const part = partOf(data, id, records);
      left += part.left;
      stopped += whole.stopped.has(id) ? 1 : 0;
      seen += 1;
      expect(shown(part.progress, id), `seed ${seed}, piece ${id}`).toEqual(shown(whole, id));
    }
  }
  expect(left).toBeGreaterThan(10_000);
  expect(stopped).toBeGreaterThan(seen / 20);
});
