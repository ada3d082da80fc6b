/** What a study of a gauge comes to: the worst of what its figures mean. */
import type { Shape } from "../../parts/marks";

/** From the worst to the best; what concerns the tolerance before what concerns the parts. */
const VERDICTS: readonly (readonly [means: string, shape: Shape])[] = [
  ["takes too much of the tolerance", "out"],
  ["cannot tell the parts apart", "out"],
  ["takes part of the tolerance", "close"],
  ["tells the parts apart in few classes", "close"],
  ["takes little of the tolerance", "in"],
  ["tells the parts apart", "in"],
];

export function verdictOf(means: readonly string[]): { means: string; shape: Shape } {
  const found = VERDICTS.find(([one]) => means.includes(one));
  return found ? { means: found[0], shape: found[1] } : { means: means[0] ?? "", shape: "open" };
}
