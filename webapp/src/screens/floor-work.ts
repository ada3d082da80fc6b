/**
 * What waits for one person, over all jobs, in one pass: rework and repair, calls, steps, notes, agreements.
 *
 * Worked out piece by piece, and kept for each piece until a record changes it.
 */
import { ON_ITEMS } from "../core/items";
import type { Step } from "../core/job";
import { isA, type Judged, type Place } from "../core/judging";
import type { PieceProgress, StepState } from "../core/progress";
import { type Agreeing, type Party, ROLES } from "../core/records";
import { inOrder } from "../core/text";
import type { OpenJob } from "../store/jobs";
import { drawn, inSlices, isWaitedFor, quiet } from "../store/turns";

export interface Who {
  readonly person: string;
  readonly roles: readonly string[];
}

/** A piece of a job, as a line names it. */
export interface Where {
  readonly job: string;
  readonly piece: string;
  readonly mark: string;
  readonly name: string;
}

/** A step of a piece. */
export interface AtStep extends Where {
  readonly step: string;
  readonly stepName: string;
}

/** Rework or repair not done yet. item: '' where the whole step is asked again. photo: of what was found, or ''. */
export interface Rework extends AtStep {
  readonly key: string;
  readonly item: string;
  readonly itemName: string;
  readonly station: string;
  readonly disposition: "rework" | "repair";
  readonly reason: string;
  readonly ncr: string;
  readonly photo: string;
}

/** A step that is next in turn, or begun by this very person. */
export interface Turn extends AtStep {
  readonly state: StepState["state"];
  readonly met: number;
  readonly asked: number;
}

/** A party called to a point that it has not signed. answer: '' where none is here yet. */
export interface Called extends AtStep {
  readonly party: string;
  readonly when: string;
  readonly answer: string;
}

export interface PassedOnNote extends Where {
  readonly id: string;
  readonly text: string;
  readonly by: string;
  readonly at: string;
}

/** A 'use as is' that waits for an agreement. */
export interface Asked {
  readonly job: OpenJob;
  readonly disposition: Judged<"disposition">;
  readonly place: Place;
}

export interface Floor {
  readonly rework: Rework[];
  readonly ready: Turn[];
  readonly begun: Turn[];
  readonly calls: Called[];
  readonly notes: PassedOnNote[];
  readonly asked: Asked[];
}

const OUTSIDE: readonly string[] = ["AI", "customer"];
const AGREEING = ["engineering", "AI", "customer"] as const;
const PARTIES: readonly Party[] = ["maker", "QC", "AI", "customer"];
/** Ready to sign comes before what others have begun, and that before what nobody has. */
const RANK: Readonly<Record<string, number>> = { complete: 0, started: 1, open: 2 };

function none(): Floor {
  return { rework: [], ready: [], begun: [], calls: [], notes: [], asked: [] };
}

/** The parties whose word a person may give. */
export function agreeingParties(roles: readonly string[]): Agreeing[] {
  return AGREEING.filter((party) => ROLES[party].some((role) => roles.includes(role)));
}

interface Kept<T> {
  readonly asked: string;
  readonly found: T;
}

const ofPieces = new WeakMap<PieceProgress, Kept<Floor>>();
const ofJobs = new WeakMap<OpenJob, Kept<Floor>>();

/**
 * What waits for one person. Yields after each piece that had to be worked out, so that the one who asks can let the
 * screen be drawn meanwhile.
 */
export function* floorWork(jobs: readonly OpenJob[], who: Who): Generator<void, Floor> {
  const all = none();
  for (const job of jobs) add(all, yield* jobFloor(job, who));
  all.ready.sort((a, b) => (RANK[a.state] ?? 3) - (RANK[b.state] ?? 3));
  all.calls.sort((a, b) => inOrder(a.when, b.when));
  all.rework.sort((a, b) => inOrder(a.key, b.key));
  all.notes.sort((a, b) => inOrder(b.id, a.id));
  return all;
}

function add(to: Floor, found: Floor): void {
  to.rework.push(...found.rework);
  to.ready.push(...found.ready);
  to.begun.push(...found.begun);
  to.calls.push(...found.calls);
  to.notes.push(...found.notes);
  to.asked.push(...found.asked);
}

