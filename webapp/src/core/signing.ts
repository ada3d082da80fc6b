/** Whether a sign-off is valid: by whom, over what, in which order, and whether anything since has shaken it. */

import { inputsOf, textOfKey } from "./inputs";
import { Bench, byId, MET, NOT_ASKED, ON_ITEMS } from "./items";
import { type Job, REQUIRED, type Step } from "./job";
import { isA, type Judged } from "./judging";
import { inInk, type Point } from "./records";
import { ASKS_NEW, aboutFinding, Standing } from "./standing";

export const VALID = "valid";
export const VOIDED = "void";
export const NOT_HELD = "role not held";
export const TO_CONFIRM = "role to be confirmed";
export const CHANGED = "plan changed";
export const AGAIN = "asked again";
export const WAITING = "waiting for records";
export const OUT_OF_ORDER = "out of order";
export const OWN_WORK = "own work";
export const NO_PAGE = "no photo of the page";
export const NO_NOTICE = "no notice was given";
export const ATTENDANCE = "must be present";
export const NOT_MET = "step was not met";
export const SHAKEN = "shaken";

export type Reason =
  | typeof VALID
  | typeof VOIDED
  | typeof NOT_HELD
  | typeof TO_CONFIRM
  | typeof CHANGED
  | typeof AGAIN
  | typeof WAITING
  | typeof OUT_OF_ORDER
  | typeof OWN_WORK
  | typeof NO_PAGE
  | typeof NO_NOTICE
  | typeof ATTENDANCE
  | typeof NOT_MET
  | typeof SHAKEN;

const STRICTNESS = ["S", "R", "W", "H", "sign"];

type SignOff = Judged<"sign-off">;
type Ids = ReadonlySet<string>;

/** The ids of all records of a job that are here. */
export interface Arrived {
  has(id: string): boolean;
}

/**
 * The sign-offs at one step of one piece. records: all of that piece; standing: over all of them.
 *
 * everywhere: the points set for the whole job.
 */
export class Signing {
  private readonly byId: ReadonlyMap<string, Judged>;
  readonly here: readonly Judged[];
  readonly calls: readonly Judged<"call">[];
  /** The points a party set for this piece or the whole job. */
  readonly setPoints: readonly Judged<"point">[];
  readonly points: readonly Point[];
  /** The items the step's derived items are worked out from, as texts. */
  private readonly inputs: Ids;
  private readonly stepsUsed: Ids;
  /** The records that meet the step's items or go into them. */
  readonly onItems: readonly Judged[];
  /** Why each sign-off is valid or not, by its id. */
  readonly reasons = new Map<string, Reason>();

  constructor(
    readonly piece: string,
    readonly step: Step,
    private readonly records: readonly Judged[],
    private readonly standing: Standing,
    private readonly job: Job,
    private readonly arrived: Arrived,
    everywhere: readonly Judged<"point">[] = [],
  ) {
    this.byId = new Map(records.map((record) => [record.id, record]));
    this.here = records.filter((r) => r.place.piece === piece && r.place.step === step.code);
    const standingHere = this.here.filter((record) => !standing.voids.has(record.id));
    this.calls = standingHere.filter((record) => isA(record, "call"));
    const own = standingHere.filter((record) => isA(record, "point")).filter((record) => record.role === "held");
    const wide = everywhere.filter((r) => r.place.piece !== piece && r.place.step === step.code);
    this.setPoints = [...own, ...wide];
    this.points = pointsOf(step, this.setPoints);
    const inputs = step.items.flatMap((item) => inputsOf(step, item, job));
    const used = [...inputs, ...step.items.map((item) => ({ step: step.code, item: item.code }))];
    this.inputs = new Set(inputs.map(textOfKey));
    this.stepsUsed = new Set([step.code, ...used.map((key) => key.step)]);
    const usedKeys = new Set(used.map(textOfKey));
    this.onItems = records.filter((r) => ON_ITEMS.includes(r.type) && usedKeys.has(textOfKey(r.place)));
    for (const [index, point] of this.points.entries()) {
      for (const signoff of this.ofParty(point.party)) {
        this.reasons.set(signoff.id, this.reason(signoff, point, index));
      }
    }
  }

  /** The sign-offs for a party, in the order of their ids. */
  ofParty(party: string): SignOff[] {
    return this.here
      .filter((record) => isA(record, "sign-off"))
      .filter((record) => record.body.party === party)
      .sort(byId);
  }

