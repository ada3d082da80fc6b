/**
 * Quantities of the trade: welds, rolled tubes, stayed plates, hydrostatic tests, welders' qualification.
 *
 * Every step is worked in the order in which the server's twin works it, so that both give the same last digit. Nothing
 * here judges: the factors, stresses and limits are those of the code edition in force, and are given by whoever asks.
 */

import { Decimal, textOf } from "./numbers";
import { beginning } from "./text";

const ONE = new Decimal(1);

/** Thermal efficiency by welding process. Source: TWI, FAQ on heat input and arc energy, read. */
export const EFFICIENCY: Readonly<Record<string, Decimal>> = {
  SAW: new Decimal("1.0"),
  SMAW: new Decimal("0.8"),
  FCAW: new Decimal("0.8"),
  GMAW: new Decimal("0.8"),
  GTAW: new Decimal("0.6"),
  PAW: new Decimal("0.6"),
};

/**
 * Temperature of the water of a hydrostatic test: lowest, highest, uom; both ends are allowed.
 *
 * Sources: 46 CFR 61.05-5(b), 34 Pa. Code 3a.115(a) and Indian Boiler Regulations 379(iii), each read.
 */
export const WATER: Readonly<Record<string, readonly [Decimal, Decimal, string]>> = {
  "46 CFR 61.05-5 firetube": [new Decimal(70), new Decimal(100), "degF"],
  "46 CFR 61.05-5 watertube": [new Decimal(70), new Decimal(160), "degF"],
  "34 Pa. Code 3a.115": [new Decimal(70), new Decimal(120), "degF"],
  "IBR 379": [new Decimal(20), new Decimal(50), "degC"],
};

export type Position = "F" | "H" | "V" | "O";

export const FHVO: readonly Position[] = ["F", "H", "V", "O"];

/**
 * Positions a welder's test qualifies for: of groove welds, then of fillet welds. F flat, H horizontal, V vertical,
 * O overhead.
 *
 * What plates say holds for grooves of plate, and of pipe over 24 in: in pipe of 24 in and less the plate tests 1G, 3G
 * and 4G qualify grooves in the flat position only. Source: ASME Section IX, QW-461.9, read second-hand.
 */
export const POSITIONS: Readonly<Record<string, readonly [readonly Position[], readonly Position[]]>> = {
  "plate 1G": [["F"], ["F"]],
  "plate 2G": [
    ["F", "H"],
    ["F", "H"],
  ],
  "plate 3G": [
    ["F", "V"],
    ["F", "H", "V"],
  ],
  "plate 4G": [
    ["F", "O"],
    ["F", "H", "O"],
  ],
  "plate 3G+4G": [["F", "V", "O"], FHVO],
  "plate 2G+3G+4G": [FHVO, FHVO],
  "pipe 1G": [["F"], ["F"]],
  "pipe 2G": [
    ["F", "H"],
    ["F", "H"],
  ],
  "pipe 5G": [["F", "V", "O"], FHVO],
  "pipe 6G": [FHVO, FHVO],
  "pipe 2G+5G": [FHVO, FHVO],
};

const STAY_PLATE = new Decimal("0.4375");
const MOST_LAYERED = new Decimal("0.5");
const LAYERS = 3;
const SMALL_PIPE = ONE;
const LARGE_PIPE = new Decimal("2.875");
const MONTHS = 6;
const MONTHS_OF_YEAR = 12;

const DATE = /^([0-9]{4})-([0-9]{2})-([0-9]{2})$/;
const SHORT_MONTHS: ReadonlySet<number> = new Set([4, 6, 9, 11]);

/** The quantity has no value for what was given. The message says what is wrong, with what. */
export class NoAnswerError extends Error {
  override name = "NoAnswerError";
}

function askAboveZero(what: string, value: Decimal): void {
  if (value.lte(0)) throw new NoAnswerError(`${what} must be above 0, and it is ${textOf(value)}`);
}

function askNotBelowZero(what: string, value: Decimal): void {
  if (value.lt(0)) throw new NoAnswerError(`${what} must not be below 0, and it is ${textOf(value)}`);
}

/**
 * Theoretical throat of a fillet weld with a right angle between its legs, in the uom of the legs.
 *
 * Throws NoAnswerError unless both legs are above 0. Source: geometry, height of a right triangle on its hypotenuse.
 */
export function throat(leg1: Decimal, leg2: Decimal): Decimal {
  askAboveZero("the first leg", leg1);
  askAboveZero("the second leg", leg2);
  const squares = leg1.times(leg1).plus(leg2.times(leg2));
  return leg1.times(leg2).div(squares.sqrt());
}

