/** Values worked out that a reading goes into, and what they become with it before it is saved. */
import { inputsOf } from "../core/inputs";
import { Bench, type Derived } from "../core/items";
import type { Item, Job, Step } from "../core/job";
import { judged } from "../core/judging";
import type { Bodies, Payload } from "../core/records";
import { Standing } from "../core/standing";
import type { OpenJob } from "../store/jobs";

interface Reading {
  readonly body: Bodies["reading"];
  readonly station: string;
  readonly by: string;
  /** What is replaced by it, and what it relies on, as it will be saved. */
  readonly replaces: string;
  readonly under: readonly string[];
}

export interface Fed {
  readonly step: Step;
  readonly item: Item;
  readonly station: string;
  readonly found: Derived;
}

/** The derived items of a piece that an item goes into. */
export function fedItems(job: Job, piece: string, step: Step, item: Item): { step: Step; item: Item }[] {
  return job.stepsOf(piece).flatMap((one) =>
    one.items
      .filter((derived) => derived.kind === "derived")
      .filter((derived) => inputsOf(one, derived, job).some((key) => key.step === step.code && key.item === item.code))
      .map((derived) => ({ step: one, item: derived })),
  );
}

/** The id of the reading that is not saved: after those of all records. */
const TRIAL = "~";

/** What each of the derived items becomes, at the stations that the reading's station belongs to. */
export function withReading(
  { progress, id }: OpenJob,
  piece: string,
  at: { step: string; item: string },
  reading: Reading,
  fed: readonly { step: Step; item: Item }[],
): Fed[] {
  const { job } = progress;
  const { body, station, by, replaces, under } = reading;
  const again = replaces ? { replaces } : {};
  const place = { job: id, piece, ...at, station, by, basis: job.basis, under, ...again };
  const trial = judged({ id: TRIAL, type: "reading", body, at: "", ...place } as unknown as Payload, "", job);
  const records = [...progress.piece(piece).records, trial];
  const bench = new Bench(piece, records, new Standing(records, job), job);
  return fed.flatMap(({ step, item }) =>
    [...bench.item(step, item).derived]
      .filter(([name]) => name === "" || name === station || station.startsWith(`${name} `))
      .map(([name, found]) => ({ step, item, station: name, found })),
  );
}
