/** Numbers as people type them in a shop, exact to the last digit. */

import { Decimal as Library } from "decimal.js";
import { BLANK, beginning, strip } from "./text";

export const PRECISION = 28;
export const MOST_DIGITS = 20;

/** Decimal arithmetic as Python's `CONTEXT`: 28 digits, half to even, the same ends of the exponent. */
export const Decimal = Library.clone({
  defaults: true,
  precision: PRECISION,
  rounding: Library.ROUND_HALF_EVEN,
  minE: -999_999,
  maxE: 999_999,
});
export type Decimal = Library;

/** Wide enough that products of what is typed, of limits and of exact factors are never rounded. Python's `WIDE`. */
export const WIDE = Library.clone({
  defaults: true,
  precision: 120,
  rounding: Library.ROUND_HALF_EVEN,
  minE: -9_999_999,
  maxE: 9_999_999,
});

export const ZERO = new Decimal(0);

const FRACTION_SIGNS: readonly (readonly [string, string])[] = [
  ["½", "1/2"],
  ["¼", "1/4"],
  ["¾", "3/4"],
  ["⅛", "1/8"],
  ["⅜", "3/8"],
  ["⅝", "5/8"],
  ["⅞", "7/8"],
  ["⅓", "1/3"],
  ["⅔", "2/3"],
  ["⅕", "1/5"],
  ["⅖", "2/5"],
  ["⅗", "3/5"],
  ["⅘", "4/5"],
  ["⅙", "1/6"],
  ["⅚", "5/6"],
];
/** In this order: two marks for feet are one for inches. */
const MARKS: readonly (readonly [string, string])[] = [
  ["′", "'"],
  ["’", "'"],
  ["″", '"'],
  ["”", '"'],
  ["''", '"'],
];
const FINEST = 128n;

