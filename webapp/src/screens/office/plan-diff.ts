/** What differs between two revisions of a plan, by the codes of steps and items: what a planner looks through. */

export interface PlanItem {
  code: string;
  name: string;
  kind: string;
  [field: string]: unknown;
}

export interface PlanStep {
  code: string;
  number: string;
  name: string;
  stage: string;
  kinds: string[];
  /** Points, rules and stations are lines of text here, as in a plan's workbook. */
  points: unknown[];
  items: PlanItem[];
  [field: string]: unknown;
}

/** A plan as its planner writes it, by the keys of its YAML. */
export interface PlanSource {
  plan: string;
  title: string;
  notice: string;
  stages: { number: string; name: string }[];
  figures?: Record<string, { uom: string; what: string }>;
  piece_figures?: Record<string, { uom: string; what: string }>;
  steps: PlanStep[];
  [field: string]: unknown;
}

/** One field that differs. place: step and item by code, '' for the plan itself; '' on a side where it is not there. */
export interface Difference {
  place: string;
  field: string;
  before: string;
  after: string;
}

/** A value of a field in a line: lists with commas, keys with their values. */
export function inLine(value: unknown): string {
  if (value === undefined || value === null) return "";
  if (Array.isArray(value)) return value.map(inLine).join(", ");
  if (typeof value === "object") {
    return Object.entries(value)
      .map(([key, of]) => `${key} ${inLine(of)}`)
      .join(" ");
  }
  return String(value);
}

function fieldsThatDiffer(place: string, before: object, after: object, leaveOut: string[] = []): Difference[] {
  const [a, b] = [before as Record<string, unknown>, after as Record<string, unknown>];
  const fields = [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((field) => !leaveOut.includes(field));
  return fields
    .map((field) => ({ place, field, before: inLine(a[field]), after: inLine(b[field]) }))
    .filter((one) => one.before !== one.after);
}

/** Whole things that are on one side only, and the fields of those on both, in the order of the later one. */
function byCode<T extends { code: string; name: string }>(
  before: readonly T[],
  after: readonly T[],
  placeOf: (one: T) => string,
  inside: (former: T, latter: T) => Difference[],
): Difference[] {
  const old = new Map(before.map((one) => [one.code, one]));
  const kept = new Set(after.map(({ code }) => code));
  const gone = before.filter(({ code }) => !kept.has(code));
  const moved = before.filter(({ code }) => kept.has(code)).map(({ code }) => code);
  const order = after.filter(({ code }) => old.has(code)).map(({ code }) => code);
  return [
    ...after.flatMap((one) => {
      const former = old.get(one.code);
      if (!former) return [{ place: placeOf(one), field: "", before: "", after: one.name }];
      const place = moved.indexOf(one.code) === order.indexOf(one.code) ? [] : orderOf(placeOf(one), moved, order, one);
      return [...place, ...inside(former, one)];
    }),
    ...gone.map((one) => ({ place: placeOf(one), field: "", before: one.name, after: "" })),
  ];
}

function orderOf(place: string, moved: string[], order: string[], { code }: { code: string }): Difference[] {
  return [{ place, field: "order", before: `${moved.indexOf(code) + 1}`, after: `${order.indexOf(code) + 1}` }];
}

export function differences(before: PlanSource, after: PlanSource): Difference[] {
  const tables = (of: PlanSource) => (of.tables ?? {}) as Record<string, object>;
  const named = (key: string, a: Record<string, object>, b: Record<string, object>) =>
    [...new Set([...Object.keys(a), ...Object.keys(b)])].flatMap((name) =>
      fieldsThatDiffer(`${key} ${name}`, a[name] ?? {}, b[name] ?? {}),
    );
  return [
    ...fieldsThatDiffer("", before, after, ["steps", "figures", "piece_figures", "tables"]),
    ...named("figure", before.figures ?? {}, after.figures ?? {}),
    ...named("figure", before.piece_figures ?? {}, after.piece_figures ?? {}),
    ...named("table", tables(before), tables(after)),
    ...byCode(
      before.steps,
      after.steps,
      (step) => step.code,
      (former, latter) => [
        ...fieldsThatDiffer(latter.code, former, latter, ["items"]),
        ...byCode(
          former.items,
          latter.items,
          (item) => `${latter.code}.${item.code}`,
          (one, other) => fieldsThatDiffer(`${latter.code}.${other.code}`, one, other),
        ),
      ],
    ),
  ];
}