/** Of one job; the same answer until it has another record, or somebody else asks. */
function* jobFloor(job: OpenJob, who: Who): Generator<void, Floor> {
  const person = JSON.stringify([who.person, who.roles]);
  const asked = `${person} ${job.progress.records.size}`;
  const kept = ofJobs.get(job);
  if (kept?.asked === asked) return kept.found;
  const found = none();
  for (const piece of job.progress.job.pieces.keys()) {
    const own = job.progress.piece(piece);
    const known = ofPieces.get(own);
    const here = known?.asked === person ? known.found : pieceFloor(job, own, who);
    if (here !== known?.found) {
      ofPieces.set(own, { asked: person, found: here });
      yield;
    }
    add(found, { ...here, ...withoutStopped(job, here) });
  }
  // A record that came meanwhile may have been missed.
  if (asked === `${person} ${job.progress.records.size}`) ofJobs.set(job, { asked, found });
  return found;
}

/** Of the steps in turn those that nothing stops: all that are ready to sign, and the first of the others. */
function withoutStopped({ progress }: OpenJob, { ready, begun }: Floor): Pick<Floor, "ready" | "begun"> {
  if (ready.length === 0 && begun.length === 0) return { ready, begun };
  const free = (turn: Turn) => progress.blocked(turn.piece, turn.step).length === 0;
  const first = ready.find((turn) => turn.state !== "complete" && free(turn));
  return {
    ready: ready.filter((turn) => (turn.state === "complete" ? free(turn) : turn === first)),
    begun: begun.filter(free),
  };
}

/** Of one piece by its own records alone. */
function pieceFloor(job: OpenJob, own: PieceProgress, who: Who): Floor {
  const found = none();
  const piece = job.progress.job.pieces.get(own.piece);
  if (!piece) return found;
  const where: Where = { job: job.id, piece: piece.id, mark: piece.mark, name: piece.name || piece.kind };
  const parties = PARTIES.filter((party) => ROLES[party].some((role) => who.roles.includes(role)));
  for (const note of own.passedOn) {
    found.notes.push({ ...where, id: note.id, text: note.body.text, by: note.payload.by, at: note.payload.at });
  }
  if (parties.includes("maker") || parties.includes("QC")) found.rework.push(...reworkOf(job, own, where, who));
  const again = new Set(found.rework.map((one) => one.step));
  for (const [code, state] of own.steps) {
    const step = job.progress.job.steps.get(code);
    if (!step || state.state === "released") continue;
    const at: AtStep = { ...where, step: code, stepName: `${step.number} ${step.name ?? ""}` };
    found.calls.push(...callsAt(own, at, parties));
    if (again.has(code)) continue;
    const mine = turnOf(own, step, state, parties, who);
    if (mine) found[mine].push({ ...at, state: state.state, ...counted(state) });
  }
  found.asked.push(...askedOf(job, own, agreeingParties(who.roles)));
  return found;
}

function counted(state: StepState): { met: number; asked: number } {
  const asked = [...state.items.values()].filter((item) => item.state !== "not asked");
  return { met: asked.filter((item) => item.state === "met").length, asked: asked.length };
}

/** Whether a step was begun by this person and not finished, or is next in turn for one of the parties. */
function turnOf(
  own: PieceProgress,
  step: Step,
  { state, waiting }: StepState,
  parties: readonly string[],
  who: Who,
): "begun" | "ready" | null {
  if (state === "started" || state === "flagged") {
    const here = own.signing(step.code).here;
    if (here.some((one) => one.payload.by === who.person && ON_ITEMS.includes(one.type))) return "begun";
  }
  const next = waiting[0] ?? "";
  if (state === "flagged" || !parties.includes(next)) return null;
  if (next === "maker" && !ofTrade(step, who)) return null;
  return state === "complete" || !OUTSIDE.includes(next) ? "ready" : null;
}

/** Whether a maker's point of the step asks a trade of this person, or no certain one. */
function ofTrade(step: Step, who: Who): boolean {
  const trades = step.points.flatMap((point) => (point.party === "maker" && point.trade ? [point.trade] : []));
  return trades.length === 0 || trades.some((trade) => who.roles.includes(trade));
}

/** Whom was called to what is not signed yet: all of them for the shop, who called; else the party itself. */
function callsAt(own: PieceProgress, at: AtStep, parties: readonly string[]): Called[] {
  const signing = own.signing(at.step);
  const wanted = signing.calls.length > 0 ? signing.outstanding() : [];
  return wanted.flatMap(({ party }) => {
    if (!OUTSIDE.includes(party) || !(parties.includes("QC") || parties.includes(party))) return [];
    const calls = [...signing.callsTo(party)].sort((a, b) => inOrder(a.id, b.id));
    if (calls.length === 0) return [];
    // A call anew asks anew: an answer to the one before says nothing about it.
    const answer = calls.at(-1)?.body.answer ?? "";
    const asked = calls.filter((call) => !call.body.answer).at(-1);
    return [{ ...at, party, when: asked?.body.when ?? "", answer }];
  });
}