const DECIMAL = /^(?:\d+(?:\.\d*)?|\.\d+)$/;
const FRACTION = /^(?:(\d+)(?: |-| - ))?(\d+)\/(\d+)$/;
const FEET = /^(\d+) *(?:'|ft\.?)(?: *-? *(.+))?$/s;
const INCH_MARK = / *(?:"|in\.?)$/;
const TWO_FIGURES = /^\d+ \d+$/;
const BLANKS = new RegExp(`[${BLANK}]+`, "g");

/** What was typed is no number, or could be read in two ways. The message says what to type instead. */
export class NumberError extends Error {
  override name = "NumberError";
}

/** A number as it was meant, and a word of doubt where there is one. */
export interface Typed {
  readonly value: Decimal;
  readonly doubt: string;
}

/**
 * A value kept as a division not yet done, so that nothing is rounded before it is compared. under is above 0.
 *
 * Both are kept in WIDE, so that all that is done with them is.
 */
export class Quotient {
  readonly over: Decimal;
  readonly under: Decimal;

  constructor(over: Decimal, under: Decimal) {
    this.over = new WIDE(over);
    this.under = new WIDE(under);
  }

  /** Divided, to 28 digits; for show and for what is worked out from it, not for the verdict. */
  value(): Decimal {
    return inContext(new Decimal(this.over).div(this.under));
  }

  less(limit: Decimal): Quotient {
    return new Quotient(this.over.minus(this.under.times(limit)), this.under);
  }

  negative(): Quotient {
    return new Quotient(this.over.neg(), this.under);
  }

  /** -1, 0 or 1 by cross-multiplying. */
  compare(other: Quotient): number {
    return this.over.times(other.under).cmp(other.over.times(this.under));
  }
}

/**
 * The value of what was typed: `1 7/8`, `1-7/8`, `7/8`, `⅞`, `.875`, `2' 6 1/2"`, with a sign before it.
 *
 * comma: whether the shop's locale writes decimals with a comma; a point is then refused, as a comma is otherwise.
 * Throws NumberError where the text is no number or is ambiguous.
 */
export function parse(text: string, comma = false): Typed {
  const shown = strip(text);
  let body = spelledOut(shown);
  let sign = 1;
  if (/^[-−+]/.test(body)) {
    sign = body[0] === "+" ? 1 : -1;
    body = strip(body.slice(1));
  }
  if (!body) throw new NumberError("Nothing was typed. Type a number such as 1 7/8 or .875.");
  if ((body.match(/\d/g) ?? []).length > MOST_DIGITS) {
    throw new NumberError(`'${beginning(shown, 40)}' has more than ${MOST_DIGITS} digits. Type fewer.`);
  }
  const typed = parseFeet(body, shown, comma);
  return { value: neverMinusZero(typed.value.times(sign)), doubt: typed.doubt };
}

/** The text with fraction signs as digits, plain marks for feet and inches, and single plain blanks. */
function spelledOut(text: string): string {
  let spelled = text;
  for (const [mark, plain] of MARKS) spelled = spelled.replaceAll(mark, plain);
  for (const [sign, digits] of FRACTION_SIGNS) spelled = spelled.replaceAll(sign, ` ${digits} `);
  spelled = spelled.replaceAll("⁄", "/");
  return strip(spelled.replace(BLANKS, " ")).replace(/ *\/ */g, "/");
}

function parseFeet(body: string, shown: string, comma: boolean): Typed {
  const inches = body.replace(INCH_MARK, "");
  const feet = FEET.exec(inches);
  if (!feet) {
    if (inches !== body && !inches) {
      throw new NumberError(`'${shown}' has no number before its inch mark. Type a number such as 1 7/8.`);
    }
    return parsePlain(inches, shown, comma);
  }
  const rest = feet[2] ? parsePlain(feet[2], shown, comma) : { value: ZERO, doubt: "" };
  if (rest.value.gte(12)) {
    throw new NumberError(`'${shown}' has 12 inches or more beside its feet. Type it in inches alone.`);
  }
  return { value: new Decimal(feet[1] ?? "0").times(12).plus(rest.value), doubt: rest.doubt };
}

function parsePlain(body: string, shown: string, comma: boolean): Typed {
  const fraction = FRACTION.exec(body);
  if (fraction) return parseFraction(fraction, shown);
  return { value: parseDecimal(body, shown, comma), doubt: "" };
}

function parseFraction(match: RegExpExecArray, shown: string): Typed {
  const whole = BigInt(match[1] ?? 0);
  const over = BigInt(match[2] ?? 0);
  const under = BigInt(match[3] ?? 0);
  const hasWhole = match[1] !== undefined;
  if (under === 0n) throw new NumberError(`'${shown}' divides by zero. Type the fraction again.`);
  if (under === 1n || (under & (under - 1n)) !== 0n || under > FINEST) {
    throw new NumberError(`'${shown}' is no fraction of a rule: its lower figure is not 2, 4, 8, 16, 32, 64 or 128.`);
  }
  if (hasWhole && over >= under) {
    throw new NumberError(`'${shown}' has a fraction of one or more beside a whole number. Type it again.`);
  }
  const value = exact(whole).plus(exact(over).div(exact(under)));
  return { value, doubt: doubtOfRunTogether(over, under, hasWhole) };
}

function exact(whole: bigint): Decimal {
  return new Decimal(whole.toString());
}

/** A word of doubt at `17/8`, which may be `1 7/8` with the blank left out. */
function doubtOfRunTogether(over: bigint, under: bigint, hasWhole: boolean): string {
  const digits = over.toString();
  for (let cut = 1; cut < digits.length; cut += 1) {
    const [whole, rest] = [digits.slice(0, cut), digits.slice(cut)];
    const upper = BigInt(rest);
    if (!hasWhole && rest[0] !== "0" && upper < under && under < over && upper % 2n === 1n) {
      return `${over}/${under} or ${whole} ${rest}/${under}?`;
    }
  }
  return "";
}

function parseDecimal(body: string, shown: string, comma: boolean): Decimal {
  if (body.includes(",") && body.includes(".")) {
    throw new NumberError(`'${shown}' has a comma and a point. Type it without one of them.`);
  }
  if (body.includes(",") && !comma) {
    throw new NumberError(`'${shown}' has a comma. Type the decimals after a point.`);
  }
  if (body.includes(".") && comma) {
    throw new NumberError(`'${shown}' has a point. Type the decimals after a comma.`);
  }
  const plain = body.replaceAll(",", ".");
  if (DECIMAL.test(plain)) return new Decimal(plain);
  if (TWO_FIGURES.test(body)) {
    throw new NumberError(`'${shown}' stops in the middle of a fraction. Type the figure under the line as well.`);
  }
  throw new NumberError(`'${beginning(shown, 40)}' is not a number. Type one such as 1 7/8 or .875.`);
}

/** The value rounded to 28 digits, as Python's unary operators leave it, and 0 for -0. */
export function inContext(value: Decimal): Decimal {
  return neverMinusZero(value.toSignificantDigits(PRECISION));
}

/** The value, and 0 for -0. */
export function neverMinusZero(value: Decimal): Decimal {
  return value.isZero() ? ZERO : value;
}

/** The exact value in plain figures, without an exponent, without zeros at the end, never -0. */
export function textOf(value: Decimal): string {
  return value.isZero() ? "0" : value.toFixed();
}

/** Decimals of a value that are all shown; of one that has more, as after a division, only so many as tell something. */
export const MOST_SHOWN = 6;

/** Exact up to six decimals, else four digits that count; for margins and converted readings, never for limits. */
export function shownShort(value: Decimal): string {
  if (value.decimalPlaces() <= MOST_SHOWN) return textOf(value);
  return textOf(value.toSignificantDigits(4, Decimal.ROUND_HALF_EVEN));
}

/**
 * The value the shop's way: `1 7/8` where it lies on a rule's mark, else the exact decimal.
 *
 * finest: the finest division of the rule, a power of two.
 */
export function shownInches(value: Decimal, finest = 64): string {
  const marks = inContext(value.abs()).times(finest);
  if (!marks.isInteger()) return textOf(value);
  return fractionText(BigInt(marks.toFixed()), BigInt(finest), value.lt(0));
}

/** The mark of the rule nearest to the value; half way goes to the even mark. */
export function nearestFraction(value: Decimal, finest = 64): string {
  const marks = inContext(value.abs()).times(finest).toDecimalPlaces(0, Decimal.ROUND_HALF_EVEN);
  return fractionText(BigInt(marks.toFixed()), BigInt(finest), value.lt(0));
}

function fractionText(marks: bigint, finest: bigint, negative: boolean): string {
  if (marks === 0n) return "0";
  const whole = marks / finest;
  let over = marks % finest;
  let under = finest;
  while (over !== 0n && over % 2n === 0n) {
    over /= 2n;
    under /= 2n;
  }
  const parts = [...(whole ? [`${whole}`] : []), ...(over ? [`${over}/${under}`] : [])];
  return (negative ? "-" : "") + parts.join(" ");
}
