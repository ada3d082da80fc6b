/**
 * Where a job stands: a pure function of its plan, its pieces and the set of its records.
 *
 * The same answer whatever order records arrive in, however often, from however many devices. No clock decides
 * anything.
 */

import { Bench, byId, FLAGGED, type ItemState, MET, NOT_ASKED, OPEN, STARTED } from "./items";
import { added, type Before, HOLDING, type Job, lookedUp, present, REQUIRED, type Step } from "./job";
import { isA, type Judged, judged, type Role } from "./judging";
import type { Payload, Point } from "./records";
import { Repairs } from "./repairs";
import { type Arrived, type Reason, Signing, under } from "./signing";
import { Standing } from "./standing";
import { inOrder, strip } from "./text";

export { FLAGGED, OPEN, STARTED } from "./items";
export const RELEASED = "released";
export const COMPLETE = "complete";

export type StepWord = typeof OPEN | typeof STARTED | typeof FLAGGED | typeof COMPLETE | typeof RELEASED;

/** Types of record that must not be made behind an open hold. */
export const WORK: readonly string[] = ["reading", "visual", "photo", "weld", "report", "text", "sign-off"];

/** state: open, started, flagged, complete, released. waiting: the parties that have still to sign, in order. */
export interface StepState {
  readonly state: StepWord;
  readonly items: ReadonlyMap<string, ItemState>;
  readonly signoffs: ReadonlyMap<string, Reason>;
  readonly waiting: readonly string[];
  readonly holding: readonly string[];
}

/** What stops a step: a step of a piece, and the parties who can let it go; no parties where work is undone. */
export interface Blocked {
  readonly piece: string;
  readonly step: string;
  readonly parties: readonly string[];
}

/**
 * One piece by its own records, and the points set for the whole job (everywhere).
 *
 * arrived: the ids of all records of the job that are here.
 */
export class PieceProgress {
  readonly records: readonly Judged[];
  readonly standing: Standing;
  readonly signings = new Map<string, Signing>();
  readonly steps = new Map<string, StepState>();
  readonly bench: Bench;
  /** What its sign-offs name that is not here. */
  readonly awaited: ReadonlySet<string>;

  constructor(
    readonly piece: string,
    records: readonly Judged[],
    readonly job: Job,
    arrived: Arrived,
    everywhere: readonly Judged<"point">[] = [],
  ) {
    this.records = [...records].sort(byId);
    this.standing = new Standing(this.records, job);
    this.bench = new Bench(piece, this.records, this.standing, job);
    const named = this.records.filter((record) => record.type === "sign-off").flatMap(under);
    this.awaited = new Set(named.filter((id) => !arrived.has(id)));
    for (const step of job.stepsOf(piece)) {
      const signing = new Signing(piece, step, this.records, this.standing, job, arrived, everywhere);
      this.signings.set(step.code, signing);
      this.steps.set(step.code, this.stepState(step, signing));
    }
  }

  /** What stands at the sign-offs of a step asked of the piece. */
  signing(code: string): Signing {
    return present(this.signings.get(code), `step ${code} is not asked of piece ${this.piece}`);
  }

  private stepState(step: Step, signing: Signing): StepState {
    const items = new Map(step.items.map((item) => [item.code, this.bench.item(step, item)]));
    return {
      state: stateOf(items, signing),
      items,
      signoffs: new Map(signing.reasons),
      waiting: signing.outstanding().map((point) => point.party),
      holding: signing.holding().map((point) => point.party),
    };
  }

  /** How many repair cycles this piece has had, the one that is under way among them. */
  get repairs(): number {
    return [...new Repairs(this.standing).numbers.values()].reduce((most, one) => Math.max(most, one), 0);
  }

  /** The cycle that a repair of what a record found would be. */
  nextRepair(recordId: string): number {
    return new Repairs(this.standing).next(recordId);
  }

  /** The notes that stay on top of the piece for the next shift, until anybody clears them. */
  get passedOn(): Judged<"note">[] {
    const all = this.records.filter((record) => isA(record, "note"));
    const notes = all.filter((note) => !this.standing.voids.has(note.id));
    const cleared = new Set(notes.map((note) => note.body.clears));
    return notes.filter((note) => note.body.pass_on && !cleared.has(note.id));
  }

  /** The last that was done with the piece's tag, by the order in which records were made; it decides nothing. */
  get tagging(): Judged<"tagging"> | null {
    const all = this.records.filter((record) => isA(record, "tagging"));
    return all.filter((record) => !this.standing.voids.has(record.id)).at(-1) ?? null;
  }

  /** Whether the piece was scrapped. */
  get scrapped(): boolean {
    return this.standing.dispositions.some((d) => d.body.disposition === "scrap");
  }
}

function stateOf(items: ReadonlyMap<string, ItemState>, signing: Signing): StepWord {
  const states = [...items.values()].map((item) => item.state).filter((state) => state !== NOT_ASKED);
  if (states.every((state) => state === MET)) return signing.outstanding().length > 0 ? COMPLETE : RELEASED;
  if (states.includes(FLAGGED)) return FLAGGED;
  return states.every((state) => state === OPEN) && signing.here.length === 0 ? OPEN : STARTED;
}

