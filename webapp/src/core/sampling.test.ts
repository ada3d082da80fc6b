import { expect, test } from "vitest";
import { accepted, codeLetter, plan, SamplingError } from "./sampling";
import { errorOf, vectors } from "./vectors";

interface Asked {
  lot: number;
  level: string;
  error?: string;
}

interface Given {
  code_letter: (Asked & { letter?: string })[];
  plan: (Asked & {
    aql: string;
    letter?: string;
    sample?: number;
    accept?: number;
    reject?: number;
    all_of_it?: boolean;
  })[];
  accepted: (Asked & { aql: string; defectives: number; accepted?: boolean })[];
}

const given = vectors<Given>("sampling");

function answered(work: () => unknown, error: string | undefined, answer: unknown): void {
  if (error === undefined) {
    expect(work()).toEqual(answer);
    return;
  }
  const thrown = errorOf(work);
  expect(thrown).toBeInstanceOf(SamplingError);
  expect(thrown.message).toBe(error);
}

test("every part of the file is answered", () => {
  expect(Object.keys(given)).toEqual(["code_letter", "plan", "accepted"]);
});

test.each(given.code_letter)("a lot of $lot at level '$level' has letter $letter", ({ lot, level, letter, error }) => {
  answered(() => codeLetter(lot, level), error, letter);
});

test.each(given.plan)("a lot of $lot at level '$level' and AQL '$aql' has its plan", (one) => {
  const { letter, sample, accept, reject, all_of_it: allOfIt } = one;
  answered(() => plan(one.lot, one.level, one.aql), one.error, { letter, sample, accept, reject, allOfIt });
});

test.each(given.accepted)("$defectives defectives at AQL $aql in a lot of $lot: $accepted", (one) => {
  answered(() => accepted(plan(one.lot, one.level, one.aql), one.defectives), one.error, one.accepted);
});

test("what is no number at all is refused as well", () => {
  expect(errorOf(() => codeLetter(Number.NaN, "II"))).toBeInstanceOf(SamplingError);
  expect(errorOf(() => accepted(plan(100, "II", "1.0"), Number.NaN))).toBeInstanceOf(SamplingError);
});
