/** Which records are in force: voids, replacements and dispositions over a set of records, in any order. */

import { inputsOf, isAt } from "./inputs";
import { added, type Job, lookedUp } from "./job";
import { ADVERSE, isA, type Judged, type JudgedWord, type Place, WORSE } from "./judging";
import { DISPOSITIONS, type Kind } from "./records";
import { inOrder } from "./text";

export const IN_FORCE = "in force";
export const VOID = "void";
export const REPLACED = "replaced";
export const CHANGED = "plan changed";
export const ASKED_AGAIN = "asked again";

export type StandingWord = typeof IN_FORCE | typeof VOID | typeof REPLACED | typeof CHANGED | typeof ASKED_AGAIN;

export const ASKS_NEW: readonly string[] = ["rework", "repair"];
export const DISAGREE = "readings disagree";
/** Kinds of flag about what was found; all others are doubts about how it was found, by whom or by which way it came. */
export const FINDINGS: readonly string[] = [...ADVERSE, DISAGREE];

/**
 * The standing of each record of a set. The set may be all that is known, or only what a sign-off covers.
 *
 * whole: the standing over all that is known, where the set is a part of it.
 */
export class Standing {
  readonly records: ReadonlyMap<string, Judged>;
  private readonly known: ReadonlyMap<string, Judged>;
  private readonly knownVoids: ReadonlyMap<string, unknown>;
  /** What makes a record void, by the record's id. */
  readonly voids = new Map<string, Judged<"void">[]>();
  readonly agreements: readonly Judged<"agreement">[];
  readonly dispositions: readonly Judged<"disposition">[];
  readonly about = new Map<string, Judged<"disposition">[]>();
  readonly replacedBy = new Map<string, Judged[]>();

  constructor(
    records: Iterable<Judged>,
    readonly job: Job,
    whole?: Standing,
  ) {
    this.records = new Map(Array.from(records, (record) => [record.id, record]));
    this.known = whole?.records ?? this.records;
    const all = [...this.records.values()];
    for (const record of all) {
      if (isA(record, "void") && this.mayVoid(record)) added(this.voids, record.body.record, record);
    }
    this.knownVoids = whole?.voids ?? this.voids;
    this.agreements = this.effective("agreement").filter((record) => record.role === "held");
    this.dispositions = this.effective("disposition").filter((record) => this.decides(record));
    for (const disposition of this.dispositions) {
      if (disposition.body.disposition === "use as is" && this.speaksOfDerived(disposition)) continue;
      for (const id of disposition.body.about.records) added(this.about, id, disposition);
    }
    for (const record of all) {
      const { replaces } = record.payload;
      if (replaces && !this.voids.has(record.id) && this.mayReplace(record)) added(this.replacedBy, replaces, record);
    }
  }

  private effective<K extends Kind>(kind: K): Judged<K>[] {
    return [...this.records.values()]
      .filter((record): record is Judged<K> => isA(record, kind))
      .filter((record) => !this.voids.has(record.id));
  }

  /**
   * Whether a disposition has effect: by who holds the role, and not about a finding of their own where the plan says
   * that this has none.
   */
  decides(disposition: Judged<"disposition">): boolean {
    return disposition.role === "held" && !this.ofOwnFinding(disposition);
  }

  /**
   * Whether who recorded what a disposition is about made it, or welded at its step, against the plan revision it names
   * or the one in force: by naming an older one nobody gets round the rule.
   */
  ofOwnFinding({ body, payload, place }: Judged<"disposition">): boolean {
    return this.isOwn(payload.by, body.about.records, place, payload.basis.plan);
  }

  /** Whether a word of a person would be about an own finding: the records, the place and the plan that it names. */
  isOwn(person: string, records: readonly string[], place: Place, plan: string): boolean {
    const asking = lookedUp(this.job.data.plans, plan) ?? this.job.plan;
    if (!asking.not_recorder && !this.job.plan.not_recorder) return false;
    const named = records.flatMap((id) => this.known.get(id) ?? []);
    const about = [...named, ...this.workedFrom(place)];
    if (about.some((one) => one.payload.by === person)) return true;
    const there = (one: Judged) =>
      about.some((other) => other.place.piece === one.place.piece && other.place.step === one.place.step);
    return [...this.known.values()].some((one) => isA(one, "weld") && one.body.welder === person && there(one));
  }

  /** The readings that a value worked out rests upon, where a place is that of one. */
  private workedFrom({ piece, step, item, station }: Place): Judged[] {
    const [inStep, asked] = [this.job.steps.get(step), this.job.item(step, item)];
    if (!inStep || asked?.kind !== "derived") return [];
    const keys = inputsOf(inStep, asked, this.job);
    return [...this.known.values()].filter(
      ({ id, type, place }) =>
        type === "reading" &&
        place.piece === piece &&
        keys.some((key) => key.step === place.step && key.item === place.item) &&
        isAt(place.station, station) &&
        !this.knownVoids.has(id),
    );
  }

  /** Its maker or a supervisor makes a record void; a void itself is final. */
  private mayVoid(record: Judged<"void">): boolean {
    const target = this.records.get(record.body.record);
    if (!target || target.type === "void") return false;
    return record.payload.by === target.payload.by || record.role === "held";
  }

