/** What a value that is worked out rests upon. */

import { walk } from "./formula";
import { type Item, type Job, reached, type Step } from "./job";

/** An item by the code of its step and its own. */
export interface ItemKey {
  readonly step: string;
  readonly item: string;
}

/** The items that a derived item is worked out from, through other derived items as well. */
export function inputsOf(step: Step, item: Item, job: Job): ItemKey[] {
  const start = { step: step.code, item: item.code };
  return reached<ItemKey>(start, (key) => directInputs(key.step, job.item(key.step, key.item), job), textOfKey);
}

/** An item's key as a text, to compare. */
export function textOfKey(key: ItemKey): string {
  return [key.step, key.item].join("\0");
}

/** The items named by a derived item's own formula. */
export function directInputs(step: string, item: Item | null, job: Job): ItemKey[] {
  if (item?.kind !== "derived" || !item.formula) return [];
  const found: ItemKey[] = [];
  for (const tree of walk(item.formula.tree)) {
    if (tree[0] === "item") found.push({ step: tree[1], item: tree[2] });
    else if (tree[0] === "name" && job.item(step, tree[1])) found.push({ step, item: tree[1] });
  }
  return found;
}

/** Whether a reading at a station counts for the value at another; all do where that has none. */
export function isAt(station: string, wanted: string): boolean {
  return wanted === "" || station === wanted || station.startsWith(`${wanted} `);
}
