/** What each record says by itself, under the plan revision and figures it names. */

import { type Item, type Job, lookedUp } from "./job";
import { Decimal, NumberError, parse } from "./numbers";
import { wordOfPass } from "./procedures";
import type { Basis, Bodies, Kind, Payload, Result } from "./records";
import { strip } from "./text";
import * as uoms from "./uoms";
import * as verdict from "./verdict";
import { bare, Gauge, type Verdict } from "./verdict";

export const ACCEPTED = "accepted";
export const REJECTED = "rejected";
export const DOES_NOT_APPLY = "does not apply";
export const COMPLETE = "complete";
export const INCOMPLETE = "incomplete";

export type JudgedWord =
  | verdict.Word
  | typeof ACCEPTED
  | typeof REJECTED
  | typeof DOES_NOT_APPLY
  | typeof COMPLETE
  | typeof INCOMPLETE;

export const GOOD: ReadonlySet<string> = new Set([verdict.IN, verdict.RECORDED, ACCEPTED, DOES_NOT_APPLY, COMPLETE]);
export const ADVERSE: ReadonlySet<string> = new Set([verdict.OUT, verdict.CLOSE, verdict.UNJUDGED, REJECTED]);
export const WORSE: Readonly<Record<JudgedWord, number>> = {
  ...verdict.WORSE,
  [ACCEPTED]: 0,
  [DOES_NOT_APPLY]: 0,
  [COMPLETE]: 0,
  [INCOMPLETE]: 1,
  [REJECTED]: 3,
};

/** Whether its maker held the role it asks for, as stamped at intake; '' where none is asked. */
export type Role = "held" | "changed" | "not held" | "";

/** Where a record belongs; '' where it names no step, item or station. */
export interface Place {
  readonly piece: string;
  readonly step: string;
  readonly item: string;
  readonly station: string;
}

/** A record with its word. current: whether the plan still asks what it asked when the record was made. */
export interface Judged<K extends Kind = Kind> {
  readonly payload: Payload<K>;
  readonly id: string;
  readonly type: K;
  readonly body: Bodies[K];
  readonly place: Place;
  readonly role: Role;
  readonly verdict: Verdict<JudgedWord>;
  readonly value: Decimal | null;
  readonly current: boolean;
  readonly good: boolean;
  readonly adverse: boolean;
}

/** Whether a record is of a kind. */
export function isA<K extends Kind>(record: Judged, kind: K): record is Judged<K> {
  return record.type === kind;
}

/** The record's word by the revision it names, and whether that revision still asks the same. */
export function judged(payload: Payload, role: Role, job: Job): Judged {
  const { plan, figures } = payload.basis;
  const place = placeOf(payload);
  const current = place.item ? job.stillAsked(place.piece, place.step, place.item, { plan, figures }) : true;
  const asked = place.item ? job.item(place.step, place.item, plan) : null;
  const [value, found] =
    payload.type === "reading"
      ? wordOfReading(payload.body, place, job, asked, payload.basis)
      : [null, wordOf(payload, asked, job)];
  return {
    payload,
    id: payload.id,
    type: payload.type,
    body: payload.body,
    place,
    role,
    verdict: found,
    value,
    current,
    good: GOOD.has(found.word),
    adverse: ADVERSE.has(found.word),
  };
}

function placeOf(payload: Payload): Place {
  const { piece, step, item, station } = payload;
  return { piece, step: step || "", item: item || "", station: station || "" };
}

/** The value of a reading in the item's uom, where there is one, and its verdict. asked: as the basis asks the item. */
export function wordOfReading(
  body: Bodies["reading"],
  place: Place,
  job: Job,
  asked: Item | null,
  basis: Basis,
): [Decimal | null, Verdict] {
  let typed: Decimal;
  try {
    typed = parse(body.entered, Boolean(body.comma)).value;
  } catch (error) {
    if (error instanceof NumberError) return [null, bare(verdict.UNJUDGED, error.message)];
    throw error;
  }
  if (asked === null) return [null, bare(verdict.UNJUDGED, "the plan has no such item")];
  const conversion = uoms.conversion(body.uom, asked.uom || "");
  if (conversion === null) {
    const reason = `recorded in ${body.uom}, the plan asks ${asked.uom || "no reading"}`;
    return [typed, bare(verdict.UNJUDGED, reason)];
  }
  const limits = job.limits(place.piece, place.step, place.item, basis.plan, basis.figures);
  const roundTo = asked.place ? new Decimal(asked.place) : null;
  const gauge = gaugeOf(body, job, asked);
  let found = verdict.judge(typed, limits, gauge, asked.rule || "simple", roundTo, conversion);
  const lacking = lackingGauge(body, asked, gauge);
  if (lacking && found.word !== verdict.RECORDED && found.word !== verdict.UNJUDGED) {
    found = { ...bare(verdict.UNJUDGED, lacking), margin: found.margin };
  }
  return [conversion.of(typed).value(), found];
}

/** The gauge a reading names, its U on the way to the item's uom; U is not known where there is no such way. */
export function gaugeOf(body: Bodies["reading"], job: Job, asked: Item | null): Gauge | null {
  const gauge = lookedUp(job.gauges, body.gauge || "");
  if (!gauge) return null;
  const wanted = asked?.uom || "";
  const conversion = uoms.conversion(gauge.uom || wanted, wanted);
  if (conversion === null || !gauge.uncertainty) return new Gauge(null);
  return new Gauge(new Decimal(gauge.uncertainty), conversion);
}

/** Why a reading cannot be trusted for want of a gauge, where the plan names one. */
function lackingGauge(body: Bodies["reading"], asked: Item, gauge: Gauge | null): string {
  if (gauge !== null || !asked.gauge) return "";
  if (body.gauge) return `the gauge ${body.gauge} is not known`;
  return `no gauge was named; the plan asks for one: ${asked.gauge}`;
}

function wordOf(payload: Payload, asked: Item | null, job: Job): Verdict<JudgedWord> {
  switch (payload.type) {
    case "visual":
      return wordOfVisual(payload.body.result, asked);
    case "report":
      if (payload.body.state === "asked for" || !payload.body.result) {
        return bare(INCOMPLETE, "the report is not back");
      }
      return bare(payload.body.result === "reject" ? REJECTED : COMPLETE);
    case "text":
      return bare(strip(payload.body.value) ? COMPLETE : INCOMPLETE);
    case "weld":
      return wordOfWeld(payload, job);
  }
  return bare(COMPLETE);
}

/** Incomplete without stamp, procedure and lot; else by the procedure, where the shop keeps procedures. */
function wordOfWeld({ body, at }: Payload<"weld">, job: Job): Verdict<JudgedWord> {
  const lacking = (["stamp", "procedure", "lot"] as const).filter((name) => !strip(body[name]));
  if (lacking.length > 0) return bare(INCOMPLETE, `${lacking.join(", ")} not given`);
  if (Object.keys(job.procedures).length === 0) return bare(COMPLETE);
  return wordOfPass(body, job.procedures, at.slice(0, 10));
}

function wordOfVisual(result: Result, asked: Item | null): Verdict<JudgedWord> {
  if (result === "accept") return bare(ACCEPTED);
  if (result === "reject") return bare(REJECTED);
  if (asked?.may_not_apply) return bare(DOES_NOT_APPLY);
  return bare(verdict.UNJUDGED, "the plan does not allow 'does not apply' here");
}
