/** What a supervisor must see, worked out from a job's progress. */

import { BAD, MET, NOT_ASKED, ON_ITEMS } from "./items";
import { type Item, type Job, lookedUp, present, type Step } from "./job";
import { gaugeOf, isA, type Judged, type JudgedWord, REJECTED } from "./judging";
import { type Limits, tolerance } from "./limits";
import { type Decimal, ZERO } from "./numbers";
import { MOST_NAME } from "./procedures";
import { type Blocked, COMPLETE, type PieceProgress, type Progress, RELEASED } from "./progress";
import { lacking } from "./qualifications";
import { inInk } from "./records";
import {
  ATTENDANCE,
  CHANGED,
  NO_NOTICE,
  NO_PAGE,
  NOT_HELD,
  NOT_MET,
  OUT_OF_ORDER,
  OWN_WORK,
  SHAKEN,
  TO_CONFIRM,
  under,
} from "./signing";
import { ASKS_NEW, DISAGREE, lapsed } from "./standing";
import { beginning, inOrder, strip } from "./text";
import * as verdict from "./verdict";

export const PAST_HOLD = "went past an open hold";
export const NO_NOTICE_FLAG = "witness without notice";
export const AFTER_RELEASE = "entry after release";
export const SHAKEN_FLAG = "sign-off shaken";
export const ROLE = "role in doubt";
export const SIGNED_IN_INK = "signed in ink";
export const NOT_QUALIFIED = "maker not qualified";
export const NO_PHOTO = "photo missing";
export const GAUGE_RAN_OUT = "gauge ran out";
export const GAUGE_COARSE = "gauge too coarse";
export const DIFFER = "phone and server differ";
export const UNKNOWN_PLACE = "not in the plan";
/**
 * Types that say something of a piece; about one that is in no plan they raise no flag of their own, or there would be no
 * end of words.
 */
const OF_WORDS: readonly string[] = ["disposition", "agreement", "void", "note"];

export const ORDER = [
  PAST_HOLD,
  NO_NOTICE_FLAG,
  SHAKEN_FLAG,
  verdict.OUT,
  REJECTED,
  verdict.CLOSE,
  verdict.UNJUDGED,
  ROLE,
  SIGNED_IN_INK,
  NOT_QUALIFIED,
  DISAGREE,
  GAUGE_RAN_OUT,
  GAUGE_COARSE,
  NO_PHOTO,
  AFTER_RELEASE,
  DIFFER,
  UNKNOWN_PLACE,
] as const;

export const OWN_FINDING = "disposes of own finding";

/** Why a sign-off by who may sign releases nothing, where nothing else tells the supervisor. */
const NOT_RELEASING: readonly string[] = [
  SHAKEN,
  NOT_MET,
  OWN_WORK,
  NO_PAGE,
  OUT_OF_ORDER,
  NO_NOTICE,
  ATTENDANCE,
  CHANGED,
];

export const OPEN = "open";
export const DECIDED = "decided";
export const CLOSED = "closed";
export const ON_THE_SPOT = "fixed on the spot";

export type FlagKind = (typeof ORDER)[number];
export type FlagState = typeof OPEN | typeof DECIDED | typeof CLOSED | typeof ON_THE_SPOT;

/**
 * One thing to see. state: open; decided, where a disposition waits to be carried out; closed; fixed on the spot.
 *
 * past: how far past the limit in units of the tolerance (one-sided: of the gauge's U, else of the limit).
 */
export interface Flag {
  readonly kind: FlagKind;
  readonly record: string;
  readonly piece: string;
  readonly step: string;
  readonly item: string;
  readonly station: string;
  readonly state: FlagState;
  readonly reason: string;
  readonly past: Decimal | null;
  readonly disposition: string;
}

/** The flags at one piece, open and closed, in a fixed order. */
export function flagsOf(progress: Progress, piece: string): Flag[] {
  const own = progress.piece(piece);
  const found = own.records.flatMap((record) => [...flagsOfRecord(progress, own, record)]);
  found.push(...flagsOfSteps(progress.job, own));
  return found.sort(inOrderOfFlags);
}

function inOrderOfFlags(one: Flag, other: Flag): number {
  return (
    ORDER.indexOf(one.kind) - ORDER.indexOf(other.kind) ||
    inOrder(one.record, other.record) ||
    inOrder(one.piece, other.piece) ||
    inOrder(one.step, other.step) ||
    inOrder(one.item, other.item) ||
    inOrder(one.station, other.station)
  );
}

