/** Jobs this phone carries: their master data, and their progress by all records that are here. */
import { signal } from "@preact/signals";
import { type StoredRecord, setSetting, setting } from "./db";
import { forgetMasters, masterOf } from "./masters";
import type { Gauge, JobLine, OpenJob } from "./opening";
import { drawn, first, quiet } from "./turns";

export type { Gauge, OpenJob } from "./opening";

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly roles: string[];
  readonly stamp: string;
}

/** Counts up whenever something in the store has changed that a screen may show. */
export const changes = signal(0);

/** A job as a whole: it is being put together, or is here. */
interface Opening {
  readonly job: Promise<OpenJob | null>;
  /** The same, once every piece of it is worked out. */
  ready: Promise<OpenJob | null>;
  /** The job once it is here, and whether every piece of it is worked out. */
  here: OpenJob | null;
  workedOut: boolean;
  /** Somebody waits for it now. */
  hurry(): void;
}

const kept = new Map<string, Opening>();
/** Of each job the piece that was asked for last while the whole was not ready. */
const parts = new Map<string, { piece: string; job: Promise<OpenJob | null> }>();
/** All records of a job, read for one piece: the whole is put together of the same. */
const records = new Map<string, Promise<StoredRecord[]>>();

/** Judging, and what puts a job together: fetched with the first that is opened, so that the camera is live before. */
const opener = () => import("./opening");

/** Other tabs of this app: what one has written, the others show. */
let tabs: BroadcastChannel | null = null;

export function joinTabs(): void {
  tabs = new BroadcastChannel("seamtag");
  tabs.onmessage = (event: MessageEvent<string>) => forget(event.data);
}

function forget(job: string): void {
  for (const some of [kept, parts, records]) {
    if (job) some.delete(job);
    else some.clear();
  }
  forgetMasters();
  changes.value += 1;
}

/** Something changed; the progress of these jobs is put together anew, of every job where none is named. */
export function changed(jobs?: Iterable<string>): void {
  const named = jobs ? new Set(jobs) : new Set([""]);
  for (const job of named) {
    forget(job);
    tabs?.postMessage(job);
  }
  if (named.size === 0) changes.value += 1;
}

/**
 * A record was just saved: add it to the job's progress without reading everything again.
 *
 * shown: the job as the screen has it. What came from the server meanwhile may have put another in its place, and the
 * screen is about to ask what comes next.
 */
export async function added(record: StoredRecord, shown?: OpenJob): Promise<void> {
  parts.delete(record.job);
  records.delete(record.job);
  const opening = kept.get(record.job);
  opening?.hurry();
  // A job that cannot be put together is told of where it is opened; the record is saved all the same.
  const whole = await opening?.job.catch(() => null);
  for (const job of new Set([whole, shown])) {
    job?.records.set(record.id, record);
    job?.progress.add(record.payload, record.role);
  }
  changes.value += 1;
  tabs?.postMessage(record.job);
}

/** A job by all of its records. quiet: it is put together in quiet moments, until somebody waits for it. */
export function openJob(id: string, when: "now" | "quiet" = "now"): Promise<OpenJob | null> {
  const opening = kept.get(id) ?? begin(id);
  if (when === "quiet") return opening.job;
  opening.hurry();
  return first(() => opening.job);
}

/** The whole job, once every piece of it is worked out in quiet moments: to be shown without anybody waiting. */
export function readyJob(id: string): Promise<OpenJob | null> {
  return (kept.get(id) ?? begin(id)).ready;
}

function begin(id: string): Opening {
  let hasty = false;
  let wakeUp = () => {};
  const haste = new Promise<void>((done) => {
    wakeUp = done;
  });
  const job = readJob(id, () => (hasty ? drawn() : Promise.race([quiet(), haste])));
  const opening: Opening = {
    job,
    ready: job,
    here: null,
    workedOut: false,
    hurry: () => {
      hasty = true;
      wakeUp();
    },
  };
  kept.set(id, opening);
  opening.ready = job.then((whole) => workOut(id, opening, whole));
  opening.ready.catch(() => kept.get(id) === opening && kept.delete(id));
  return opening;
}

