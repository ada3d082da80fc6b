/** What the trends ask of the server, what of it is remembered in this browser, and how its figures are written. */
import type { components } from "../../api/schema";
import { Decimal } from "../../core/numbers";
import { locale } from "../../language";
import { shownValue } from "../../parts/notation";

type Schemas = components["schemas"];
export type Item = Schemas["MeasuredItem"];
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
  return shownValue(new Decimal(Number(value.toPrecision(10))), uom);
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
