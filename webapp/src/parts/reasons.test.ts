import { describe, expect, test } from "vitest";
import { OWN_FINDING } from "../core/flags";
import { holds, MOST_DEPTH, type Names, type Tree, workOut } from "../core/formula";
import { type FigureSet, type Item, Job, type JobData } from "../core/job";
import { judged } from "../core/judging";
import { limitsOf, notKnown } from "../core/limits";
import { Decimal, parse } from "../core/numbers";
import { wordOfPass } from "../core/procedures";
import { lacking } from "../core/qualifications";
import type { Bodies, Kind, Payload } from "../core/records";
import { errorOf } from "../core/vectors";
import { Gauge, judge, tooCoarse } from "../core/verdict";
import { arcEnergy, carbonEquivalent, heatInput, wallReduction } from "../core/welding";
import { speakFrom } from "../language";
import english from "../locales/en.ftl?raw";
import { doubtText, PATTERNS, reasonText } from "./reasons";

const NONE: Names = { figures: new Map(), readings: () => [], tables: {} };
const number = (text: string) => new Decimal(text);
const num = (text: string): Tree => ["num", text];
const YES: Tree = ["lt", num("1"), num("2")];

/** What working out a formula says is wrong with it. */
function wrongWith(tree: Tree, names: Partial<Names> = {}): string {
  return errorOf(() => workOut(tree, { ...NONE, ...names })).message;
}

function nested(depth: number): Tree {
  return depth === 0 ? num("1") : ["neg", nested(depth - 1)];
}

function formulas(): string[] {
  const table = (value: Tree | null) => ({ rows: [{ edge: num("1"), reached: "from", value }] });
  const gaps = { readings: () => [number("1"), number("2")] };
  return [
    wrongWith(YES),
    errorOf(() => holds(num("1"), NONE)).message,
    wrongWith(nested(MOST_DEPTH * 2 + 1)),
    wrongWith(["modulo", num("1"), num("2")] as unknown as Tree),
    wrongWith(["neg", YES]),
    wrongWith(["if", num("1"), num("1"), num("2")]),
    wrongWith(["div", num("1"), num("0")]),
    wrongWith(["pow", num("1e9000"), 2]),
    wrongWith(["pow", num("1e-9000"), 2]),
    wrongWith(["name", "t_shell"]),
    wrongWith(["item", "fit", "gap"]),
    wrongWith(["name", "gap"], gaps),
    wrongWith(["call", "sqrt", num("-1")]),
    wrongWith(["call", "sinus", num("1")]),
    wrongWith(["call", "largest", num("1")]),
    wrongWith(["call", "spread", ["name", "gap"]], { readings: () => [number("1")] }),
    wrongWith(["table", "hole", num("1")]),
    wrongWith(["table", "hole", num("0")], { tables: { hole: table(num("1")) } }),
    wrongWith(["table", "hole", num("1")], { tables: { hole: table(null) } }),
  ];
}

function ofWelding(): string[] {
  const n = number;
  const share = (...shares: string[]) => {
    const [c = n("0"), mn = n("0"), ...rest] = shares.map(n);
    const [cr = n("0"), mo = n("0"), v = n("0"), ni = n("0"), cu = n("0")] = rest;
    return carbonEquivalent(c, mn, cr, mo, v, ni, cu);
  };
  const works = [
    () => arcEnergy(n("24"), n("180"), n("0")),
    () => arcEnergy(n("-24"), n("180"), n("10")),
    () => heatInput(n("24"), n("180"), n("10"), n("1.2")),
    () => share("-1"),
    () => share("101"),
    () => wallReduction(n("2.53"), n("2.5"), n("2.3"), n("2.31")),
    () => wallReduction(n("2.53"), n("2.5"), n("2.6"), n("2.7")),
    () => wallReduction(n("2.4"), n("2.5"), n("2.3"), n("2.4")),
  ];
  return works.map((work) => errorOf(work).message);
}

const BASIS = { plan: "p", figures: 1 };

