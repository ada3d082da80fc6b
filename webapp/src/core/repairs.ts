/** Repair cycles of a piece: R1, R2 and so on. */

import type { Judged } from "./judging";
import { type Standing, samePlace } from "./standing";

type Word = Judged<"disposition">;

/**
 * The number of each word 'repair' that stands, by its id.
 *
 * Words about what was found side by side share a number; one about what was recorded after a repair has the next. Of
 * two words about one finding only one stands, and what number a word claims counts for nothing.
 */
export function cycles(standing: Standing): Map<string, number> {
  const repairs = new Map<string, Word>();
  for (const id of standing.about.keys()) {
    const word = standing.strictest(id);
    if (word?.body.disposition === "repair") repairs.set(word.id, word);
  }
  const words = [...repairs.values()];
  const before = new Map(
    words.map((word) => [word.id, earlier(standing, word.body.about.records, words).filter((id) => id !== word.id)]),
  );
  let found = new Map(words.map(({ id }) => [id, 1]));
  // As many turns as words settle any order, and end where words name each other in a circle.
  for (const _ of words) {
    found = new Map(words.map(({ id }) => [id, Math.min(after(found, before.get(id) ?? []), words.length)]));
  }
  return found;
}

/** The number that a word 'repair' about a record would have. */
export function nextCycle(standing: Standing, recordId: string): number {
  const found = cycles(standing);
  const known = standing.dispositions.filter(({ id }) => found.has(id));
  return after(found, earlier(standing, [recordId], known));
}

function after(found: ReadonlyMap<string, number>, ids: readonly string[]): number {
  return 1 + Math.max(0, ...ids.map((id) => found.get(id) ?? 0));
}

/**
 * The repairs that records came after: they name them, or are at the place of a record that was to be repaired, which
 * they replace, or which is older than they are and void.
 */
function earlier(standing: Standing, about: readonly string[], repairs: readonly Word[]): string[] {
  return about
    .flatMap((id) => {
      const record = standing.records.get(id);
      if (!record) return [];
      const gone = new Set([...replacedBy(standing, record), ...voidBefore(standing, record)]);
      const named = new Set(record.payload.under ?? []);
      return repairs.filter((one) => named.has(one.id) || one.body.about.records.some((old) => gone.has(old)));
    })
    .map(({ id }) => id);
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