/**
 * Arc energy in kJ for each unit of length, 60 V I / (1000 S): kJ/in of in/min, kJ/mm of mm/min.
 *
 * travel: length welded in a minute. It is not the heat input: no efficiency of the process is in it. Several American
 * codes call this very quantity heat input, so a record must say which of the two is meant.
 * Throws NoAnswerError where travel is not above 0, or volts or amps are below 0.
 * Source: TWI, FAQ on heat input and arc energy, read. That Section IX, QW-409.1 uses no efficiency: from memory, not
 * opened.
 */
export function arcEnergy(volts: Decimal, amps: Decimal, travel: Decimal): Decimal {
  askNotBelowZero("the volts", volts);
  askNotBelowZero("the amps", amps);
  askAboveZero("the travel", travel);
  return new Decimal(60).times(volts).times(amps).div(new Decimal(1000).times(travel));
}

/**
 * Heat input in kJ for each unit of length: the arc energy times the thermal efficiency of the process.
 *
 * It is not the arc energy, although several American codes give that the name of heat input; a record must say which
 * is meant. efficiency: above 0 and not above 1, as in EFFICIENCY.
 * Throws NoAnswerError as arcEnergy does, and where the efficiency is outside its range.
 * Source: TWI, FAQ on heat input and arc energy, read.
 */
export function heatInput(volts: Decimal, amps: Decimal, travel: Decimal, efficiency: Decimal): Decimal {
  askAboveZero("the efficiency", efficiency);
  if (efficiency.gt(1)) {
    throw new NoAnswerError(`the efficiency must not be above 1, and it is ${textOf(efficiency)}`);
  }
  return arcEnergy(volts, amps, travel).times(efficiency);
}

/**
 * Carbon equivalent by the formula of the IIW, C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15, in weight per cent.
 *
 * Throws NoAnswerError where a share is below 0 or above 100. Source: public calculators with the formula, read.
 */
export function carbonEquivalent(
  c: Decimal,
  mn: Decimal,
  cr: Decimal,
  mo: Decimal,
  v: Decimal,
  ni: Decimal,
  cu: Decimal,
): Decimal {
  for (const [element, share] of Object.entries({ C: c, Mn: mn, Cr: cr, Mo: mo, V: v, Ni: ni, Cu: cu })) {
    askNotBelowZero(`the share of ${element}`, share);
    if (share.gt(100)) {
      throw new NoAnswerError(`the share of ${element} must not be above 100, and it is ${textOf(share)}`);
    }
  }
  const hardening = cr.plus(mo).plus(v).div(5);
  const others = ni.plus(cu).div(15);
  return c.plus(mn.div(6)).plus(hardening).plus(others);
}

/**
 * Reduction of a tube's wall by rolling, in per cent of both walls (od - idBefore), not of one.
 *
 * hole, od, idBefore, idAfter: diameters of the tube hole, of the tube outside, and inside it before and after rolling,
 * all in one uom. 0 is bare contact with the hole.
 * Throws NoAnswerError where the tube has not come to the hole yet, where it has no wall, and where it does not go in.
 * Source: a guide to tube expanding by a maker of the tools, read.
 */
export function wallReduction(hole: Decimal, od: Decimal, idBefore: Decimal, idAfter: Decimal): Decimal {
  const contact = diameterAtContact(hole, od, idBefore);
  if (idAfter.lt(contact)) {
    const growth = contact.minus(idAfter);
    throw new NoAnswerError(
      `not yet in contact: the inside diameter is ${textOf(idAfter)}, and must first grow by ` +
        `${textOf(growth)} to ${textOf(contact)}`,
    );
  }
  const rolled = idAfter.minus(contact);
  return new Decimal(100).times(rolled).div(od.minus(idBefore));
}

/**
 * Inside diameter to roll a tube to, for a wall reduction in per cent of both walls, in the uom of the diameters.
 *
 * Throws NoAnswerError where the per cent are below 0, and for hole and tube as wallReduction does.
 * Source: the formula of wallReduction, turned round.
 */
export function targetId(hole: Decimal, od: Decimal, idBefore: Decimal, percent: Decimal): Decimal {
  askNotBelowZero("the wall reduction", percent);
  const contact = diameterAtContact(hole, od, idBefore);
  return contact.plus(percent.div(100).times(od.minus(idBefore)));
}

