/** What a record's payload holds, type by type. Schema 1 is kept for good. */

export const SCHEMA = 1;
export const MOST_BYTES = 1_000_000;

export const FOUND_BY = ["scanned", "typed", "list", "board"] as const;
export const WHY = ["slip", "measured again", "after rework", "after repair"] as const;
export const RESULTS = ["accept", "reject", "does not apply"] as const;
export const LAYERS = ["root", "hot", "fill", "cap", "back"] as const;
export const POSITIONS = ["F", "H", "V", "O"] as const;
/** From the mildest to the strictest: in conflict the later one stands. */
export const DISPOSITIONS = ["use as is", "rework", "repair", "scrap"] as const;
export const PARTIES = ["maker", "QC", "AI", "customer"] as const;
/** Parties that are not of the shop, and may sign in ink on a page. */
export const OUTSIDE: readonly string[] = ["AI", "customer"];
export const AGREEING = ["engineering", "AI", "customer"] as const;
export const ATTENDANCE = ["present", "waived", "not attended after notice"] as const;
export const TAGGINGS = ["put on", "taken off", "back on", "gone inside", "replaced"] as const;
export const REPORT_STATES = ["asked for", "in"] as const;
export const SHAPES = ["arrow", "ring"] as const;
export const MOST_MARKS = 100;
/** The far edge of a photo, in ten-thousandths of its width or height. */
export const FAR_EDGE = 10_000;

export type FoundBy = (typeof FOUND_BY)[number];
export type Why = (typeof WHY)[number];
export type Result = (typeof RESULTS)[number];
export type Layer = (typeof LAYERS)[number];
export type Position = (typeof POSITIONS)[number];
export type Disposition = (typeof DISPOSITIONS)[number];
export type Party = (typeof PARTIES)[number];
export type Agreeing = (typeof AGREEING)[number];
export type Attendance = (typeof ATTENDANCE)[number];
export type Tagging = (typeof TAGGINGS)[number];
export type ReportState = (typeof REPORT_STATES)[number];
export type PointKind = "sign" | "H" | "W" | "R" | "S";

/** The roles that may speak for a party. */
export const ROLES: Readonly<Record<Party | Agreeing, readonly string[]>> = {
  maker: ["layout", "fitter", "welder", "tube roller", "tester"],
  QC: ["inspector", "supervisor"],
  AI: ["authorized inspector"],
  customer: ["customer"],
  engineering: ["engineer"],
};

/** A field that may be left out, or be null, which is the same. */
type Or<T> = T | null;

/** The plan revision by its SHA-256, and the number of the figures and drawings. */
export interface Basis {
  readonly plan: string;
  readonly figures: number;
}

/** What every record says. */
export interface Common {
  readonly id: string;
  readonly schema: number;
  readonly core: number;
  readonly job: string;
  readonly piece: string;
  readonly found_by: FoundBy;
  readonly by: string;
  readonly device: string;
  readonly seq: number;
  readonly prev: string;
  readonly seen: { readonly number: number; readonly hash: string };
  readonly basis: Basis;
  readonly at: string;
  readonly step?: Or<string>;
  readonly item?: Or<string>;
  readonly station?: Or<string>;
  readonly replaces?: Or<string>;
  readonly why?: Or<Why>;
  readonly under?: Or<readonly string[]>;
}

/** What a disposition is about: records, the kind of flag, and what its maker saw. */
export interface About {
  readonly records: readonly string[];
  readonly flag: string;
  readonly verdict?: Or<string>;
  readonly plan?: Or<string>;
}

/**
 * A mark over a photo, in ten-thousandths of its width (x) and height (y). An arrow begins at the first point and
 * points to the second; a ring lies round the first, through the second.
 */
