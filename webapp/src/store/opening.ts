/** Opening a job: its master data, all of its records, and its progress by all of them or by what one piece needs. */
import { type FigureSet, type GaugeData, Job, type JobData, type Piece, type Plan } from "../core/job";
import type { Procedure } from "../core/procedures";
import { Progress } from "../core/progress";
import type { Qualification } from "../core/qualifications";
import { inOrder } from "../core/text";
import { type StoredRecord, withStore } from "./db";
import { masterOf, type Row } from "./masters";
import { neededBy, piecesBefore } from "./needed";
import { inSlices } from "./turns";

interface PlanDocument extends Plan {
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

export interface JobLine {
  readonly id: string;
  readonly title: string;
  readonly open: boolean;
}

export interface OpenJob {
  readonly id: string;
  readonly title: string;
  readonly progress: Progress;
  /** Whether the progress is of the whole job; else it is of one piece, with all that this piece's state rests upon. */
  readonly whole: boolean;
  /** All pieces of the job, also where the progress is of one. */
  readonly pieces: ReadonlyMap<string, Piece>;
  /** Piece by the code of its tag. */
  readonly tags: ReadonlyMap<string, string>;
  /** Codes that the office replaced by others. */
  readonly retired: ReadonlySet<string>;
  readonly records: Map<string, StoredRecord>;
}

interface BasisBody {
  plan: string;
  figures: number;
  values: Record<string, string>;
  drawings: Record<string, string>;
}

interface TagsBody {
  tags: Record<string, string>;
  retired?: Record<string, string>;
}

/** All records of a job that are here, in whatever state. */
export function recordsOf(id: string): Promise<StoredRecord[]> {
  return withStore((db) => db.getAllFromIndex("records", "job", id));
}

/** What a job is apart from its records. */
type Plain = Omit<OpenJob, "progress" | "whole" | "records"> & { readonly data: JobData };

async function plainJob(id: string): Promise<Plain | null> {
  const [data, title, tags] = await Promise.all([dataOf(id), titleOf(id), inJob<TagsBody>("tags", id)]);
  if (!data) return null;
  return {
    id,
    title,
    data,
    pieces: new Map(data.pieces.map((piece) => [piece.id, piece])),
    tags: new Map(tags.flatMap((body) => Object.entries(body.tags))),
    retired: new Set(tags.flatMap((body) => Object.keys(body.retired ?? {}))),
  };
}

async function titleOf(id: string): Promise<string> {
  return (await masterOf<JobLine>("job")).find(({ body }) => body.id === id)?.body.title ?? "";
}

/** What the feed of a job says of a kind, in its order. */
async function inJob<T>(kind: string, id: string): Promise<T[]> {
  const found: Row<T>[] = await masterOf<T>(kind, `job:${id}`);
  return found.sort((a, b) => a.number - b.number).map(({ body }) => body);
}

async function dataOf(id: string): Promise<JobData | null> {
  const [bases, plans, pieces, gauges, procedures, qualified] = await Promise.all([
    inJob<BasisBody>("basis", id),
    masterOf<{ hash: string; document: PlanDocument }>("plan"),
    inJob<{ pieces: Piece[] }>("pieces", id),
    masterOf<Gauge>("gauge"),
    masterOf<Procedure>("procedure"),
    qualifications(),
  ]);
  if (bases.length === 0) return null;
  // Only plans the job was judged by, as the server has it: both must say the same of a record that names another.
  const named = new Set(bases.map(({ plan }) => plan));
  return {
    id,
    bases: bases.map(({ plan, figures }) => ({ plan, figures })),
    plans: Object.fromEntries(
      plans.filter(({ body }) => named.has(body.hash)).map(({ body }) => [body.hash, body.document]),
    ),
    figure_sets: Object.fromEntries(
      bases.map(({ figures, values, drawings }): [string, FigureSet] => [String(figures), { values, drawings }]),
    ),
    pieces: piecesOf(pieces),
    gauges: Object.fromEntries(gauges.map(({ body }) => [body.id, body])),
    procedures: Object.fromEntries(procedures.map(({ body }) => [body.id, body])),
    qualifications: qualified,
  };
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

/** The pieces of a job by its entries: one that names a piece again renews it in its place. */
export function piecesOf(entries: readonly { pieces: readonly Piece[] }[]): Piece[] {
  return [...new Map(entries.flatMap(({ pieces }) => pieces.map((piece) => [piece.id, piece] as const))).values()];
}

/** Records that count: neither refused by the server nor gone from it. */
function counted(records: readonly StoredRecord[]): StoredRecord[] {
  return records.filter((one) => one.state === "saved" || one.state === "received");
}

function opened(plain: Plain, progress: Progress, whole: boolean, records: readonly StoredRecord[]): OpenJob {
  const { data: _, ...rest } = plain;
  return { ...rest, progress, whole, records: new Map(records.map((one) => [one.id, one])) };
}

/** The job by all of its records, judged in slices; null where this phone carries none of this id. */
export async function wholeJob(
  id: string,
  reading: Promise<StoredRecord[]>,
  pause: () => Promise<unknown>,
): Promise<OpenJob | null> {
  const [plain, records] = await Promise.all([plainJob(id), reading]);
  if (!plain) return null;
  const progress = new Progress(new Job(plain.data), []);
  await inSlices(counted(records), ({ payload, role }) => progress.add(payload, role), pause);
  return opened(plain, progress, true, records);
}

/** The job by what one of its pieces needs; null where nearly all of it is needed, or it is not here. */
export async function jobForPiece(
  id: string,
  piece: string,
  reading: Promise<StoredRecord[]>,
): Promise<OpenJob | null> {
  const [plain, records] = await Promise.all([plainJob(id), reading]);
  if (!plain) return null;
  const job = new Job(plain.data);
  if (piecesBefore(job, piece).size > plain.pieces.size / 2) return null;
  const needed = neededBy(job, piece, counted(records));
  const pieces = plain.data.pieces.filter((one) => needed.pieces.has(one.id));
  const some = needed.records.map(({ payload, role }) => [payload, role] as const);
  return opened(plain, new Progress(new Job({ ...plain.data, pieces }), some), false, records);
}

/** Work out every piece ahead, in slices, while it is wanted; whether all of them are. */
export function workedOutAhead(
  { progress }: OpenJob,
  pause: () => Promise<unknown>,
  isWanted: () => boolean,
): Promise<boolean> {
  return inSlices(progress.job.pieces.keys(), (piece) => progress.piece(piece), pause, isWanted);
}