/** Inside diameter at which a tube comes to its hole. Throws NoAnswerError where there is no such tube or no fit. */
function diameterAtContact(hole: Decimal, od: Decimal, idBefore: Decimal): Decimal {
  askAboveZero("the inside diameter before rolling", idBefore);
  if (od.lte(idBefore)) {
    throw new NoAnswerError(
      `the tube has no wall: its outside diameter ${textOf(od)} is not above its inside diameter ${textOf(idBefore)}`,
    );
  }
  if (hole.lt(od)) {
    throw new NoAnswerError(
      `the tube does not go in: the hole ${textOf(hole)} is below its outside diameter ${textOf(od)}`,
    );
  }
  return idBefore.plus(hole.minus(od));
}

/**
 * C of a plate held by welded stays, or by stays screwed through with their ends riveted over: 2.1 or 2.2.
 *
 * t: thickness of the plate in inches; C changes above 7/16 in. Throws NoAnswerError where t is not above 0.
 * Source: ASME Section I, PG-46.1 of 2007, read second-hand.
 */
export function stayConstant(t: Decimal): Decimal {
  askAboveZero("the thickness", t);
  return new Decimal(t.lte(STAY_PLATE) ? "2.1" : "2.2");
}

/**
 * Pressure that a stayed flat plate bears, t^2 S C / p^2, in the uom of the stress.
 *
 * t, pitch: thickness of the plate and greatest pitch of the stays, in one uom. s: allowable stress. c: constant of the
 * kind of stay. Throws NoAnswerError unless all are above 0.
 * Source: NBIC Part 2, S2.10.4, read in National Board item NB12-1201.
 */
export function stayedPlatePressure(t: Decimal, pitch: Decimal, s: Decimal, c: Decimal): Decimal {
  askAboveZero("the thickness", t);
  askAboveZero("the pitch", pitch);
  askStressAndConstant(s, c);
  return t.times(t).times(s).times(c).div(pitch.times(pitch));
}

/**
 * Least thickness of a stayed flat plate, p sqrt(P / (C S)), in the uom of the pitch.
 *
 * pressure, s: pressure and allowable stress, in one uom. c: constant of the kind of stay.
 * Throws NoAnswerError unless all are above 0. Source: as stayedPlatePressure.
 */
export function stayedPlateThickness(pressure: Decimal, pitch: Decimal, s: Decimal, c: Decimal): Decimal {
  askAboveZero("the pressure", pressure);
  askAboveZero("the pitch", pitch);
  askStressAndConstant(s, c);
  return pitch.times(pressure.div(c.times(s)).sqrt());
}

/**
 * Greatest pitch of the stays of a flat plate, t sqrt(C S / P), in the uom of the thickness.
 *
 * pressure, s: pressure and allowable stress, in one uom. c: constant of the kind of stay.
 * Throws NoAnswerError unless all are above 0. Source: as stayedPlatePressure.
 */
export function stayPitch(pressure: Decimal, t: Decimal, s: Decimal, c: Decimal): Decimal {
  askAboveZero("the pressure", pressure);
  askAboveZero("the thickness", t);
  askStressAndConstant(s, c);
  return t.times(c.times(s).div(pressure).sqrt());
}

function askStressAndConstant(s: Decimal, c: Decimal): void {
  askAboveZero("the stress", s);
  askAboveZero("the constant C", c);
}

/**
 * Pressure of a hydrostatic test, factor times MAWP times stress ratio, in the uom of the MAWP.
 *
 * factor: of the rule in force (1.5, 1.3 and 1.25 are all in use). stressRatio: allowable stress at the temperature of
 * the test to that at the design temperature; one below 1 counts as 1.
 * Throws NoAnswerError unless all are above 0.
 * Sources: 46 CFR 61.05-10(c) for boilers, 46 CFR 54.10-10(b) for vessels and the ratio, each read.
 */
export function testPressure(mawp: Decimal, factor: Decimal, stressRatio: Decimal = ONE): Decimal {
  askAboveZero("the MAWP", mawp);
  askAboveZero("the factor", factor);
  askAboveZero("the stress ratio", stressRatio);
  return factor.times(mawp).times(Decimal.max(stressRatio, ONE));
}

/**
 * Pressure that a hydrostatic test must never pass, 106 per cent of the test pressure, in its uom.
 *
 * Throws NoAnswerError unless it is above 0. Sources: 34 Pa. Code 3a.115(a) and IBR 379(iv), each read.
 */
export function testCeiling(pressure: Decimal): Decimal {
  askAboveZero("the test pressure", pressure);
  return new Decimal("1.06").times(pressure);
}

/**
 * Top of scale of a test gauge: lowest (1.5 times the test pressure), about (2 times), highest (4 times).
 *
 * All in the uom of the test pressure. Throws NoAnswerError unless it is above 0.
 * Source: ASME Section VIII-1, UG-102, from memory, not opened.
 */
