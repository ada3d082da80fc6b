/**
 * Whether a welder is qualified for a pass he is named as the maker of.
 *
 * What is asked is a function of the job's master data and of the set of the weld records of this job, sorted by the
 * days they were made on: neither the order in which records arrive nor the other jobs of the shop have a part in it, so
 * a phone that carries this job alone and the server say the same. Welds of other jobs count once they are proved on
 * paper. What the outside diameter of pipe asks is not looked at, since no item of a plan says it.
 */

import { Decimal, textOf } from "./numbers";
import { MOST_NAME } from "./procedures";
import { beginning, inOrder } from "./text";
import { FHVO, hasLapsed, isDay, lapsesOn, mostThickness, POSITIONS } from "./welding";

/** A welder's test. coupon: inches of weld metal. continued: last proof on paper that he welded by this process. */
export interface Qualification {
  readonly id: string;
  readonly person: string;
  readonly process: string;
  /** A key of welding's POSITIONS. */
  readonly test: string;
  readonly coupon: string;
  readonly layers: number;
  readonly coupon_od?: string | null;
  readonly tested: string;
  readonly continued?: string | null;
  readonly certificate?: string;
}

/**
 * The last day, up to a day asked, that keeps a welder's qualification for a process alive; "" before any test.
 *
 * papers: ISO dates of tests and of proofs on paper, each of which counts by itself. welds: those of welds by this
 * process, which count only while he was qualified: to weld on after the lapse renews nothing.
 */
export function lastProof(papers: readonly string[], welds: readonly string[], on: string): string {
  const of = (days: readonly string[], welded: boolean) => days.map((day) => ({ day, welded }));
  const days = [...of(papers, false), ...of(welds.filter(isDay), true)];
  days.sort((a, b) => inOrder(a.day, b.day) || Number(a.welded) - Number(b.welded));
  let last = "";
  for (const { day, welded } of days) {
    if (inOrder(day, on) <= 0 && (!welded || (last && !hasLapsed(last, day)))) last = day;
  }
  return last;
}

/** The dates on paper: every test, and the last proof of each qualification. */
export function proofsOf(qualifications: readonly Qualification[]): string[] {
  return qualifications.flatMap(({ tested, continued }) => (continued ? [tested, continued] : [tested]));
}

/** Greatest thickness of weld metal in inches; null where there is no maximum. */
export function mostOf({ coupon, layers }: Qualification): Decimal | null {
  return mostThickness(new Decimal(coupon), layers);
}

/** Positions of groove welds, or of fillet welds, that a test qualifies for. */
export function positionsOf({ test }: Qualification, fillet: boolean): readonly string[] {
  const [groove, ofFillets] = POSITIONS[test] ?? [[], []];
  return fillet ? ofFillets : groove;
}

/** A pass as far as a welder must be qualified for it. */
export interface Pass {
  /** Of the procedure; "" where that is not known, and then only whether he has any is asked. */
  readonly process: string;
  readonly day: string;
  /** Days on which he welded by this process. */
  readonly welds: readonly string[];
  /** In inches; null where the plan does not say it. */
  readonly thickness: Decimal | null;
  /** F, H, V or O; "" where the record does not say it. */
  readonly position: string;
  readonly fillet: boolean;
}

/** What a welder lacks for a pass, in words; "" where he is qualified. held: his qualifications. */
export function lacking(held: readonly Qualification[], pass: Pass): string {
  const { process, day, thickness, position, fillet } = pass;
  if (held.length === 0) return "no qualification is kept";
  const ofProcess = held.filter((one) => one.process === process);
  if (!process || !isDay(day)) return "";
  if (ofProcess.length === 0) return `none for ${beginning(process, MOST_NAME)}`;
  const tested = ofProcess.filter((one) => inOrder(one.tested, day) <= 0);
  if (tested.length === 0) {
    return `none for ${process} before ${ofProcess.map((one) => one.tested).sort(inOrder)[0]}`;
  }
  const last = lastProof(proofsOf(ofProcess), pass.welds, day);
  if (hasLapsed(last, day)) return `${process} lapsed on ${lapsesOn(last)}; last proof ${last}`;
  const thick = tested.filter((one) => covers(one, thickness));
  if (thick.length === 0 && thickness) {
    return `${process} to ${textOf(thickest(tested))} in; the item is ${textOf(thickness)} in`;
  }
  const qualified = FHVO.filter((one) => thick.some((test) => positionsOf(test, fillet).includes(one)));
  if (position && !qualified.some((one) => one === position)) {
    return `${process} in ${qualified.join(", ")}; welded in ${position}`;
  }
  return "";
}

function covers(one: Qualification, thickness: Decimal | null): boolean {
  const most = mostOf(one);
  return thickness === null || most === null || thickness.lte(most);
}

/** The greatest thickness of those that have one. */
function thickest(all: readonly Qualification[]): Decimal {
  return Decimal.max(...all.flatMap((one) => mostOf(one) ?? []));
}