/** The whole job. records: payloads with the role stamped at intake ('held', 'changed', 'not held' or ''). */
export class Progress {
  readonly records = new Map<string, Judged>();
  private readonly byPiece = new Map<string, Judged[]>();
  private readonly folded = new Map<string, PieceProgress>();
  private everywhere: readonly Judged<"point">[] = [];
  private stoppedNow: ReadonlySet<string> | null = null;
  private welded: Map<string, string[]> | null = null;

  constructor(
    readonly job: Job,
    records: Iterable<readonly [Payload, Role]>,
  ) {
    for (const [payload, role] of records) this.add(payload, role);
  }

  /** Add one record to the set; of the rest only its own piece is worked out anew. A repeat changes nothing. */
  add(payload: Payload, role: Role): void {
    if (this.records.has(payload.id)) return;
    const record = judged(payload, role, this.job);
    this.records.set(record.id, record);
    added(this.byPiece, record.place.piece, record);
    this.folded.delete(record.place.piece);
    this.stoppedNow = null;
    if (record.type === "weld" || record.type === "void") this.welded = null;
    if (record.type === "point" || record.type === "void") this.setEverywhere();
    for (const [piece, folded] of this.folded) if (folded.awaited.has(record.id)) this.folded.delete(piece);
  }

  /** The points set for the whole job; where they change, every piece is worked out anew. */
  private setEverywhere(): void {
    const all = [...this.records.values()].filter((record) => isA(record, "point"));
    const wide = all.filter((record) => record.role === "held" && record.body.reach === "job");
    const standing = wide
      .filter((r) => !new Standing(this.byPiece.get(r.place.piece) ?? [], this.job).voids.has(r.id))
      .sort(byId);
    const same = standing.length === this.everywhere.length && standing.every((r, at) => r === this.everywhere[at]);
    if (same) return;
    this.everywhere = standing;
    this.folded.clear();
  }

  /**
   * The days on which a welder welded by a process, by the records of this job that are neither void nor replaced by
   * their own maker.
   */
  daysWelded(welder: string, process: string): readonly string[] {
    this.welded ??= this.workedOutWelded();
    return this.welded.get([welder, process].join("\0")) ?? [];
  }

  private workedOutWelded(): Map<string, string[]> {
    const found = new Map<string, string[]>();
    for (const own of this.byPiece.values()) {
      for (const { body, payload } of weldsThatCount(own, this.job)) {
        const process = lookedUp(this.job.procedures, strip(body.procedure))?.process ?? "";
        added(found, [body.welder, process].join("\0"), payload.at.slice(0, 10));
      }
    }
    return found;
  }

  /** The progress of one piece, worked out once. */
  piece(piece: string): PieceProgress {
    const known = this.folded.get(piece);
    if (known) return known;
    const own = this.byPiece.get(piece) ?? [];
    const found = new PieceProgress(piece, own, this.job, this.records, this.everywhere);
    this.folded.set(piece, found);
    return found;
  }

  /** The state of a step of a piece. */
  step(piece: string, code: string): StepState {
    return present(this.piece(piece).steps.get(code), `step ${code} is not asked of piece ${piece}`);
  }

  /** Pieces that are scrapped or have a part that is and was not remade; worked out once until another record comes. */
  get stopped(): ReadonlySet<string> {
    this.stoppedNow ??= this.workedOutStopped();
    return this.stoppedNow;
  }

  private workedOutStopped(): ReadonlySet<string> {
    const scrapped = [...this.job.pieces.keys()].filter((piece) => this.piece(piece).scrapped);
    const lacking = scrapped.filter((piece) => !this.job.pieces.get(piece)?.remade);
    return new Set([...scrapped, ...lacking.flatMap((piece) => this.job.wholes(piece))]);
  }

  /** Why a step may not begin, the nearest first; empty where it may. */
  blocked(piece: string, code: string): Blocked[] {
    const found = this.job.before(piece, code).flatMap((before) => this.blockedBy(before) ?? []);
    if (this.stopped.has(piece)) found.push({ piece, step: "", parties: [] });
    return found;
  }

  private blockedBy({ piece, step, whole }: Before): Blocked | null {
    const state = this.step(piece, step);
    if (whole) return state.state === RELEASED ? null : { piece, step, parties: state.waiting };
    return state.holding.length > 0 ? { piece, step, parties: state.holding } : null;
  }

