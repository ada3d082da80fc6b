/** Values and limits as a shop writes them: fractions of an inch beside decimals, limits never relaxed by rounding. */
import { inCounterpart, type Limits, shown, shownInward } from "../core/limits";
import { Decimal, nearestFraction, shownInches, shownShort, textOf, type Decimal as Value } from "../core/numbers";
import { COUNTERPARTS, type Conversion, conversion, SAME } from "../core/uoms";
import { t } from "../language";
import { localized } from "./customs";
import { reasonText } from "./reasons";

const FINEST = 64;
function onMark(value: Value): boolean {
  return value.times(FINEST).isInteger();
}

/** A value or a margin: `9/64` on a rule's mark, else the decimal, short. */
export function shownValue(value: Value, uom: string): string {
  return uom === "in" && onMark(value) ? shownInches(value) : localized(shownShort(value));
}

/** What stands beside the figure typed: its decimal beside a fraction, the nearest sixty-fourth beside a decimal. */
export function beside(value: Value, uom: string, typed: string): string {
  if (uom !== "in") return "";
  const decimal = localized(textOf(value));
  if (/[/½¼¾⅛⅜⅝⅞]/.test(typed)) return decimal;
  if (value.isInteger()) return "";
  return onMark(value) ? shownInches(value) : t("limit-about", { value: nearestFraction(value) });
}

function shownLimit(limit: Value, upper: boolean, uom: string): string {
  return shownValue(shown(limit, upper), uom);
}

/** The limits in the shop's notation: `5 7/8 to 6 1/8 in`, `at most 9/64 in`; in words where there are none. */
export function limitText({ lower, upper, reason }: Limits, uom: string): string {
  if (reason) return reasonText(reason);
  const values = {
    uom,
    ...(lower ? { lower: shownLimit(lower, false, uom) } : {}),
    ...(upper ? { upper: shownLimit(upper, true, uom) } : {}),
  };
  if (lower && upper) return t("limit-between", values);
  if (upper) return t("limit-at-most", values);
  return lower ? t("limit-at-least", values) : t("limit-none");
}

function both(own: string, other: string): string {
  return t("limit-both", { own, other });
}

/** The limits in the uom read, rounded inward where they are converted, and in the other system beside. */
export function limitsRead(limits: Limits, own: string, read: string): string {
  if (!limits.lower && !limits.upper) return limitText(limits, own);
  if (read === own) {
    const other = inCounterpart(limits, own);
    return other ? both(limitText(limits, own), limitText(other[0], other[1])) : limitText(limits, own);
  }
  const way = conversion(own, read) ?? SAME;
  const place = new Decimal(COUNTERPARTS.get(own)?.[0] === read ? (COUNTERPARTS.get(own)?.[1] ?? "0.001") : "0.001");
  const turned = {
    lower: limits.lower && shownInward(limits.lower, false, place, way),
    upper: limits.upper && shownInward(limits.upper, true, place, way),
    reason: "",
  };
  return both(limitText(turned, read), limitText(limits, own));
}

/** The uoms an item's reading may be typed in: the item's own, that of the other system, and the gauge's. */
export function uomsFor(own: string, gauge: string | undefined): string[] {
  const wanted = [own, COUNTERPARTS.get(own)?.[0], gauge];
  return [...new Set(wanted.filter((one): one is string => Boolean(one) && conversion(one ?? "", own) !== null))];
}

/** A margin of the item's uom in the uom read. */
export function marginRead(margin: Value, own: string, read: string): Value {
  const way: Conversion = conversion(own, read) ?? SAME;
  return way.ofInterval(margin).value();
}