function flagAbout(own: PieceProgress, record: Judged, kind: FlagKind, reason = "", past: Decimal | null = null): Flag {
  return { kind, record: record.id, ...record.place, ...stateOf(own, record, kind), reason, past };
}

function* flagsOfRecord(progress: Progress, own: PieceProgress, record: Judged): Generator<Flag> {
  const { job } = progress;
  const { piece, step, item } = record.place;
  const known = job.pieces.has(piece) && (!step || job.hasStep(piece, step));
  const saidOfIt = OF_WORDS.includes(record.type) && !step;
  if ((!known && !saidOfIt) || (item && record.current && job.item(step, item) === null)) {
    yield flagAbout(own, record, UNKNOWN_PLACE);
  }
  const { word, reason } = record.verdict;
  if (isAdverse(word)) yield flagAbout(own, record, word, reason, howFarPast(job, record));
  if ((record.role === "changed" || record.role === "not held") && !voidsOwn(own, record)) {
    yield flagAbout(own, record, ROLE, record.role === "changed" ? TO_CONFIRM : NOT_HELD);
  }
  if (isA(record, "disposition") && record.role === "held" && own.standing.ofOwnFinding(record)) {
    yield flagAbout(own, record, ROLE, OWN_FINDING);
  }
  if (isA(record, "sign-off") && inInk(record.body)) yield flagAbout(own, record, SIGNED_IN_INK);
  const missed = (known && progress.pastHold(record)) || [];
  const past = missed.length > 0 && withoutNotice(progress, record, missed) ? NO_NOTICE_FLAG : PAST_HOLD;
  if (missed.length > 0) {
    const shown = missed.map((b) => `${job.pieces.get(b.piece)?.mark} ${job.steps.get(b.step)?.number}`);
    yield flagAbout(own, record, past, shown.join(", "));
  }
  for (const [kind, doubt] of doubtsOfReading(job, record)) yield flagAbout(own, record, kind, doubt);
  const lacks = lackingQualification(progress, record);
  if (lacks) yield flagAbout(own, record, NOT_QUALIFIED, lacks);
  const signed = own.signings.get(step)?.reasons.get(record.id);
  const kind = signed === NO_NOTICE ? NO_NOTICE_FLAG : SHAKEN_FLAG;
  if (isA(record, "sign-off") && signed && NOT_RELEASING.includes(signed) && !(missed.length > 0 && past === kind)) {
    const decision = stateOfSignoff(own, record, kind);
    yield { kind, record: record.id, ...record.place, ...decision, reason: signed, past: null };
  }
}

/** Whether all that a record went past are witness points of which it names no notice. */
function withoutNotice(progress: Progress, record: Judged, missed: readonly Blocked[]): boolean {
  const named = under(record).flatMap((id) => progress.records.get(id) ?? []);
  return missed.every(({ piece, step, parties }) => {
    const calls = named.filter((one) => isA(one, "call")).filter((one) => one.place.piece === piece);
    const called = calls.some((one) => one.place.step === step && parties.includes(one.body.party));
    const { points } = progress.piece(piece).signing(step);
    return !called && points.every(({ party, point }) => !parties.includes(party) || point === "W");
  });
}

type AdverseWord = typeof verdict.OUT | typeof verdict.CLOSE | typeof verdict.UNJUDGED | typeof REJECTED;

function isAdverse(word: string): word is AdverseWord {
  return word === verdict.OUT || word === verdict.CLOSE || word === verdict.UNJUDGED || word === REJECTED;
}

type Decision = Pick<Flag, "state" | "disposition">;

/**
 * The state of a flag about a record, and the disposition that stands about it.
 *
 * What is no verdict but a doubt is closed by a word about this very kind.
 */
