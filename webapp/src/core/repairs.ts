/** Repair cycles of a piece: R1, R2 and so on. */

import { added } from "./job";
import type { Judged } from "./judging";
import { type Standing, samePlace } from "./standing";
import { inOrder } from "./text";

const REPAIR = "repair";

/**
 * The number of each word 'repair' that stands, by its id.
 *
 * Words about what was found side by side share a number; one about what was recorded after a repair has the next. Of
 * two words about one finding only one stands, and what number a word claims counts for nothing.
 */
export function cycles(standing: Standing): Map<string, number> {
  const repairs = new Map<string, Judged<"disposition">>();
  for (const id of standing.about.keys()) {
    const word = standing.strictest(id);
    if (word?.body.disposition === REPAIR) repairs.set(word.id, word);
  }
  const asking = byFinding(repairs.values());
  const before = Array.from(repairs.keys())
    .sort(inOrder)
    .map((id): [string, string[]] => {
      const about = repairs.get(id)?.body.about.records ?? [];
      return [id, [...earlier(standing, about, asking)].filter((one) => one !== id)];
    });
  const found = new Map(before.map(([id]) => [id, 1]));
  // One turn is enough where ids follow time; words that name each other in a circle end as well.
  let settled = false;
  for (let turn = 0; turn < repairs.size && !settled; turn++) {
    settled = true;
    for (const [id, those] of before) {
      const number = Math.min(following(found, those), repairs.size);
      if (number !== found.get(id)) settled = false;
      found.set(id, number);
    }
  }
  return found;
}

/** The number that a word 'repair' about a record would have. */
export function nextCycle(standing: Standing, recordId: string): number {
  const found = cycles(standing);
  const asking = byFinding(standing.dispositions.filter(({ id }) => found.has(id)));
  return following(found, earlier(standing, [recordId], asking));
}

function following(found: ReadonlyMap<string, number>, before: Iterable<string>): number {
  return 1 + Array.from(before, (id) => found.get(id) ?? 0).reduce((most, one) => Math.max(most, one), 0);
}

/** The ids of the repairs asked for, by the record that each is about. */
function byFinding(repairs: Iterable<Judged<"disposition">>): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const { id, body } of repairs) for (const record of body.about.records) added(found, record, id);
  return found;
}

/**
 * What records came after: what they name, and the repairs of records of the same place that they replace, or that are
 * older than they are and void.
 */
function earlier(
  standing: Standing,
  about: readonly string[],
  asking: ReadonlyMap<string, readonly string[]>,
): Set<string> {
  const found = new Set<string>();
  for (const record of about.flatMap((id) => standing.records.get(id) ?? [])) {
    for (const id of record.payload.under ?? []) found.add(id);
    for (const old of [...replacedBy(standing, record), ...voidBefore(standing, record)]) {
      for (const id of asking.get(old) ?? []) found.add(id);
    }
  }
  return found;
}

/** The ids of all that a record replaces, one after the other. */
function replacedBy(standing: Standing, record: Judged): ReadonlySet<string> {
  const found = new Set<string>();
  let newer: Judged | undefined = record;
  while (newer) {
    const old: string = newer.payload.replaces || "";
    if (found.has(old) || !standing.replacedBy.get(old)?.includes(newer)) break;
    found.add(old);
    newer = standing.records.get(old);
  }
  return found;
}

function voidBefore(standing: Standing, record: Judged): string[] {
  const gone = [...standing.voids.keys()].flatMap((id) => standing.records.get(id) ?? []);
  return gone.filter((one) => one.id < record.id && samePlace(one.place, record.place)).map(({ id }) => id);
}