export function gaugeRange(pressure: Decimal): [Decimal, Decimal, Decimal] {
  askAboveZero("the test pressure", pressure);
  return [new Decimal("1.5").times(pressure), new Decimal(2).times(pressure), new Decimal(4).times(pressure)];
}

/**
 * Greatest thickness of weld metal a welder's test qualifies for, in inches; null where there is no maximum.
 *
 * coupon: thickness of the weld metal in the coupon, in inches. layers: in which it was laid.
 * Twice the coupon; from 1/2 in with at least three layers there is no maximum.
 * Throws NoAnswerError where the coupon is not above 0 or there is no layer.
 * Source: ASME Section IX, QW-452.1(b), read second-hand.
 */
export function mostThickness(coupon: Decimal, layers: number): Decimal | null {
  askAboveZero("the thickness of the coupon", coupon);
  if (layers < 1) throw new NoAnswerError(`the coupon must have at least 1 layer, and it has ${layers}`);
  if (coupon.gte(MOST_LAYERED) && layers >= LAYERS) return null;
  return new Decimal(2).times(coupon);
}

/**
 * Least outside diameter of pipe a welder's test qualifies for, in inches. There is no greatest.
 *
 * couponOd: outside diameter of the pipe that was welded, in inches. Under 1 in it is that diameter itself, from 1 to
 * 2 7/8 in it is 1 in, above it is 2 7/8 in. Throws NoAnswerError where it is not above 0.
 * Source: ASME Section IX, QW-452.3, read second-hand.
 */
export function leastOd(couponOd: Decimal): Decimal {
  askAboveZero("the outside diameter of the coupon", couponOd);
  if (couponOd.lt(SMALL_PIPE)) return couponOd;
  return couponOd.lte(LARGE_PIPE) ? SMALL_PIPE : LARGE_PIPE;
}

/**
 * Day on which a welder's qualification for a process lapses, as an ISO date.
 *
 * last: ISO date of the last weld made with that process. Six calendar months later; where that month is too short, its
 * last day. Throws NoAnswerError where last is no date.
 * Source: ASME Section IX, QW-322.1, read second-hand. Calendar months and the clamped end are our reading of it.
 */
export function lapsesOn(last: string): string {
  const { year, month, day } = sixMonthsAfter(dayOf(last));
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`;
}

/**
 * Whether a welder's qualification for a process has lapsed on a day; on the day of lapsesOn it has.
 *
 * last: ISO date of the last weld made with that process up to the day asked. on: ISO date of that day.
 * Throws NoAnswerError where either is no date, or the last weld is after the day asked: it tells nothing of that day.
 */
export function hasLapsed(last: string, on: string): boolean {
  const [welded, asked] = [dayOf(last), dayOf(on)];
  if (rank(welded) > rank(asked)) throw new NoAnswerError(`the last weld, ${last}, is after the day asked, ${on}`);
  return rank(asked) >= rank(sixMonthsAfter(welded));
}

/** A day of the calendar in whole numbers: no clock and no time zone has a part in it. */
interface Day {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

function sixMonthsAfter({ year, month, day }: Day): Day {
  const later = month + MONTHS;
  const over = later > MONTHS_OF_YEAR;
  const found = { year: over ? year + 1 : year, month: over ? later - MONTHS_OF_YEAR : later };
  return { ...found, day: Math.min(day, daysOf(found.year, found.month)) };
}

/** The day of an ISO date. Throws NoAnswerError where it is none, or no day of the calendar. */
function dayOf(text: string): Day {
  const date = DATE.exec(text);
  if (!date) throw new NoAnswerError(`'${beginning(text, 40)}' is not a date such as 2025-01-15`);
  const [year, month, day] = [Number(date[1]), Number(date[2]), Number(date[3])];
  if (year < 1 || month < 1 || month > MONTHS_OF_YEAR || day < 1 || day > daysOf(year, month)) {
    throw new NoAnswerError(`'${text}' is no day of the calendar`);
  }
  return { year, month, day };
}

function daysOf(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return SHORT_MONTHS.has(month) ? 30 : 31;
}

/** Whether a text is an ISO date of the calendar. */
export function isDay(text: string): boolean {
  try {
    dayOf(text);
    return true;
  } catch (error) {
    if (error instanceof NoAnswerError) return false;
    throw error;
  }
}

/** A number that orders days. */
function rank({ year, month, day }: Day): number {
  return year * 10_000 + month * 100 + day;
}

function padded(whole: number, digits: number): string {
  return String(whole).padStart(digits, "0");
}