/** Rework and repair that was decided and not carried out, at steps that are this person's to do or to look at. */
function reworkOf(job: OpenJob, own: PieceProgress, where: Where, who: Who): Rework[] {
  const found: Rework[] = [];
  for (const disposition of own.standing.dispositions) {
    const { disposition: word, about, again, reason, ncr } = disposition.body;
    if (word !== "rework" && word !== "repair") continue;
    const said = { disposition: word, reason, ncr: ncr ?? "" } as const;
    const open = about.records.flatMap((id) => {
      const record = own.standing.records.get(id);
      const stands = own.standing.strictest(id)?.id === disposition.id && !own.standing.voids.has(id);
      return record && stands && !own.standing.replacedBy.has(id) ? [record] : [];
    });
    for (const record of open) {
      const step = job.progress.job.steps.get(record.place.step);
      if (!step || !isTheirs(own, step, record, who)) continue;
      const { item, station } = record.place;
      const itemName = job.progress.job.item(step.code, item)?.name ?? item;
      const at = { ...where, step: step.code, stepName: `${step.number} ${step.name ?? ""}`, item, itemName, station };
      found.push({ ...at, ...said, key: `${disposition.id} ${record.id}`, photo: photoOf(own, record, disposition) });
    }
    for (const code of again ?? []) {
      const step = job.progress.job.steps.get(code);
      const state = own.steps.get(code)?.state;
      const done = state === undefined || state === "complete" || state === "released";
      if (!step || done || open.some((one) => one.place.step === code) || !isTheirs(own, step, null, who)) continue;
      const at = { ...where, step: code, stepName: `${step.number} ${step.name ?? ""}` };
      found.push({ ...at, ...said, item: "", itemName: "", station: "", key: `${disposition.id} ${code}`, photo: "" });
    }
  }
  return found;
}

function isTheirs(own: PieceProgress, step: Step, record: Judged | null, who: Who): boolean {
  if (ROLES.QC.some((role) => who.roles.includes(role)) || record?.payload.by === who.person) return true;
  const welded = own.signing(step.code).here.some((one) => one.type === "weld" && one.payload.by === who.person);
  return welded || ofTrade(step, who);
}

/** The last photo made at the place of a finding before it was decided about. */
function photoOf(own: PieceProgress, record: Judged, disposition: Judged<"disposition">): string {
  const { step, item, station } = record.place;
  const here = own.records
    .filter((one) => isA(one, "photo"))
    .filter(({ place }) => place.step === step && place.item === item && (!place.station || place.station === station));
  const valid = here.filter((one) => !own.standing.voids.has(one.id));
  // Ids are in the order of the phones' clocks, and one of them may be wrong: then the first photo there.
  const before = valid.filter((one) => one.id < disposition.id);
  return (before.at(-1) ?? valid[0])?.body.sha256 ?? "";
}

/** The 'use as is' of a piece that wait for one of the parties. */
export function askedOf(job: OpenJob, own: PieceProgress, parties: readonly Agreeing[]): Asked[] {
  if (parties.length === 0) return [];
  return own.standing.dispositions.flatMap((disposition) => {
    if (disposition.body.disposition !== "use as is") return [];
    const about = disposition.body.about.records.map((id) => own.standing.records.get(id)?.place);
    const place = disposition.place.item ? disposition.place : (about.find(Boolean) ?? disposition.place);
    const lacking = own.standing.lackingAgreement(disposition, place);
    return parties.some((party) => lacking.includes(party)) ? [{ job, disposition, place }] : [];
  });
}

/** All of it at once. */
export function floorNow(jobs: readonly OpenJob[], who: Who): Floor {
  const work = floorWork(jobs, who);
  for (;;) {
    const turn = work.next();
    if (turn.done) return turn.value;
  }
}

/** The same in slices of some milliseconds, between which the screen is drawn and answers; empty once it is not wanted. */
export async function floorInSlices(
  jobs: readonly OpenJob[],
  who: Who,
  isWanted: () => boolean = () => true,
): Promise<Floor> {
  const work = floorWork(jobs, who);
  let floor = none();
  function* turns(): Generator<void> {
    floor = yield* work;
  }
  const done = await inSlices(turns(), () => {}, quietly, isWanted);
  return done ? floor : none();
}

/** The screen is drawn, and who waits for something else goes first. */
async function quietly(): Promise<void> {
  await drawn();
  if (isWaitedFor()) await quiet();
}