function stateOf(own: PieceProgress, record: Judged, kind: FlagKind): Decision {
  const { standing } = own;
  if (standing.voids.has(record.id)) return { state: CLOSED, disposition: "" };
  const doubt = isAdverse(kind) ? "" : kind;
  const decided = standing.strictest(record.id, doubt);
  const about = standing.speaking(record.id, doubt);
  if (kind === SIGNED_IN_INK) {
    const seen = about.map(({ id }) => id).sort(inOrder);
    return { state: seen.length > 0 ? CLOSED : OPEN, disposition: seen.at(-1) ?? "" };
  }
  const replaced = standing.replacedBy.get(record.id) ?? [];
  const done = decided !== null && ASKS_NEW.includes(decided.body.disposition);
  if (replaced.length > 0 && (done || (kind !== PAST_HOLD && kind !== NO_NOTICE_FLAG))) {
    if (decided || doubt) return { state: CLOSED, disposition: decided?.id ?? "" };
    return { state: stateOfMended(own, replaced), disposition: "" };
  }
  return stateOfDecided(decided, about, record.verdict.word);
}

/**
 * Of a sign-off that releases nothing: closed once another of its party does; that a witness had no notice, by a word
 * about it as well.
 */
function stateOfSignoff(own: PieceProgress, signoff: Judged<"sign-off">, kind: FlagKind): Decision {
  const valid = own.signing(signoff.place.step).valid(signoff.body.party);
  const disposition = own.standing.strictest(signoff.id, kind)?.id ?? "";
  const seen = disposition !== "" && kind === NO_NOTICE_FLAG;
  return { state: valid.length > 0 || seen ? CLOSED : OPEN, disposition };
}

type Disposed = Judged<"disposition">;

/** By the disposition that stands, else by one that waits for an agreement; one that has lapsed is none. */
function stateOfDecided(decided: Disposed | null, about: readonly Disposed[], word: JudgedWord): Decision {
  if (decided) {
    const done = decided.body.disposition === "use as is" || decided.body.disposition === "scrap";
    return { state: done ? CLOSED : DECIDED, disposition: decided.id };
  }
  const waiting = about.filter((d) => !lapsed(d, word)).map((d) => d.id);
  const newest = waiting.sort(inOrder).at(-1);
  return newest === undefined ? { state: OPEN, disposition: "" } : { state: DECIDED, disposition: newest };
}

/**
 * Of a finding replaced without a disposition. What was reworked or repaired and is good now needs a word all the same,
 * unless it was rework before anybody signed, 'fixed on the spot'.
 */
function stateOfMended(own: PieceProgress, replaced: readonly Judged[]): FlagState {
  const good = replaced.filter((record) => record.good);
  const reworked = good.filter((record) => record.payload.why === "after rework");
  if (reworked.some((record) => !signedBefore(own, record))) return ON_THE_SPOT;
  return reworked.length > 0 || good.some((record) => record.payload.why === "after repair") ? OPEN : CLOSED;
}

/** Whether somebody who releases has signed at the step without knowing of the replacement. */
function signedBefore(own: PieceProgress, replacement: Judged): boolean {
  const signing = own.signings.get(replacement.place.step);
  const releasing = signing?.points.filter((point) => point.point !== "sign") ?? [];
  const signoffs = releasing.flatMap((point) => signing?.ofParty(point.party) ?? []);
  return signoffs.some((signoff) => !signoff.body.covers.includes(replacement.id));
}

/** Whether a record makes void one of its own maker's, which anybody may, or one that is not here yet. */
function voidsOwn(own: PieceProgress, record: Judged): boolean {
  if (!isA(record, "void")) return false;
  const target = own.standing.records.get(record.body.record);
  return !target || target.payload.by === record.payload.by;
}

function limitsOfRecord(job: Job, record: Judged): Limits {
  const { plan, figures } = record.payload.basis;
  const { piece, step, item } = record.place;
  return job.limits(piece, step, item, plan, figures);
}

/** The gauge a reading names, in the uom of its item as the revision asks it that the record names. */
function gaugeOfRecord(job: Job, record: Judged<"reading">): verdict.Gauge | null {
  const { step, item } = record.place;
  return gaugeOf(record.body, job, job.item(step, item, record.payload.basis.plan));
}

function howFarPast(job: Job, record: Judged): Decimal | null {
  const { margin } = record.verdict;
  if (margin === null || !isA(record, "reading")) return null;
  const limits = limitsOfRecord(job, record);
  const uncertainty = gaugeOfRecord(job, record)?.quotient() ?? null;
  const unit = tolerance(limits) ?? uncertainty?.value() ?? (limits.upper ?? limits.lower ?? ZERO).abs();
  const past = ZERO.minus(margin);
  return unit.isZero() ? past : past.div(unit);
}

