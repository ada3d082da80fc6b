/** Jobs this phone carries: their master data, and their progress by all records that are here. */
import { signal } from "@preact/signals";
import { type FigureSet, type GaugeData, Job, type JobData, type Piece, type Plan } from "../core/job";
import type { Role } from "../core/judging";
import { Progress } from "../core/progress";
import type { Payload } from "../core/records";
import { type StoredRecord, setting, withStore } from "./db";

export interface PlanDocument extends Plan {
  readonly plan: string;
  readonly title: string;
  readonly notice: string;
}

export interface Gauge extends GaugeData {
  readonly id: string;
  readonly kind: string;
  readonly name: string;
  readonly uom: string;
}

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly roles: string[];
  readonly stamp: string;
}

export interface OpenJob {
  readonly id: string;
  readonly title: string;
  readonly progress: Progress;
  /** Piece by the code of its tag. */
  readonly tags: ReadonlyMap<string, string>;
  readonly records: Map<string, StoredRecord>;
}

/** Counts up whenever something in the store has changed that a screen may show. */
export const changes = signal(0);

const kept = new Map<string, Promise<OpenJob | null>>();

/** Other tabs of this app: what one has written, the others show. */
let tabs: BroadcastChannel | null = null;

export function joinTabs(): void {
  tabs = new BroadcastChannel("seamtag");
  tabs.onmessage = (event: MessageEvent<string>) => forget(event.data);
}

function forget(job: string): void {
  if (job) kept.delete(job);
  else kept.clear();
  changes.value += 1;
}

/** Something changed; every job's progress is put together anew. */
export function changed(): void {
  forget("");
  tabs?.postMessage("");
}

/** A record was just saved: add it to the job's progress without reading everything again. */
export async function added(record: StoredRecord): Promise<void> {
  const job = await kept.get(record.job);
  if (job) {
    job.records.set(record.id, record);
    job.progress.add(record.payload, record.role);
  }
  changes.value += 1;
  tabs?.postMessage(record.job);
}

export function openJob(id: string): Promise<OpenJob | null> {
  const known = kept.get(id);
  if (known) return known;
  const found = readJob(id);
  kept.set(id, found);
  found.catch(() => kept.delete(id));
  return found;
}

async function masterOf<T>(kind: string): Promise<{ scope: string; number: number; body: T }[]> {
  const all = await withStore((db) => db.getAll("master"));
  return all.filter((one) => one.kind === kind).map(({ scope, number, body }) => ({ scope, number, body: body as T }));
}

export async function jobList(): Promise<{ id: string; title: string; open: boolean }[]> {
  const jobs = await masterOf<{ id: string; title: string; open: boolean }>("job");
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

interface BasisBody {
  plan: string;
  figures: number;
  values: Record<string, string>;
  drawings: Record<string, string>;
}

async function readJob(id: string): Promise<OpenJob | null> {
  const scope = `job:${id}`;
  const here = <T>(list: { scope: string; number: number; body: T }[]) =>
    list
      .filter((one) => one.scope === scope)
      .sort((a, b) => a.number - b.number)
      .map((one) => one.body);
  const title = (await jobList()).find((job) => job.id === id)?.title ?? "";
  const bases = here(await masterOf<BasisBody>("basis"));
  const plans = await masterOf<{ hash: string; document: PlanDocument }>("plan");
  if (bases.length === 0) return null;
  // Only plans the job was judged by, as the server has it: both must say the same of a record that names another.
  const named = new Set(bases.map(({ plan }) => plan));
  const data: JobData = {
    id,
    bases: bases.map(({ plan, figures }) => ({ plan, figures })),
    plans: Object.fromEntries(
      plans.filter(({ body }) => named.has(body.hash)).map(({ body }) => [body.hash, body.document]),
    ),
    figure_sets: Object.fromEntries(
      bases.map(({ figures, values, drawings }): [string, FigureSet] => [String(figures), { values, drawings }]),
    ),
    pieces: here(await masterOf<{ pieces: Piece[] }>("pieces")).flatMap((body) => body.pieces),
    gauges: Object.fromEntries((await gauges()).map((gauge) => [gauge.id, gauge])),
  };
  const tags = here(await masterOf<{ tags: Record<string, string> }>("tags")).flatMap((body) =>
    Object.entries(body.tags),
  );
  const records = await withStore((db) => db.getAllFromIndex("records", "job", id));
  const counted = records.filter((one) => one.state === "saved" || one.state === "received");
  const folded = counted.map((one): [Payload, Role] => [one.payload, one.role]);
  return {
    id,
    title,
    progress: new Progress(new Job(data), folded),
    tags: new Map(tags),
    records: new Map(records.map((one) => [one.id, one])),
  };
}

/** The job and piece a tag's code belongs to, among the jobs this phone carries. */
export async function findTag(code: string): Promise<{ job: string; piece: string } | null> {
  for (const { scope, body } of await masterOf<{ tags: Record<string, string> }>("tags")) {
    const piece = body.tags[code];
    if (piece) return { job: scope.slice("job:".length), piece };
  }
  return null;
}
