/** A job as the core sees it: plans by their hash, figures by their number, pieces, and what stands before what. */

import { FormulaError, type Names, type Table, type Tree, walk, workOut } from "./formula";
import { type Figures, figuresOf, type Limit, type Limits, limitsOf, notKnown } from "./limits";
import { type Decimal, textOf } from "./numbers";
import type { Procedure } from "./procedures";
import type { Qualification } from "./qualifications";
import type { Basis, Point } from "./records";

export const REQUIRED: readonly string[] = ["sign", "H", "W", "R"];
export const HOLDING: readonly string[] = ["H", "W"];

/** A condition or a formula of a plan. */
export interface Formula {
  readonly tree: Tree;
  readonly text?: string;
}

/** Where an item is asked: at named stations, or at no fewer than so many. */
export interface Stations {
  readonly style?: string;
  readonly names?: readonly string[] | null;
  readonly least?: number | null;
  readonly word?: string;
  readonly seen_from?: string;
}

/** One thing to record. */
export interface Item {
  readonly code: string;
  readonly kind: "visual" | "measure" | "derived" | "photo" | "weld" | "report" | "text";
  readonly name?: string;
  readonly uom?: string | null;
  readonly lower?: Limit | null;
  readonly upper?: Limit | null;
  readonly only_if?: Formula | null;
  readonly formula?: Formula | null;
  readonly rule?: string | null;
  readonly place?: string | null;
  readonly binds?: string | null;
  readonly photo?: string | null;
  readonly may_not_apply?: boolean | null;
  readonly stations?: Stations | null;
  readonly where?: string;
  readonly note?: string;
  readonly gauge?: string;
  readonly source?: string;
  /** Of a weld: thickness of the weld metal in inches, and whether it is a fillet. */
  readonly thickness?: Formula | null;
  readonly fillet?: boolean | null;
}

/** Steps that must be released before a step begins: of this piece, of those it joins, of its parts, of kinds, of all. */
export interface BeforeRule {
  readonly steps: readonly string[] | "earlier";
  readonly of: "piece" | "joins" | "parts" | "kinds" | "job";
  readonly kinds?: readonly string[];
  readonly for?: readonly string[];
}

/** A step of a plan. */
export interface Step {
  readonly code: string;
  readonly number: string;
  readonly stage: string;
  readonly name?: string;
  readonly kinds: readonly string[];
  readonly points: readonly Point[];
  readonly items: readonly Item[];
  readonly reach?: string;
  readonly not_before?: readonly BeforeRule[];
  readonly note?: string;
  readonly cautions?: readonly string[];
}

/** A published revision of a plan. */
export interface Plan {
  readonly stages: readonly { readonly number: string; readonly name?: string }[];
  readonly steps: readonly Step[];
  readonly tables?: Readonly<Record<string, Table>>;
  readonly agree?: Readonly<Record<string, readonly string[]>>;
  /** Whether nobody disposes of a finding of their own. */
  readonly not_recorder?: boolean | null;
}

/** A joint, part or assembly. */
export interface Piece {
  readonly id: string;
  readonly mark: string;
  readonly kind: string;
  readonly name?: string;
  readonly part_of?: readonly string[];
  readonly joins?: readonly string[];
  readonly figures?: Figures;
  readonly sheet?: string;
  /** The piece made in its place, where it was scrapped. */
  readonly remade?: string;
}

/** A gauge's uncertainty as a decimal text, the uom it is in, and the last day of its calibration. */
export interface GaugeData {
  readonly uncertainty?: string | null;
  readonly uom?: string | null;
  readonly due?: string | null;
}

/** Figures and drawing revisions under one number. */
export interface FigureSet {
  readonly values: Figures;
  readonly drawings?: Readonly<Record<string, string>>;
}

/** A job's master data. bases: oldest first. figure_sets: by number as text. plans: by hash. */
export interface JobData {
  readonly id: string;
  readonly bases: readonly Basis[];
  readonly plans: Readonly<Record<string, Plan>>;
  readonly figure_sets: Readonly<Record<string, FigureSet>>;
  readonly pieces: readonly Piece[];
  readonly gauges?: Readonly<Record<string, GaugeData>>;
  readonly procedures?: Readonly<Record<string, Procedure>>;
  /** By person. */
  readonly qualifications?: Readonly<Record<string, readonly Qualification[]>>;
}

