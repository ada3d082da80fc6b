/** What the trends ask of the server, what of it is remembered in this browser, and how its figures are written. */
import type { components } from "../../api/schema";
import { Decimal, MOST_SHOWN, shownShort, textOf } from "../../core/numbers";
import { locale, t } from "../../language";
import { localized } from "../../parts/customs";
import { shownValue } from "../../parts/notation";

type Schemas = components["schemas"];
export type ListedItem = Schemas["ListedItem"];
export type Trend = Schemas["ItemTrend"];
export type Group = Schemas["TrendGroup"];
export type Share = Schemas["Proportion"];
export type Shares = Schemas["Proportions"];
export type Stages = Schemas["Stages"];
export type Dimension = Schemas["MeasuredDimension"];
export type Study = Schemas["Study"];

/** Run rules by their ids, as the server has them. */
export const RULES = [
  "beyond-3",
  "two-of-three-beyond-2",
  "four-of-five-beyond-1",
  "eight-on-one-side",
  "nine-on-one-side",
  "six-rising-or-falling",
  "fourteen-alternating",
  "fifteen-within-1",
  "eight-outside-1",
] as const;
export const WEIGHTS = ["0.05", "0.1", "0.2", "0.3", "0.4"] as const;
export const FILTERS = ["job", "gauge", "maker", "procedure", "kind"] as const;
export type Filter = (typeof FILTERS)[number];

/** How the chart is worked out; remembered in this browser. */
export interface Ways {
  readonly rules: readonly string[];
  readonly weight: string;
  readonly show: "left" | "found";
  readonly baseline: "first" | "all";
}

const USUAL: Ways = { rules: ["beyond-3", "eight-on-one-side"], weight: "0.2", show: "left", baseline: "first" };
const KEPT = "seamtag.trends";
/** Decimals of a value beyond which more of them tell nothing in a chart. */
const MOST_PLACES = 5;

export function keptWays(): Ways {
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT) ?? "{}") as Partial<Ways>;
    return {
      rules: Array.isArray(kept.rules) ? RULES.filter((rule) => kept.rules?.includes(rule)) : USUAL.rules,
      weight: WEIGHTS.find((weight) => weight === kept.weight) ?? USUAL.weight,
      show: kept.show === "found" ? "found" : "left",
      baseline: kept.baseline === "all" ? "all" : "first",
    };
  } catch {
    return USUAL;
  }
}

export function keepWays(ways: Ways): void {
  localStorage.setItem(KEPT, JSON.stringify(ways));
}

export type Chosen = Readonly<Partial<Record<Filter, string>>>;

export function pathOf(plan: string, step: string, item: string, chosen: Chosen, ways: Ways): string {
  const { rules, weight, show, baseline } = ways;
  const query = { plan, step, item, ...chosen, rules: rules.join(","), weight, show, baseline };
  return `/trends/series?${new URLSearchParams(query)}`;
}

/** A value as it was read: `3/32`, `0.2513`. */
export function valueText(value: number, uom: string): string {
  return shownValue(exact(value), uom);
}

function exact(value: number): Decimal {
  return new Decimal(Number(value.toPrecision(10)));
}

/** A limit in whole: rounded, a value might look inside that is outside. uom: where the shop's fractions are wanted. */
export function limitText(value: number, uom = ""): string {
  const limit = new Decimal(Number(value.toPrecision(15)));
  return limit.decimalPlaces() > MOST_SHOWN ? localized(textOf(limit)) : shownValue(limit, uom);
}

export function limitsText(lower: number | null | undefined, upper: number | null | undefined, uom: string): string {
  const shown = (value: number) => limitText(value, uom);
  if (typeof lower === "number" && typeof upper === "number")
    return t("limit-between", { lower: shown(lower), upper: shown(upper), uom });
  if (typeof upper === "number") return t("limit-at-most", { upper: shown(upper), uom });
  return typeof lower === "number" ? t("limit-at-least", { lower: shown(lower), uom }) : t("limit-none");
}

/** How many decimals the values have, at most so many as are written of one. */
export function placesOf(values: readonly number[]): number {
  const places = values.map((value) => new Decimal(shownShort(exact(value))).decimalPlaces());
  return Math.min(MOST_PLACES, Math.max(0, ...places));
}

/** A figure to so many decimals. */
export function fixed(value: number, places: number): string {
  return value.toLocaleString(locale(), { minimumFractionDigits: places, maximumFractionDigits: places });
}

/** A worked-out figure, to four digits. */
export function figure(value: number, digits = 4): string {
  return value.toLocaleString(locale(), { maximumSignificantDigits: digits });
}

export function percent(share: number): string {
  return share.toLocaleString(locale(), { style: "percent", maximumFractionDigits: share > 0 && share < 0.1 ? 1 : 0 });
}

/** An index such as Cp, to two decimals. */
export function indexText(value: number): string {
  return value.toLocaleString(locale(), { minimumFractionDigits: 2, maximumFractionDigits: 2 });
}