/** Why one record is judged as it is, by a plan of one item. */
function judging<K extends Kind>(type: K, body: Bodies[K], item: Partial<Item>, figures?: FigureSet): string {
  const asked = { code: "gap", kind: "measure", uom: "in", upper: { tree: num("1") }, ...item } as Item;
  const step = { code: "fit", number: "1", stage: "1", kinds: ["seam"], points: [], items: [asked] };
  const data: JobData = {
    id: "J",
    bases: [BASIS],
    plans: { p: { stages: [{ number: "1" }], steps: [step] } },
    figure_sets: figures ? {} : { 1: { values: {} } },
    pieces: [{ id: "W", mark: "W", kind: "seam" }],
  };
  const place = { piece: "W", step: "fit", item: "gap", basis: BASIS, by: "ann", at: "2026-11-20T09:00" };
  return judged({ id: "r", type, body, ...place } as unknown as Payload, "", new Job(data)).verdict.reason;
}

function ofRecords(): string[] {
  const read = { entered: "1", uom: "in" };
  return [
    judging("reading", read, { code: "other" }),
    judging("reading", { ...read, uom: "psi" }, {}),
    judging("reading", { ...read, uom: "psi" }, { uom: null }),
    judging("reading", { ...read, gauge: "TG" }, { gauge: "taper gauge" }),
    judging("reading", read, { gauge: "taper gauge" }),
    judging("reading", read, {}, { values: {} }),
    judging("report", { kind: "RT", state: "asked for" }, { kind: "report" }),
    judging("weld", { layer: "root", welder: "ann", stamp: "", procedure: "", lot: "" }, { kind: "weld" }),
    judging("visual", { result: "does not apply" }, { kind: "visual" }),
  ];
}

function ofPasses(): string[] {
  const body = { layer: "root" as const, welder: "ann", stamp: "A", procedure: "W-12", lot: "L" };
  const procedure = {
    id: "W-12",
    process: "SMAW",
    positions: ["F"],
    preheat_min: "50",
    interpass_max: "550",
    amps: ["90", "140"] as const,
    heat_input_max: "30",
  };
  const pass = (more: Partial<Bodies["weld"]>, withdrawn?: string) =>
    wordOfPass({ ...body, ...more }, { "W-12": { ...procedure, withdrawn: withdrawn ?? null } }, "2026-11-20").reason;
  return [
    pass({ procedure: "W-99" }),
    pass({}, "2026-11-01"),
    pass({ preheat: "40" }),
    pass({ interpass: "600" }),
    pass({ amps: "150.5" }),
    pass({ position: "O" }),
    pass({ preheat: "40", amps: "150", position: "O", volts: "30", travel: "2" }),
    pass({ volts: "30", amps: "100", travel: "2" }),
    pass({ amps: "1oo" }),
  ];
}

function ofWelders(): string[] {
  const held = { id: "Q", person: "ann", process: "SMAW", test: "plate 3G", coupon: "0.375", layers: 2 };
  const pass = { process: "SMAW", day: "2026-11-20", welds: [], thickness: null, position: "", fillet: false };
  const tested = { ...held, tested: "2026-11-01" };
  const found = [
    lacking([], pass),
    lacking([{ ...held, tested: "2026-12-01" }], pass),
    lacking([tested], { ...pass, process: "GTAW" }),
    lacking([{ ...held, tested: "2026-01-01" }], pass),
    lacking([tested], { ...pass, thickness: number("1.25") }),
    lacking([tested], { ...pass, position: "O" }),
  ];
  return [...found, ...found.map((reason) => `ann: ${reason}`)];
}

function ofVerdicts(): string[] {
  const limits = { lower: number("1"), upper: number("2"), reason: "" };
  const above = { lower: null, upper: number("2"), reason: "" };
  const crossed = { lower: { tree: num("2") }, upper: { tree: num("1") } };
  return [
    judge(number("1.5"), limits, null, "guarded").reason,
    judge(number("1.5"), limits, new Gauge(number("1")), "guarded").reason,
    tooCoarse(limits, new Gauge(number("1"))),
    tooCoarse(above, new Gauge(number("1"))),
    notKnown("division by zero").reason,
    limitsOf(crossed, NONE).reason,
    // Made in flags.ts, which asks for a job with gauges: tests/vectors/progress.json holds both.
    "calibrated until 2026-03-06",
    "the phone said in tolerance",
    OWN_FINDING,
  ];
}