/** A step of a piece that must be let go before another begins: its holds only, or the whole of its release. */
export interface Before {
  readonly piece: string;
  readonly step: string;
  readonly whole: boolean;
}

/** A job by its master data. */
export class Job {
  readonly bases: readonly Basis[];
  readonly basis: Basis;
  readonly plan: Plan;
  readonly gauges: Readonly<Record<string, GaugeData>>;
  readonly procedures: Readonly<Record<string, Procedure>>;
  readonly qualifications: Readonly<Record<string, readonly Qualification[]>>;
  readonly pieces: ReadonlyMap<string, Piece>;
  readonly steps: ReadonlyMap<string, Step>;
  readonly order: ReadonlyMap<string, number>;
  readonly stages: ReadonlyMap<string, number>;
  private readonly children = new Map<string, string[]>();
  /** Without what was scrapped and has been remade: the new piece is in its place, and nothing waits for the old. */
  private readonly waitedFor: readonly Piece[];

  /** What must be let go before a step of a piece begins. */
  readonly before = remembered((piece: string, code: string) => this.workedOutBefore(piece, code));
  /** The figures that count at a piece, by the number of the figures. */
  private readonly figures = remembered((piece: string, number: number) => {
    const figureSet = lookedUp(this.data.figure_sets, String(number));
    return figuresOf(figureSet?.values ?? {}, this.pieces.get(piece)?.figures ?? {});
  });
  /** The limits of an item at a piece under a plan revision and figures. */
  readonly limits = remembered((piece: string, step: string, item: string, plan: string, figures: number) =>
    this.workedOutLimits(piece, step, item, plan, figures),
  );
  /** What an item asks at a piece under a plan revision and figures, as a text to compare. */
  readonly definition = remembered((piece: string, step: string, item: string, plan: string, figures: number) =>
    this.workedOutDefinition(piece, step, item, plan, figures),
  );

  private readonly byKinds = new Map<string, string[]>();

  constructor(readonly data: JobData) {
    this.bases = data.bases;
    this.basis = present(data.bases.at(-1), "the job has no basis");
    this.plan = present(lookedUp(data.plans, this.basis.plan), `plan ${this.basis.plan} is not here`);
    this.gauges = data.gauges ?? {};
    this.procedures = data.procedures ?? {};
    this.qualifications = data.qualifications ?? {};
    this.pieces = new Map(data.pieces.map((piece) => [piece.id, piece]));
    this.steps = new Map(this.plan.steps.map((step) => [step.code, step]));
    this.order = new Map([...this.steps.keys()].map((code, place) => [code, place]));
    this.stages = new Map(this.plan.stages.map((stage, place) => [stage.number, place]));
    this.waitedFor = data.pieces.filter((piece) => !piece.remade);
    for (const piece of this.waitedFor) {
      for (const whole of piece.part_of ?? []) added(this.children, whole, piece.id);
    }
  }

  /** The steps asked of a piece, in plan order. */
  stepsOf(pieceId: string): Step[] {
    const piece = this.pieces.get(pieceId);
    return piece ? this.plan.steps.filter((step) => step.kinds.includes(piece.kind)) : [];
  }

  /** Whether a step is asked of a piece. */
  hasStep(pieceId: string, code: string): boolean {
    const piece = this.pieces.get(pieceId);
    return piece !== undefined && (this.steps.get(code)?.kinds.includes(piece.kind) ?? false);
  }

  /** An item of the plan in force, or of the revision a record names. */
  item(stepCode: string, itemCode: string, planHash?: string): Item | null {
    const step = planHash === undefined ? this.steps.get(stepCode) : this.stepIn(planHash, stepCode);
    return step?.items.find((item) => item.code === itemCode) ?? null;
  }

  /** The parts of a piece and their parts. */
  parts(pieceId: string): string[] {
    return reached(pieceId, (one) => this.children.get(one) ?? [], String);
  }

  /** What a piece is part of, and what that is part of. */
  wholes(pieceId: string): string[] {
    return reached(pieceId, (one) => this.pieces.get(one)?.part_of ?? [], String);
  }

  /** What a formula may look up at a piece under a basis. */
  names(pieceId: string, basis: Basis, readings: Names["readings"] = () => []): Names {
    const figures = this.figures(pieceId, basis.figures);
    return { figures, readings, tables: lookedUp(this.data.plans, basis.plan)?.tables ?? {} };
  }