async function readJob(id: string, pause: () => Promise<unknown>): Promise<OpenJob | null> {
  const { recordsOf, wholeJob } = await opener();
  const reading = records.get(id) ?? recordsOf(id);
  records.delete(id);
  return wholeJob(id, reading, pause);
}

/** Work out every piece in quiet moments, as long as the job is the one that is kept. */
async function workOut(id: string, opening: Opening, whole: OpenJob | null): Promise<OpenJob | null> {
  opening.here = whole;
  const { workedOutAhead } = await opener();
  if (whole) opening.workedOut = await workedOutAhead(whole, quiet, () => kept.get(id) === opening);
  return whole;
}

/**
 * A job for the screen of one piece: the whole where every piece of it is worked out, else only what this piece's state
 * rests upon (needed.ts). Both say the same of the piece; readyJob brings the whole.
 */
export async function openPiece(id: string, piece: string): Promise<OpenJob | null> {
  const opening = kept.get(id);
  if (opening?.workedOut) return opening.job;
  const known = parts.get(id);
  if (known?.piece === piece) return known.job;
  const job = first(() => readPart(id, piece));
  parts.set(id, { piece, job });
  job.catch(() => parts.get(id)?.job === job && parts.delete(id));
  return job;
}

async function readPart(id: string, piece: string): Promise<OpenJob | null> {
  const { jobForPiece, recordsOf } = await opener();
  const whole = kept.get(id)?.here;
  if (whole) return (await jobForPiece(id, piece, Promise.resolve([...whole.records.values()]))) ?? whole;
  const reading = records.get(id) ?? recordsOf(id);
  records.set(id, reading);
  reading.catch(() => records.get(id) === reading && records.delete(id));
  return (await jobForPiece(id, piece, reading)) ?? openJob(id);
}

/** Kinds of master data that are read with every job. */
const SHARED = ["job", "plan", "gauge", "procedure", "qualification", "person"];
const LAST = "last job";
let last = "";

/** Somebody works on this job: it is made ready first after the next start. */
export function workedOn(id: string): void {
  if (id === last) return;
  last = id;
  void quiet()
    .then(() => setSetting(LAST, id))
    .catch(() => {});
}

/** Make ready what the next scan needs: judging, what is read of every job, and in quiet moments the job worked on last. */
export async function makeReady(): Promise<void> {
  await Promise.all([opener(), masterOf("tags"), ...SHARED.map((kind) => masterOf(kind))]);
  const job = last || (await setting<string>(LAST));
  await quiet();
  if (job) await readyJob(job);
}

export async function jobList(): Promise<JobLine[]> {
  const jobs = await masterOf<JobLine>("job");
  return jobs.map((one) => one.body).sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** The jobs whose records this phone pulls and keeps: those that are open, unless others were chosen. */
export async function carriedJobs(): Promise<string[]> {
  return (await setting<string[]>("carried")) ?? (await jobList()).filter((job) => job.open).map((job) => job.id);
}

export async function people(): Promise<Map<string, Person>> {
  return new Map((await masterOf<Person>("person")).map(({ body }) => [body.id, body]));
}

export async function gauges(): Promise<Gauge[]> {
  return (await masterOf<Gauge>("gauge")).map(({ body }) => body);
}

export async function shopName(): Promise<string> {
  return (await masterOf<{ name: string }>("shop"))[0]?.body.name ?? "";
}

/** The job and piece a tag's code belongs to, among the jobs this phone carries. */
export async function findTag(code: string): Promise<{ job: string; piece: string } | null> {
  for (const { scope, body } of await masterOf<{ tags: Record<string, string> }>("tags")) {
    const piece = body.tags[code];
    if (piece) return { job: scope.slice("job:".length), piece };
  }
  return null;
}