/** What the server alone says: review/flagging.py and trends/warning.py. */
const OF_SERVER: readonly string[] = [
  "another record follows the same one of this key",
  "the record before it of this key has not come",
  "sent by a phone that is shut out",
  "what it relies on has not come",
  "its picture has not come from the phone yet",
  "the phone's clock is fast by 12 min or more: it came in before it was made",
  "the phone's clock is slow by 7 min or more: it had seen what came in later",
  "rising: the average went from -0.1 to 0.62 of half the tolerance",
  "falling: the average went from 0.03875 to 0.03271 of half the tolerance",
  "rising: the average went from 2.536 to 2.539 in",
  "falling: the average went from 0.3984 to 0.393 in",
];

const TYPED: readonly (readonly [string, boolean?])[] = [
  [""],
  ["123456789012345678901"],
  ['"'],
  ["2' 14"],
  ["1/0"],
  ["1/3"],
  ["1 5/4"],
  ["1,5.5"],
  ["1,5"],
  ["1.5", true],
  ["1 7"],
  ["about 5"],
];

function ofNumbers(): string[] {
  return TYPED.map(([text, comma]) => errorOf(() => parse(text, comma)).message);
}

/** The catalogue with a mark in every reason, to tell what was translated from what was handed on. */
function marked(): string {
  return english.replaceAll(/^(reason-[\w-]+) = /gm, "$1 = ¶");
}

describe("what core says", () => {
  const said = [
    ...formulas(),
    ...ofWelding(),
    ...ofRecords(),
    ...ofPasses(),
    ...ofWelders(),
    ...ofVerdicts(),
    ...ofNumbers(),
    ...OF_SERVER,
  ];

  test("none of it is empty, and each of it is one of the patterns", () => {
    expect(said.filter((reason) => !PATTERNS.some(([pattern]) => pattern.test(reason)))).toEqual([]);
  });

  test("every pattern is something that core says", () => {
    const first = said.map((reason) => PATTERNS.find(([pattern]) => pattern.test(reason))?.[1]);
    expect(PATTERNS.map(([, id]) => id).filter((id) => !first.includes(id))).toEqual([
      "limits-crossed",
      "revision-not-here",
    ]);
    // These two are said inside another.
    expect(said).toContain("limit not known: the lower limit is above the upper");
    expect(said).toContain("limit not known: the plan revision or figures are not here");
  });

  test("in English it reads as core says it", () => {
    const differs = said.filter((reason) => reasonText(reason) !== reason);
    // What names a day writes it as people here do.
    expect(differs).toEqual([
      "the procedure W-12 is withdrawn since 2026-11-01",
      "none for SMAW before 2026-12-01",
      "SMAW lapsed on 2026-07-01; last proof 2026-01-01",
      "ann: none for SMAW before 2026-12-01",
      "ann: SMAW lapsed on 2026-07-01; last proof 2026-01-01",
      "uncertainty over a quarter of the tolerance",
      "uncertainty over a quarter of the limit",
      "calibrated until 2026-03-06",
    ]);
  });

  test("each of it comes from the catalogue, what stands inside it as well", () => {
    speakFrom(marked(), "en");
    expect(said.filter((reason) => !reasonText(reason).startsWith("¶"))).toEqual([]);
    expect(reasonText("limit not known: no D_shell")).toBe("¶limit not known: ¶no D_shell");
    speakFrom(english, "en");
  });
});

test("numbers and days inside a reason are written as people here write them", () => {
  speakFrom(english, "en", "de-DE");
  expect(reasonText("the travel must be above 0, and it is -0.5")).toBe("the travel must be above 0, and it is -0,5");
  expect(reasonText("calibrated until 2026-03-06")).toBe("calibrated until 6. März 2026");
  speakFrom(english, "en");
});

test("a word of a sign-off is a word of its set, anything else stays as it is", () => {
  expect(reasonText("role to be confirmed")).toBe("role to be confirmed");
  expect(reasonText("no photo of the page")).toBe("no photo of the page");
  expect(reasonText("G-1 2.3, G-1 2.4")).toBe("G-1 2.3, G-1 2.4");
  expect(reasonText("")).toBe("");
});

test("a doubt is a whole sentence", () => {
  expect(doubtText(parse("17/8").doubt)).toBe("Is it 17/8 or 1 7/8?");
});