/** What is wrong with the gauge, and whether the phone said otherwise. */
function* doubtsOfReading(job: Job, record: Judged): Generator<[FlagKind, string]> {
  if (!isA(record, "reading")) return;
  const gauge = lookedUp(job.gauges, record.body.gauge || "");
  if (gauge) {
    const day = record.payload.at.slice(0, 10);
    if (gauge.due && inOrder(day, gauge.due) > 0) yield [GAUGE_RAN_OUT, `calibrated until ${gauge.due}`];
    const coarse = verdict.tooCoarse(limitsOfRecord(job, record), gaugeOfRecord(job, record));
    if (coarse) yield [GAUGE_COARSE, coarse];
  }
  const foretold = record.body.verdict;
  if (foretold && foretold !== record.verdict.word) yield [DIFFER, `the phone said ${foretold}`];
}

/** What the welder named lacks for a pass, with his name; "" where he is qualified or the shop keeps none at all. */
function lackingQualification(progress: Progress, record: Judged): string {
  const { job } = progress;
  if (!isA(record, "weld") || Object.keys(job.qualifications).length === 0) return "";
  const { welder, procedure, position } = record.body;
  const { piece, step, item } = record.place;
  const { at, basis } = record.payload;
  const process = lookedUp(job.procedures, strip(procedure))?.process ?? "";
  const lacks = lacking(lookedUp(job.qualifications, welder) ?? [], {
    process,
    day: at.slice(0, 10),
    welds: progress.daysWelded(welder, process),
    thickness: job.thickness(piece, step, item, basis),
    position: position || "",
    fillet: Boolean(job.item(step, item, basis.plan)?.fillet),
  });
  return lacks && `${beginning(welder, MOST_NAME)}: ${lacks}`;
}

function* flagsOfSteps(job: Job, own: PieceProgress): Generator<Flag> {
  for (const [code, state] of own.steps) {
    const step = present(job.steps.get(code), `the plan has no step ${code}`);
    for (const item of step.items) yield* flagsOfItem(own, step, item);
    if (state.state === RELEASED || state.state === COMPLETE) yield* entriesAfterRelease(own, code);
  }
}

function* flagsOfItem(own: PieceProgress, step: Step, item: Item): Generator<Flag> {
  const found = present(own.steps.get(step.code)?.items.get(item.code), `step ${step.code} has no item ${item.code}`);
  const ofItem = { piece: own.piece, step: step.code, item: item.code };
  for (const [station, { verdict: judged }] of found.derived) {
    const { word, reason } = judged;
    if (!isAdverse(word) || !BAD.includes(word)) continue;
    const kind = reason.startsWith("readings of") ? DISAGREE : word;
    const place = { ...ofItem, station };
    const newest = own.bench.newestInput(step, item, station);
    const decided = own.standing.strictestOfDerived(place, newest, word);
    const decision = stateOfDecided(decided, own.standing.aboutDerived(place, newest), word);
    yield { kind, record: newest, ...place, ...decision, reason, past: null };
  }
  const photoAlone = found.photoMissing && found.missing.length === 0 && found.inForce.size > 0;
  if (photoAlone && found.state !== MET && found.state !== NOT_ASKED) {
    const record = [...found.inForce.values()].flat().sort(inOrder).at(-1) ?? "";
    const newest = present(own.standing.records.get(record), `there is no record ${record}`);
    const decision = stateOf(own, newest, NO_PHOTO);
    yield { kind: NO_PHOTO, record, ...ofItem, station: "", ...decision, reason: "", past: null };
  }
}

/** Records that no valid release of the step lists; they change nothing, and are shown. */
function* entriesAfterRelease(own: PieceProgress, code: string): Generator<Flag> {
  const signing = own.signing(code);
  const listed = new Set<string>();
  for (const { party, point } of signing.points) {
    if (!["H", "W", "R"].includes(point)) continue;
    for (const signoff of signing.valid(party)) for (const id of signoff.body.covers) listed.add(id);
  }
  const released = signing.points.some(
    ({ party, point }) => ["H", "W", "R"].includes(point) && signing.valid(party).length > 0,
  );
  for (const record of released ? signing.here : []) {
    const unlisted = ON_ITEMS.includes(record.type) && record.place.item && !listed.has(record.id);
    if (unlisted && !record.adverse && own.standing.inForce(record)) {
      yield flagAbout(own, record, AFTER_RELEASE);
    }
  }
}