  /** The same person replaces, or anybody whom a disposition asks; both at the same place of the same piece. */
  mayReplace(record: Judged): boolean {
    const target = this.records.get(record.payload.replaces || "");
    if (!target || target.type !== record.type || !samePlace(target.place, record.place)) return false;
    const asked = this.about.get(target.id)?.some((d) => ASKS_NEW.includes(d.body.disposition)) ?? false;
    return record.payload.by === target.payload.by || asked;
  }

  /** Whether a record replaces one of others. */
  replacesOneOf(record: Judged, others: ReadonlySet<string>): boolean {
    return others.has(record.payload.replaces || "") && this.mayReplace(record);
  }

  /** The standing of a record. */
  of(record: Judged): StandingWord {
    if (this.voids.has(record.id)) return VOID;
    if (this.replacedBy.has(record.id)) return REPLACED;
    if (!record.current) return CHANGED;
    return this.askedAgain(record) ? ASKED_AGAIN : IN_FORCE;
  }

  /** Whether a record counts. */
  inForce(record: Judged): boolean {
    return this.of(record) === IN_FORCE;
  }

  /** Whether a rework or repair names the record's step and the record does not say that it came after it. */
  askedAgain(record: Judged): boolean {
    const { piece, step } = record.place;
    const under = record.payload.under ?? [];
    return this.dispositions.some(
      (d) =>
        ASKS_NEW.includes(d.body.disposition) &&
        (d.body.again ?? []).includes(step) &&
        d.payload.piece === piece &&
        !under.includes(d.id),
    );
  }

  /**
   * The dispositions about a record or, where a kind of doubt is named, about that alone. A 'use as is' about a doubt
   * says nothing of the record's verdict; what asks for a new record or scraps does.
   */
  speaking(recordId: string, doubt = ""): Judged<"disposition">[] {
    const about = this.about.get(recordId) ?? [];
    if (doubt) return about.filter(({ body }) => body.about.flag === doubt);
    return about.filter(({ body }) => body.disposition !== "use as is" || ADVERSE.has(body.about.flag));
  }

  /** The disposition that stands about a record, or a kind of doubt about it: the strictest of those that have effect. */
  strictest(recordId: string, doubt = ""): Judged<"disposition"> | null {
    const found = this.speaking(recordId, doubt).filter((d) => this.hasEffect(d, recordId));
    return found.sort(byStrictness).at(-1) ?? null;
  }

  private hasEffect(disposition: Judged<"disposition">, recordId: string): boolean {
    if (disposition.body.disposition !== "use as is" || !aboutFinding(disposition)) return true;
    const record = this.records.get(recordId);
    if (!record) return false;
    return !lapsed(disposition, record.verdict.word) && this.lackingAgreement(disposition, record.place).length === 0;
  }

  /** The parties that must still agree to a 'use as is', by what the limit of the item at the place binds by. */
  lackingAgreement(disposition: Judged<"disposition">, place: Place): string[] {
    const asked = this.job.item(place.step, place.item);
    const needed = lookedUp(this.job.plan.agree ?? {}, asked?.binds || "shop") ?? [];
    const given = this.agreements.filter((a) => a.body.disposition === disposition.id).map((a) => a.body.party);
    return needed.filter((party) => !given.some((one) => one === party));
  }

  /** Good by itself and not disposed otherwise, or covered by a 'use as is' that has effect. */
  accepted(record: Judged): boolean {
    const disposition = this.strictest(record.id);
    return disposition ? disposition.body.disposition === "use as is" : record.good;
  }

  /** Whether a disposition is about a value worked out: its own step and item name a derived item. */
  private speaksOfDerived({ place }: Judged): boolean {
    return place.item !== "" && this.job.item(place.step, place.item)?.kind === "derived";
  }

  /** The dispositions about a value worked out; they name the newest reading it was worked out from. */
  aboutDerived(place: Place, newest: string): Judged<"disposition">[] {
    return this.dispositions.filter(
      (d) =>
        samePlace(d.place, place) &&
        d.body.about.records.includes(newest) &&
        (d.body.disposition !== "use as is" || aboutFinding(d)),
    );
  }

  /** The disposition that stands about a value worked out, as strictest() is about a record. */
  strictestOfDerived(place: Place, newest: string, word: JudgedWord): Judged<"disposition"> | null {
    const found = this.aboutDerived(place, newest).filter(
      (d) => d.body.disposition !== "use as is" || !(lapsed(d, word) || this.lackingAgreement(d, place).length > 0),
    );
    return found.sort(byStrictness).at(-1) ?? null;
  }
}

/**
 * Whether a disposition is about a finding, and not about a doubt: of one that is seen no limit is given away, so nobody
 * has to agree and no release is touched.
 */
export function aboutFinding(disposition: Judged<"disposition">): boolean {
  return FINDINGS.includes(disposition.body.about.flag);
}

/** Whether the verdict has become worse than the one the disposition was made upon. */
export function lapsed(disposition: Judged<"disposition">, word: JudgedWord): boolean {
  const seen = disposition.body.about.verdict;
  return typeof seen === "string" && WORSE[word] > (lookedUp(WORSE, seen) ?? 0);
}

function byStrictness(one: Judged<"disposition">, other: Judged<"disposition">): number {
  const difference = DISPOSITIONS.indexOf(one.body.disposition) - DISPOSITIONS.indexOf(other.body.disposition);
  return difference || inOrder(one.id, other.id);
}

function samePlace(a: Place, b: Place): boolean {
  return a.piece === b.piece && a.step === b.step && a.item === b.item && a.station === b.station;
}