  /** The valid sign-offs for a party. */
  valid(party: string): SignOff[] {
    return this.ofParty(party).filter((record) => this.reasons.get(record.id) === VALID);
  }

  /** The calls of a party to this step. */
  callsTo(party: string): Judged<"call">[] {
    return this.calls.filter((call) => call.body.party === party);
  }

  /** The points that still want a valid sign-off before the step is released, in order. */
  outstanding(): Point[] {
    return this.points.filter((p) => REQUIRED.includes(p.point) && this.valid(p.party).length === 0);
  }

  /** The points at which nothing may go on: holds not released, witness points of which no notice was given. */
  holding(): Point[] {
    return this.outstanding().filter((p) => p.point === "H" || (p.point === "W" && this.callsTo(p.party).length === 0));
  }

  private reason(signoff: SignOff, point: Point, index: number): Reason {
    if (this.standing.voids.has(signoff.id)) return VOIDED;
    if (signoff.role !== "held") return signoff.role === "changed" ? TO_CONFIRM : NOT_HELD;
    const { plan, figures } = signoff.payload.basis;
    if (!this.job.stepStillAsked(this.piece, this.step.code, { plan, figures })) return CHANGED;
    if (this.standing.askedAgain(signoff)) return AGAIN;
    const covers = new Set(signoff.body.covers);
    if ([...covers].some((id) => !this.byId.has(id))) return WAITING;
    if (!this.inOrder(signoff, index)) {
      return under(signoff).every((id) => this.arrived.has(id)) ? OUT_OF_ORDER : WAITING;
    }
    const lacks = inInk(signoff.body) ? this.lackingInInk(signoff, covers) : null;
    if (lacks) return lacks;
    if ((signoff.body.attendance || "present") !== "present" && point.point !== "W") return ATTENDANCE;
    if (point.point === "sign") return this.sentBack(signoff) ? AGAIN : VALID;
    return this.reasonOfRelease(signoff, point, covers);
  }

  /** Whether the parties before have signed, as this sign-off itself names them, or for a witness were called. */
  private inOrder(signoff: SignOff, index: number): boolean {
    const known = knownTo(signoff);
    return this.points.slice(0, index).every((point) => {
      if (!REQUIRED.includes(point.point)) return true;
      const called = point.point === "W" ? this.callsTo(point.party) : [];
      return [...this.valid(point.party), ...called].some((earlier) => known.has(earlier.id));
    });
  }

  private reasonOfRelease(signoff: SignOff, point: Point, covers: Ids): Reason {
    if (point.not_maker && this.makers(knownTo(signoff)).has(signoff.payload.by)) return OWN_WORK;
    if (signoff.body.attendance === "not attended after notice" && !this.called(signoff)) return NO_NOTICE;
    if (!this.metOver(covers)) return NOT_MET;
    return this.shaken(signoff, covers) ? SHAKEN : VALID;
  }

  /**
   * What a signature in ink lacks: who made the work may not enter it, and it covers the photo of its page.
   *
   * The photo counts as it stands among what is covered: what comes later can shake the sign-off, and not mend it.
   */
  private lackingInInk(signoff: SignOff, covers: Ids): Reason | null {
    if (this.makers(knownTo(signoff)).has(signoff.payload.by)) return OWN_WORK;
    const standing = this.standingOver(covers);
    const pages = this.here.filter((record) => isA(record, "photo")).filter((record) => covers.has(record.id));
    const shown = pages.some((page) => page.body.sha256 === signoff.body.page && standing.inForce(page));
    return shown ? null : NO_PAGE;
  }

  /**
   * Who did the work: of a pass the welder named, who need not be who logged it. What was made void counts all the same
   * for a sign-off that does not list the void.
   */
  private makers(known: Ids): Ids {
    const work = this.here.filter(
      (record) => isA(record, "weld") || (isA(record, "sign-off") && record.body.party === "maker"),
    );
    const counts = (record: Judged) => !this.standing.voids.get(record.id)?.some((one) => known.has(one.id));
    return new Set(work.filter(counts).map((record) => (isA(record, "weld") ? record.body.welder : record.payload.by)));
  }

  private called(signoff: SignOff): boolean {
    return this.callsTo(signoff.body.party).some((call) => call.id === signoff.body.call);
  }

