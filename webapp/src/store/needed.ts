/**
 * What the state of one piece rests upon, of the pieces and the records of its job; the whole job says the same of it.
 *
 * Of a piece all records are needed, or none for their own sake: which of its records decide what is the core's to know.
 * From piece to piece reach only what stands before a step, points set for the whole job, what is scrapped, and whether
 * a record that a sign-off names is here.
 */
import type { Job } from "../core/job";
import type { StoredRecord } from "./db";

export interface Needed {
  /** Pieces that must be among those of the job, so that it says the same of what stands before the piece. */
  readonly pieces: ReadonlySet<string>;
  readonly records: readonly StoredRecord[];
}

/** counted: all records of the job that count. */
export function neededBy(job: Job, piece: string, counted: readonly StoredRecord[]): Needed {
  // A part that was remade is no longer among the parts, but may still be what stops the piece.
  const within = new Set([...job.pieces.keys()].filter((one) => job.wholes(one).includes(piece)));
  const inFull = new Set([piece, ...piecesBefore(job, piece)]);
  for (const { payload } of counted) {
    const mayStop = payload.type === "disposition" && within.has(payload.piece);
    if (mayStop || payload.type === "point") inFull.add(payload.piece);
  }
  const own = counted.filter(({ payload }) => inFull.has(payload.piece));
  const named = new Set(own.flatMap(({ payload }) => (payload.type === "sign-off" ? (payload.under ?? []) : [])));
  const records = counted.filter(({ id, payload }) => inFull.has(payload.piece) || named.has(id));
  return { pieces: new Set([...inFull, ...within, ...partsJoined(job, piece)]), records };
}

/** The pieces at the steps that stand before those of a piece. */
export function piecesBefore(job: Job, piece: string): ReadonlySet<string> {
  const before = job.stepsOf(piece).flatMap((step) => job.before(piece, step.code));
  return new Set(before.map((one) => one.piece));
}

/** The parts of what a piece joins, also where nothing is asked of them: through them their own parts are found. */
function partsJoined(job: Job, piece: string): string[] {
  return (job.pieces.get(piece)?.joins ?? []).flatMap((one) => job.parts(one));
}
