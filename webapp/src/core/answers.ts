/**
 * Answers what the differential test asks: a question a line of JSON in, its answer a line out, in the same order.
 *
 * For Node.js alone, and no part of the app: `npm run core` builds it, tests/core/differential.py asks.
 */

import { stdin, stdout } from "node:process";
import { createInterface } from "node:readline";
import { flagsOf } from "./flags";
import { FormulaError, holds, MissingValueError, type Names, type Table, type Tree, workOut } from "./formula";
import { Job, type JobData, present } from "./job";
import type { Role } from "./judging";
import { inCounterpart, shown, shownInward } from "./limits";
import { Decimal, NumberError, nearestFraction, parse, shownInches, shownShort, textOf } from "./numbers";
import { Progress } from "./progress";
import type { Payload } from "./records";
import { type Conversion, conversion } from "./uoms";
import { Gauge, judge, tooCoarse, type Verdict } from "./verdict";

function text(value: Decimal | null): string | null {
  return value && textOf(value);
}

function number(given: string | null | undefined): Decimal | null {
  return given === null || given === undefined ? null : new Decimal(given);
}

function way(from: string, to: string): Conversion {
  return present(conversion(from, to), `there is no way from ${from} to ${to}`);
}

function said({ word, margin, reason, probability }: Verdict<string>) {
  return { word, margin: text(margin), why: reason, probability };
}

function flagsAt(progress: Progress, piece: string) {
  return flagsOf(progress, piece).map((flag) => ({ ...flag, past: text(flag.past) }));
}

interface Typing {
  text: string;
  comma: boolean;
}

function typed({ text: given, comma }: Typing) {
  try {
    const { value, doubt } = parse(given, comma);
    return { value: textOf(value), doubt, inches: shownInches(value), fraction: nearestFraction(value, 16) };
  } catch (error) {
    if (error instanceof NumberError) return { error: error.message };
    throw error;
  }
}

interface Working {
  tree: Tree;
  figures: Record<string, string>;
  readings: Record<string, string[]>;
  tables: Record<string, Table>;
  holds: boolean;
}

function workedOut({ tree, figures, readings, tables, holds: condition }: Working) {
  const names: Names = {
    figures: new Map(Object.entries(figures).map(([name, value]) => [name, new Decimal(value)])),
    readings: (step, item) => (readings[`${step}.${item}`] ?? []).map((value) => new Decimal(value)),
    tables,
  };
  try {
    return condition ? { holds: holds(tree, names) } : { value: textOf(workOut(tree, names)) };
  } catch (error) {
    if (error instanceof FormulaError) return { error: error.message, missing: error instanceof MissingValueError };
    throw error;
  }
}

interface Judging {
  value: string;
  lower: string | null;
  upper: string | null;
  reason: string;
  conversion: [from: string, to: string];
  uncertainty: string | null;
  gauge_uom: string;
  rule: string;
  place: string | null;
}

function judgedAlone(given: Judging) {
  const limits = { lower: number(given.lower), upper: number(given.upper), reason: given.reason };
  const known = given.uncertainty !== null && given.uncertainty !== "unknown";
  const found = known ? new Gauge(number(given.uncertainty), way(given.gauge_uom, given.conversion[1])) : null;
  const gauge = given.uncertainty === "unknown" ? new Gauge(null) : found;
  const [value, place] = [new Decimal(given.value), number(given.place)];
  const verdict = judge(value, limits, gauge, given.rule, place, way(...given.conversion));
  return { ...said(verdict), coarse: tooCoarse(limits, gauge) };
}

interface Converting {
  from: string;
  to: string;
  value: string;
}

function converted({ from, to, value }: Converting) {
  const found = conversion(from, to);
  const given = new Decimal(value);
  return found && { value: textOf(found.of(given).value()), interval: textOf(found.ofInterval(given).value()) };
}

interface Showing {
  lower: string | null;
  upper: string | null;
  from: string;
  to: string;
  place: string;
}

function shownAll({ lower, upper, from, to, place }: Showing) {
  const limits = { lower: number(lower), upper: number(upper), reason: "" };
  const other = inCounterpart(limits, from);
  const inward = (limit: Decimal | null, above: boolean) =>
    limit && textOf(shownInward(limit, above, new Decimal(place), way(from, to)));
  return {
    inward: [inward(limits.lower, false), inward(limits.upper, true)],
    own: [limits.lower && textOf(shown(limits.lower, false)), limits.upper && textOf(shown(limits.upper, true))],
    short: [limits.lower && shownShort(limits.lower), limits.upper && shownShort(limits.upper)],
    counterpart: other && [text(other[0].lower), text(other[0].upper), other[1]],
  };
}

interface Reading {
  job: JobData;
  record: [Payload, Role];
}

function reading({ job: data, record }: Reading) {
  const job = new Job(data);
  const progress = new Progress(job, [record]);
  const [payload] = record;
  const { verdict, value, current } = present(progress.records.get(payload.id), `no ${payload.id}`);
  const { piece, step, item, basis } = payload;
  const limits = job.limits(piece, step ?? "", item ?? "", basis.plan, basis.figures);
  return {
    ...said(verdict),
    value: text(value),
    current,
    limits: [text(limits.lower), text(limits.upper), limits.reason],
    flags: flagsAt(progress, piece),
  };
}

interface Derived {
  job: JobData;
  records: [Payload, Role][];
  piece: string;
}

function derived({ job, records, piece }: Derived) {
  const progress = new Progress(new Job(job), records);
  const steps = [...progress.piece(piece).steps].flatMap(([step, { items }]) =>
    [...items].map(([item, { state, missing, derived: values }]) => [
      `${step}.${item}`,
      { state, missing, derived: [...values].map(([at, found]) => [at, text(found.value), said(found.verdict)]) },
    ]),
  );
  const verdicts = records.map(([{ id }]) => [id, said(present(progress.records.get(id), `no ${id}`).verdict)]);
  return { items: Object.fromEntries(steps), records: Object.fromEntries(verdicts), flags: flagsAt(progress, piece) };
}

type Question =
  | ({ verb: "number" } & Typing)
  | ({ verb: "formula" } & Working)
  | ({ verb: "judge" } & Judging)
  | ({ verb: "uom" } & Converting)
  | ({ verb: "shown" } & Showing)
  | ({ verb: "reading" } & Reading)
  | ({ verb: "derived" } & Derived);

function answerTo(question: Question): unknown {
  switch (question.verb) {
    case "number":
      return typed(question);
    case "formula":
      return workedOut(question);
    case "judge":
      return judgedAlone(question);
    case "uom":
      return converted(question);
    case "shown":
      return shownAll(question);
    case "reading":
      return reading(question);
    case "derived":
      return derived(question);
  }
}

/** What is not foreseen is an answer too, and one that never agrees. */
function answerOrCrash(line: string): unknown {
  try {
    return answerTo(JSON.parse(line) as Question);
  } catch (error) {
    return { crash: String(error) };
  }
}

createInterface({ input: stdin }).on("line", (line) => {
  stdout.write(`${JSON.stringify(answerOrCrash(line))}\n`);
});