  /** Whether the step is met by some records alone, with the voids and dispositions that are among them. */
  private metOver(covers: Ids): boolean {
    const standing = this.standingOver(covers);
    const bench = new Bench(this.piece, standing.records.values(), standing, this.job);
    const states = this.step.items.map((item) => bench.item(this.step, item).state);
    return states.every((state) => state === MET || state === NOT_ASKED);
  }

  private standingOver(covers: Ids): Standing {
    return new Standing(
      this.records.filter((record) => covers.has(record.id)),
      this.job,
      this.standing,
    );
  }

  /**
   * Whether anything it does not list is adverse.
   *
   * What was adverse stays so when it is made void or replaced later: a release never comes back by itself.
   */
  private shaken(signoff: SignOff, covers: Ids): boolean {
    const late = this.onItems.filter((record) => !covers.has(record.id));
    if (late.some((record) => !record.good || this.standing.replacesOneOf(record, covers))) return true;
    const pages = this.here.filter((record) => record.type === "photo" && !covers.has(record.id));
    if (pages.some((page) => this.standing.replacesOneOf(page, covers))) return true;
    const madeVoid = [...covers].flatMap((id) => this.standing.voids.get(id) ?? []);
    if (madeVoid.some((record) => !covers.has(record.id))) return true;
    if (this.decided().some((d) => !covers.has(d.id) && this.undoes(d, covers, under(signoff)))) return true;
    const inputs = late.filter((record) => record.type === "reading" && this.inputs.has(textOfKey(record.place)));
    const ids = inputs.map((record) => record.id);
    const together = ids.length > 0 ? [ids] : [];
    return [...ids.map((id) => [id]), ...together].some((some) => !this.metOver(new Set([...covers, ...some])));
  }

  /**
   * Whether a disposition a release does not list decides about it: about what it covers or, where it asks for new
   * records or scraps, about anything on the step's items, or asks again for a step it rests upon.
   */
  private undoes(disposition: Judged<"disposition">, covers: Ids, named: readonly string[]): boolean {
    const { about, again } = disposition.body;
    const strict = disposition.body.disposition !== "use as is";
    if (!strict && !aboutFinding(disposition)) return false;
    if (about.records.some((id) => covers.has(id))) return true;
    if (strict && this.onItems.some((record) => about.records.includes(record.id))) return true;
    return !named.includes(disposition.id) && this.asksAgain(again);
  }

  /** Whether rework or repair was asked at this step of which the maker's sign-off does not know. */
  private sentBack(signoff: SignOff): boolean {
    const known = knownTo(signoff);
    const asked = this.decided().filter((d) => ASKS_NEW.includes(d.body.disposition) && !known.has(d.id));
    return asked.some(
      ({ body }) =>
        this.here.some((record) => body.about.records.includes(record.id)) ||
        (body.again ?? []).includes(this.step.code),
    );
  }

  /** Dispositions by who may make them, made void or not. */
  decided(): Judged<"disposition">[] {
    return this.records.filter((record) => isA(record, "disposition")).filter((d) => this.standing.decides(d));
  }

  /** Whether a disposition is about any of the records, or asks for this step again. */
  speaksOf(disposition: Judged<"disposition">, records: Ids): boolean {
    const { about, again } = disposition.body;
    return about.records.some((id) => records.has(id)) || this.asksAgain(again);
  }

  /** Whether one of the steps this one rests upon is among those asked again. */
  private asksAgain(again: readonly string[] | null | undefined): boolean {
    return (again ?? []).some((code) => this.stepsUsed.has(code));
  }
}

/** What a record says it relies on. */
export function under(record: Judged): readonly string[] {
  return record.payload.under ?? [];
}

/** The plan's points with those a party added for this piece; of two for one party the stricter counts. */
function pointsOf(step: Step, added: readonly Judged<"point">[]): Point[] {
  const points = new Map<string, Point>();
  const extra = [...added].sort(byId).map((record): Point => ({ party: record.body.party, point: record.body.point }));
  for (const point of [...step.points, ...extra]) {
    const before = points.get(point.party);
    if (!before || STRICTNESS.indexOf(point.point) > STRICTNESS.indexOf(before.point)) {
      points.set(point.party, { ...before, ...point });
    }
  }
  return [...points.values()];
}

function knownTo(signoff: SignOff): Ids {
  return new Set([...signoff.body.covers, ...under(signoff)]);
}
