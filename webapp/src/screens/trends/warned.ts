/** Flags that a rule raised about an item: `readings drift`, by the state in which they stand. */
import type { components } from "../../api/schema";
import { useLoaded } from "../../parts/use";
import { callSignedIn } from "../../sync/loop";
import type { ListedItem, Trend } from "./asking";

type Schemas = components["schemas"];
export type Flag = Schemas["Flag"];
interface Place extends Pick<Trend, "step" | "item"> {
  readonly filters: Pick<Trend["filters"], "job">;
}

const BROKEN = "run rule broken";
/** Closed ones are told of the day only. */
const STATES = ["open", "decided", "closed"] as const;

/** None where the server does not tell this person: they see the values all the same. */
async function flagsIn(state: string): Promise<readonly Flag[]> {
  const path = `/review?${new URLSearchParams({ state, kind: BROKEN })}`;
  return callSignedIn<Schemas["Review"]>(path).then(
    ({ flags }) => flags,
    () => [],
  );
}

/** Those about values of a trend, the open ones first; asked for again where something came. */
export function useWarned(trend: Trend, inputs: unknown[]): readonly Flag[] {
  const load = async () => (await Promise.all(STATES.map(flagsIn))).flat();
  return warnedOf(useLoaded(load, inputs) ?? [], trend);
}

/** By step and item, and by job: another plan may have the same step and item. */
export function warnedOf(flags: readonly Flag[], { step, item, filters }: Place): readonly Flag[] {
  const jobs = new Set(filters.job.map(({ value }) => value));
  return flags.filter((flag) => flag.step.code === step && flag.item.code === item && jobs.has(flag.job));
}

/** The open flags of all items, by the plan of their job. */
export function useDrifting(inputs: unknown[]): ReadonlySet<string> {
  const load = async () => {
    const flags = await flagsIn("open");
    if (flags.length === 0) return new Set<string>();
    const jobs = await callSignedIn<Schemas["Job"][]>("/jobs").catch(() => []);
    const plans = new Map(jobs.map(({ id, plan }) => [id, plan?.code]));
    return new Set(flags.map(({ job, step, item }) => keyOf(plans.get(job) ?? "", step.code, item.code)));
  };
  return useLoaded(load, inputs) ?? new Set();
}

export function keyOf(plan: string, step: string, item: string): string {
  return [plan, step, item].join("\n");
}

/** How an item stands: what a supervisor should look at first, and why. */
export interface Stands {
  readonly item: ListedItem;
  readonly drifting: boolean;
  readonly out: number;
}

export function standsOf(items: readonly ListedItem[], drifting: ReadonlySet<string>): Stands[] {
  return items.map((item) => ({
    item,
    drifting: drifting.has(keyOf(item.plan, item.step, item.item)),
    out: item.out,
  }));
}

/** What needs a look first, else in the order given. */
export function lookFirst(stands: readonly Stands[]): Stands[] {
  const rank = ({ drifting, out }: Stands) => (drifting ? 0 : out > 0 ? 1 : 2);
  return [...stands].sort((one, other) => rank(one) - rank(other));
}