export interface PhotoMark {
  readonly shape: (typeof SHAPES)[number];
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** What each type of record says besides. */
export interface Bodies {
  reading: {
    readonly entered: string;
    readonly uom: string;
    readonly comma?: Or<boolean>;
    readonly gauge?: Or<string>;
    readonly verdict?: Or<string>;
  };
  visual: { readonly result: Result; readonly note?: Or<string> };
  photo: {
    readonly sha256: string;
    readonly media_type: string;
    readonly bytes: number;
    readonly width: number;
    readonly height: number;
    readonly caption?: Or<string>;
    readonly marks?: Or<readonly PhotoMark[]>;
  };
  weld: {
    readonly layer: Layer;
    readonly welder: string;
    readonly stamp: string;
    readonly procedure: string;
    readonly lot: string;
    readonly from?: Or<string>;
    readonly to?: Or<string>;
    readonly preheat?: Or<string>;
    readonly interpass?: Or<string>;
    readonly volts?: Or<string>;
    readonly amps?: Or<string>;
    readonly travel?: Or<string>;
    readonly comma?: Or<boolean>;
    readonly position?: Or<Position>;
  };
  report: {
    readonly kind: string;
    readonly state: ReportState;
    readonly number?: Or<string>;
    readonly firm?: Or<string>;
    readonly person?: Or<string>;
    readonly level?: Or<string>;
    readonly certificate?: Or<string>;
    readonly result?: Or<Result>;
    readonly pages?: Or<readonly string[]>;
    readonly note?: Or<string>;
  };
  text: { readonly value: string };
  note: { readonly text: string; readonly pass_on?: Or<boolean>; readonly clears?: Or<string> };
  call: {
    readonly party: Party;
    readonly when?: Or<string>;
    readonly how?: Or<string>;
    readonly answer?: Or<"coming" | "waived">;
  };
  "sign-off": {
    readonly party: Party;
    readonly covers: readonly string[];
    readonly attendance?: Or<Attendance>;
    readonly call?: Or<string>;
    readonly page?: Or<string>;
    readonly sentence?: Or<string>;
  };
  disposition: {
    readonly about: About;
    readonly disposition: Disposition;
    readonly reason: string;
    readonly ncr?: Or<string>;
    readonly extent?: Or<string>;
    readonly again?: Or<readonly string[]>;
    readonly cycle?: Or<number>;
  };
  agreement: { readonly disposition: string; readonly party: Agreeing; readonly note?: Or<string> };
  point: {
    readonly party: Party;
    readonly point: Exclude<PointKind, "sign">;
    readonly reach?: Or<"piece" | "job">;
    readonly note?: Or<string>;
  };
  void: { readonly record: string; readonly reason: string };
  tagging: { readonly code: string; readonly what: Tagging; readonly why?: Or<string> };
}

export type Kind = keyof Bodies;

/** Whether a value is what may be drawn over a photo. */
export function areMarks(value: unknown): value is PhotoMark[] {
  return Array.isArray(value) && value.length <= MOST_MARKS && value.every(isMark);
}

function isMark(value: unknown): boolean {
  if (typeof value !== "object" || value === null) return false;
  const { shape, x1, y1, x2, y2 } = value as Record<string, unknown>;
  const inside = [x1, y1, x2, y2].every((at) => Number.isInteger(at) && Number(at) >= 0 && Number(at) <= FAR_EDGE);
  return inside && SHAPES.some((one) => one === shape);
}

/** The payload of a record of a kind; of any kind where none is named. */
export type Payload<K extends Kind = Kind> = K extends Kind
  ? Common & { readonly type: K; readonly body: Bodies[K] }
  : never;

/** Types that name a step; the first five name an item as well. */
export const ON_STEP = ["reading", "visual", "weld", "report", "text", "sign-off", "call", "point"] as const;
export const ON_ITEM = ON_STEP.slice(0, 5);

/** What a party does at a step; of makers the trade may be asked, of others that they are not the maker. */
export interface Point {
  readonly party: string;
  readonly point: PointKind;
  readonly trade?: Or<string>;
  readonly not_maker?: Or<boolean>;
}

interface WithPoints {
  readonly points?: readonly Point[];
}

/**
 * The roles of which the record's maker must hold one for it to have effect; null where anybody may.
 *
 * step: the plan's step the record names, which may ask a certain trade to sign.
 */
export function speakingRoles(payload: Payload, step: WithPoints | null): readonly string[] | null {
  switch (payload.type) {
    case "sign-off":
      return signingRoles(payload.body, step);
    case "disposition":
      return ["supervisor"];
    case "agreement":
      return ROLES[payload.body.party];
    case "point": {
      const { party } = payload.body;
      return OUTSIDE.includes(party) ? ROLES[party] : ["supervisor", "planner"];
    }
    case "void":
      return ["supervisor"];
  }
  return null;
}

/** Whether a sign-off stands for a signature in ink on a page. */
export function inInk(body: Bodies["sign-off"]): boolean {
  return Boolean(body.page) && OUTSIDE.includes(body.party);
}

/**
 * For the party itself; for 'not attended after notice' the shop's QC, who gave the notice; a signature in ink the
 * shop's QC may enter as well.
 */
function signingRoles(body: Bodies["sign-off"], step: WithPoints | null): readonly string[] {
  if (body.attendance === "not attended after notice" && OUTSIDE.includes(body.party)) return ROLES.QC;
  if (inInk(body)) return [...ROLES[body.party], ...ROLES.QC];
  const trades = (step?.points ?? []).flatMap((p) => (p.party === body.party && p.trade ? [p.trade] : []));
  return trades.length > 0 && body.party === "maker" ? trades : ROLES[body.party];
}