  private workedOutLimits(pieceId: string, step: string, item: string, planHash: string, figures: number): Limits {
    const found = this.item(step, item, planHash);
    if (found === null || !lookedUp(this.data.figure_sets, String(figures))) {
      return notKnown("the plan revision or figures are not here");
    }
    return limitsOf(found, this.names(pieceId, { plan: planHash, figures }));
  }

  /** The thickness of weld metal in inches that a weld item gives under a basis; null where it cannot be told. */
  thickness(piece: string, step: string, item: string, basis: Basis): Decimal | null {
    const tree = this.item(step, item, basis.plan)?.thickness?.tree;
    if (!tree) return null;
    try {
      return workOut(tree, this.names(piece, basis));
    } catch (error) {
      if (error instanceof FormulaError) return null;
      throw error;
    }
  }

  /**
   * All that says what an item asks at a piece: its text, its limits as worked out, its drawing's revision, and the
   * figures and tables by which it is worked out or asked at all.
   */
  private workedOutDefinition(piece: string, step: string, item: string, planHash: string, figures: number): string {
    const figureSet = lookedUp(this.data.figure_sets, String(figures));
    const revision = lookedUp(figureSet?.drawings ?? {}, this.pieces.get(piece)?.sheet ?? "") ?? "";
    const { lower, upper, reason } = this.limits(piece, step, item, planHash, figures);
    const limits = [lower && textOf(lower), upper && textOf(upper), reason];
    const found = this.item(step, item, planHash);
    const used = found ? whatItLooksUp(found, this.names(piece, { plan: planHash, figures })) : {};
    return canonical([found, limits, revision, used]);
  }

  /**
   * Whether the item has meant the same at every basis from the given one on.
   *
   * At every one, not only at the last: what a change reopened does not come back by taking the change back.
   */
  stillAsked(pieceId: string, step: string, item: string, basis: Basis): boolean {
    const [first, ...later] = this.basesFrom(basis).map((b) => this.definition(pieceId, step, item, b.plan, b.figures));
    return first !== undefined && later.every((definition) => definition === first);
  }

  /** Whether a step's points and all of its items have meant the same from the given basis on. */
  stepStillAsked(pieceId: string, code: string, basis: Basis): boolean {
    const later = this.basesFrom(basis).map((b) => this.stepIn(b.plan, code));
    const first = later[0];
    if (!first) return false;
    const points = canonical(first.points);
    if (later.some((step) => !step || canonical(step.points) !== points)) return false;
    const codes = new Set(later.flatMap((step) => step?.items.map((item) => item.code) ?? []));
    return [...codes].every((item) => this.stillAsked(pieceId, code, item, basis));
  }

  /** The bases from a given one on; none where the job never had it. */
  private basesFrom(basis: Basis): readonly Basis[] {
    const place = this.bases.findIndex((b) => b.plan === basis.plan && b.figures === basis.figures);
    return place < 0 ? [] : this.bases.slice(place);
  }

  /** A step by the plan revision of a hash. */
  stepIn(planHash: string, code: string): Step | undefined {
    return lookedUp(this.data.plans, planHash)?.steps.find((step) => step.code === code);
  }

  /**
   * The steps that stand before a step of a piece, by the plan and the pieces alone.
   *
   * Earlier steps of the same piece are all named; those without a point that holds stop nothing.
   */
  private workedOutBefore(pieceId: string, code: string): readonly Before[] {
    const step = present(this.steps.get(code), `the plan has no step ${code}`);
    const piece = present(this.pieces.get(pieceId), `the job has no piece ${pieceId}`);
    const place = this.placeOf(step);
    const found = this.stepsOf(pieceId)
      .filter((earlier) => this.placeOf(earlier) < place)
      .map((earlier): Before => ({ piece: pieceId, step: earlier.code, whole: false }));
    found.push(...this.holdsOfWholeJob(step));
    for (const rule of step.not_before ?? []) {
      if ((rule.for ?? [piece.kind]).includes(piece.kind)) found.push(...this.askedBy(rule, pieceId, step));
    }
    const wholes = new Set(found.filter((before) => before.whole).map((before) => `${before.piece}\0${before.step}`));
    const needed = found.filter((before) => before.whole || !wholes.has(`${before.piece}\0${before.step}`));
    return [...new Map(needed.map((before) => [canonical(before), before])).values()];
  }

  private placeOf(step: Step): number {
    return present(this.order.get(step.code), `the plan has no step ${step.code}`);
  }

