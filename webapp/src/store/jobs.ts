/** Jobs this phone carries: their master data, and their progress by all records that are here. */
import { signal } from "@preact/signals";
import type { FigureSet, GaugeData, JobData, Piece, Plan } from "../core/job";
import type { Role } from "../core/judging";
import type { Procedure } from "../core/procedures";
import type { Progress } from "../core/progress";
import type { Qualification } from "../core/qualifications";
import type { Payload } from "../core/records";
import { inOrder } from "../core/text";
import { type Master, type StoredRecord, setting, withStore, written } from "./db";

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
  /** Codes that the office replaced by others. */
  readonly retired: ReadonlySet<string>;
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
  else {
    kept.clear();
    masters.clear();
  }
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
  for (const job of new Set([await kept.get(record.job), shown])) {
    job?.records.set(record.id, record);
    job?.progress.add(record.payload, record.role);
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

/** Master data by kind, each read once until this tab has written some, or another tab tells of a change. */
const masters = new Map<string, { rows: Promise<Master[]>; at: number | undefined }>();

/** Keys begin with the kind (sync/pull.ts); of the shop itself there is one row, under its kind alone. */
function readMasters(kind: string): Promise<Master[]> {
  const keys = IDBKeyRange.bound(kind, `${kind} \uffff`);
  return withStore(async (db) => (await db.getAll("master", keys)).filter((row) => row.kind === kind));
}

async function masterOf<T>(kind: string): Promise<{ scope: string; number: number; body: T }[]> {
  const at = written.get("master");
  const known = masters.get(kind);
  const mine = known && known.at === at ? known : { rows: readMasters(kind), at };
  masters.set(kind, mine);
  const all = await mine.rows.catch((error) => {
    if (masters.get(kind) === mine) masters.delete(kind);
    throw error;
  });
  return all.map(({ scope, number, body }) => ({ scope, number, body: body as T }));
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

/** Of every welder, in the order of their ids, as the server has them. */
async function qualifications(): Promise<Record<string, Qualification[]>> {
  const found: Record<string, Qualification[]> = {};
  const all = (await masterOf<Qualification>("qualification")).map(({ body }) => body);
  for (const one of all.sort((a, b) => inOrder(a.id, b.id))) {
    const mine = found[one.person] ?? [];
    mine.push(one);
    found[one.person] = mine;
  }
  return found;
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

/** The core is fetched with the first job that is opened: the camera is live without it. */
const core = () => Promise.all([import("../core/job"), import("../core/progress")]);

async function readJob(id: string): Promise<OpenJob | null> {
  const [{ Job }, { Progress }] = await core();
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
    pieces: piecesOf(here(await masterOf<{ pieces: Piece[] }>("pieces"))),
    gauges: Object.fromEntries((await gauges()).map((gauge) => [gauge.id, gauge])),
    procedures: Object.fromEntries((await masterOf<Procedure>("procedure")).map(({ body }) => [body.id, body])),
    qualifications: await qualifications(),
  };
  const tags = here(await masterOf<{ tags: Record<string, string>; retired?: Record<string, string> }>("tags"));
  const records = await withStore((db) => db.getAllFromIndex("records", "job", id));
  const counted = records.filter((one) => one.state === "saved" || one.state === "received");
  const folded = counted.map((one): [Payload, Role] => [one.payload, one.role]);
  return {
    id,
    title,
    progress: new Progress(new Job(data), folded),
    tags: new Map(tags.flatMap((body) => Object.entries(body.tags))),
    retired: new Set(tags.flatMap((body) => Object.keys(body.retired ?? {}))),
    records: new Map(records.map((one) => [one.id, one])),
  };
}

/** The pieces of a job by its entries: one that names a piece again renews it in its place. */
export function piecesOf(entries: readonly { pieces: readonly Piece[] }[]): Piece[] {
  return [...new Map(entries.flatMap(({ pieces }) => pieces.map((piece) => [piece.id, piece] as const))).values()];
}

/** The job and piece a tag's code belongs to, among the jobs this phone carries. */
export async function findTag(code: string): Promise<{ job: string; piece: string } | null> {
  for (const { scope, body } of await masterOf<{ tags: Record<string, string> }>("tags")) {
    const piece = body.tags[code];
    if (piece) return { job: scope.slice("job:".length), piece };
  }
  return null;
}