  /**
   * The ids a new record at a step names as 'under': sign-offs and calls at the points before it, sign-offs of earlier
   * parties at the step itself, and rework or repair that asked for it.
   */
  reliedOn(piece: string, code: string): string[] {
    const found: string[] = [];
    for (const before of this.job.before(piece, code)) {
      const signing = this.piece(before.piece).signing(before.step);
      for (const { party, point } of lettingGo(signing, before.whole)) {
        const called = point === "W" ? signing.callsTo(party) : [];
        const newest = signing.valid(party).at(-1) ?? called.at(-1);
        if (newest) found.push(newest.id);
      }
    }
    const own = this.piece(piece);
    const signing = own.signing(code);
    found.push(...signing.points.flatMap((point) => signing.valid(point.party).map((signoff) => signoff.id)));
    const witnesses = signing.points.filter((point) => point.point === "W");
    found.push(...witnesses.flatMap((point) => signing.callsTo(point.party).map((call) => call.id)));
    const asked = own.standing.dispositions.filter(({ body }) => ["rework", "repair"].includes(body.disposition));
    return [...new Set([...found, ...asked.map((disposition) => disposition.id)])];
  }

  /**
   * The ids a sign-off lists: every record on the step's items, what decides or agrees about them, and what makes void
   * any of these or of the work and the sign-offs at the step.
   */
  covered(piece: string, code: string): string[] {
    const own = this.piece(piece);
    const signing = own.signing(code);
    const found = signing.onItems.map((record) => record.id);
    const here = signing.here.map((record) => record.id);
    const about = new Set([...found, ...here]);
    const decided = signing.decided().flatMap((d) => (signing.speaksOf(d, about) ? [d.id] : []));
    const agreed = own.standing.agreements.filter((agreement) => decided.includes(agreement.body.disposition));
    const listed = [...found, ...decided, ...agreed.map((agreement) => agreement.id)];
    const voids = [...listed, ...here].flatMap((id) => own.standing.voids.get(id) ?? []);
    return [...new Set([...listed, ...voids.map((record) => record.id)])].sort(inOrder);
  }

  /** The points a record went past without naming their release; null while what it names is not here yet. */
  pastHold(record: Judged): Blocked[] | null {
    const { piece, step: code } = record.place;
    if (!WORK.includes(record.type) || !this.job.hasStep(piece, code)) return [];
    const named = this.pointsNamed(under(record));
    const lacking = under(record).some((id) => !this.records.has(id));
    const missed: Blocked[] = [];
    for (const before of this.job.before(piece, code)) {
      const signing = this.piece(before.piece).signing(before.step);
      const parties = lettingGo(signing, before.whole)
        .filter((point) => !passes(before, point).some((pass) => named.has(pass)))
        .filter((point) => heldThen(this.job, record, signing, point.party, before.whole))
        .map((point) => point.party);
      if (parties.length > 0 && lacking) return null;
      if (parties.length > 0) missed.push({ piece: before.piece, step: before.step, parties });
    }
    return missed;
  }

  private pointsNamed(ids: readonly string[]): ReadonlySet<string> {
    const named = new Set<string>();
    for (const id of ids) {
      const record = this.records.get(id);
      if (!record || !(isA(record, "call") || (isA(record, "sign-off") && record.role !== "not held"))) continue;
      named.add(passKey(record.type, record.place.piece, record.place.step, record.body.party));
    }
    return named;
  }
}

/**
 * The welds of one piece that nothing makes void or replaces, by welds and voids alone: so the server, which does not
 * read every record of every piece, finds the same.
 */
function weldsThatCount(records: readonly Judged[], job: Job): Judged<"weld">[] {
  const standing = new Standing(
    records.filter((record) => record.type === "weld" || record.type === "void"),
    job,
  );
  const welds = records.filter((record) => isA(record, "weld"));
  return welds.filter(({ id }) => !standing.voids.has(id) && !standing.replacedBy.has(id));
}

/** What lets work go on past a point: the party's sign-off, or at a witness point that it was called. */
function passes(before: Before, { party, point }: Point): string[] {
  const kinds = point === "W" && !before.whole ? ["sign-off", "call"] : ["sign-off"];
  return kinds.map((kind) => passKey(kind, before.piece, before.step, party));
}

function passKey(kind: string, piece: string, step: string, party: string): string {
  return [kind, piece, step, party].join("\0");
}

/**
 * Whether the party had its point by the plan revision the record names, or has set it for this job since.
 *
 * A hold that a later revision brings is not held against what was recorded before.
 */
function heldThen(job: Job, record: Judged, signing: Signing, party: string, whole: boolean): boolean {
  const { plan } = record.payload.basis;
  if (!lookedUp(job.data.plans, plan)) return true;
  if (signing.setPoints.some((point) => point.body.party === party)) return true;
  const wanted = whole ? REQUIRED : HOLDING;
  const then = job.stepIn(plan, signing.step.code)?.points ?? [];
  return then.some((point) => point.party === party && wanted.includes(point.point));
}

/** The points of a step whose sign-offs let what follows begin. */
function lettingGo(signing: Signing, whole: boolean): readonly Point[] {
  const wanted = whole ? REQUIRED.slice(1) : HOLDING;
  const points = signing.points.filter((point) => wanted.includes(point.point));
  return whole && points.length === 0 ? signing.points.filter((point) => point.point === "sign") : points;
}