  private inEarlierStage(one: Step, other: Step): boolean {
    const [place, end] = [this.stages.get(one.stage), this.stages.get(other.stage)];
    return present(place, `there is no stage ${one.stage}`) < present(end, `there is no stage ${other.stage}`);
  }

  private holdsOfWholeJob(step: Step): Before[] {
    return this.plan.steps
      .filter((s) => s.reach === "job" && this.inEarlierStage(s, step))
      .flatMap((s) => this.ofKinds(s.kinds).map((piece) => ({ piece, step: s.code, whole: false })));
  }

  private askedBy(rule: BeforeRule, pieceId: string, step: Step): Before[] {
    const codes =
      rule.steps === "earlier"
        ? this.plan.steps.filter((s) => this.inEarlierStage(s, step)).map((s) => s.code)
        : rule.steps;
    return this.piecesOf(rule, pieceId).flatMap((piece) =>
      codes
        .filter((code) => this.hasStep(piece, code) && !(piece === pieceId && code === step.code))
        .map((code) => ({ piece, step: code, whole: true })),
    );
  }

  private piecesOf(rule: BeforeRule, pieceId: string): string[] {
    switch (rule.of) {
      case "piece":
        return [pieceId];
      case "joins": {
        const joined = this.pieces.get(pieceId)?.joins ?? [];
        return [...new Set([...joined, ...joined.flatMap((one) => this.parts(one))])];
      }
      case "parts":
        return this.parts(pieceId);
      case "kinds":
        return this.ofKinds(rule.kinds ?? []);
    }
    return this.waitedFor.map(({ id }) => id);
  }

  private ofKinds(kinds: readonly string[]): string[] {
    const wanted = kinds.join("\0");
    const found =
      this.byKinds.get(wanted) ?? this.waitedFor.filter(({ kind }) => kinds.includes(kind)).map(({ id }) => id);
    this.byKinds.set(wanted, found);
    return found;
  }
}

/** The figures and tables that an item's formula and its 'only if' look up. */
function whatItLooksUp(item: Item, names: Names): Readonly<Record<string, unknown>> {
  const waiting = [item.formula, item.only_if].flatMap((part) => (part ? [part.tree] : []));
  const found = new Map<string, unknown>();
  for (const tree of waiting) {
    for (const part of walk(tree)) {
      if (part[0] === "name") {
        const figure = names.figures.get(part[1]);
        found.set(part[1], figure ? textOf(figure) : null);
      } else if (part[0] === "table" && !found.has(`table ${part[1]}`)) {
        const rows = lookedUp(names.tables, part[1])?.rows ?? [];
        found.set(`table ${part[1]}`, rows);
        waiting.push(...rows.flatMap((row) => (row.value ? [row.edge, row.value] : [row.edge])));
      }
    }
  }
  return Object.fromEntries(found);
}

/** Everything reached from a start, in the order it is met, without the start. keyOf: equal for what is the same. */
export function reached<T>(start: T, onward: (one: T) => readonly T[], keyOf: (one: T) => string): T[] {
  const found = new Map<string, T>();
  const waiting = [...onward(start)];
  for (const one of waiting) {
    const key = keyOf(one);
    if (found.has(key) || key === keyOf(start)) continue;
    found.set(key, one);
    waiting.push(...onward(one));
  }
  return [...found.values()];
}

/** The entry of a record under a key of its own; undefined where there is none, also for keys every object has. */
export function lookedUp<T>(entries: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(entries, key) ? entries[key] : undefined;
}

/** Adds to the list that stands under a key. */
export function added<K, T>(lists: Map<K, T[]>, key: K, one: T): void {
  const list = lists.get(key);
  if (list) list.push(one);
  else lists.set(key, [one]);
}

/** The value, which must be there. Throws an Error with the message where it is not. */
export function present<T>(value: T | null | undefined, message: string): T {
  if (value === undefined || value === null) throw new Error(message);
  return value;
}

/** A function that works out each answer once. */
function remembered<A extends readonly (string | number)[], R>(workOut: (...about: A) => R): (...about: A) => R {
  const known = new Map<string, { readonly answer: R }>();
  return (...about) => {
    const key = about.join("\0");
    const found = known.get(key) ?? { answer: workOut(...about) };
    known.set(key, found);
    return found.answer;
  };
}

/** The value as JSON with the keys of every object sorted, so that equal values give equal texts. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) => {
    if (typeof part !== "object" || part === null || Array.isArray(part)) return part;
    return Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)));
  });
}
