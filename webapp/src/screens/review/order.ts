/** The order in which flags stand on the screen while new ones arrive. */
import type { Flag } from "./asking";

/**
 * The flags to show. shown: those on the screen; fresh: as the server has them now, worst first.
 *
 * held: somebody is deciding, or points at the list. Then none moves and none goes: what is new stands at the end, and
 * what is gone stays until the list is let go, so that a word never lands on another flag than the one that was read.
 */
export function inPlace(shown: readonly Flag[], fresh: readonly Flag[], held: boolean): readonly Flag[] {
  if (!held) return fresh;
  const now = new Map(fresh.map((flag) => [flag.id, flag]));
  const known = new Set(shown.map(({ id }) => id));
  return [...shown.map((flag) => now.get(flag.id) ?? flag), ...fresh.filter(({ id }) => !known.has(id))];
}

/** The flag to look at: the one that was chosen, else what stands in its place now. place: where it stood last. */
export function lookedAt(flags: readonly Flag[], chosen: string, place: number): Flag | undefined {
  return flags.find(({ id }) => id === chosen) ?? flags[Math.min(place, flags.length - 1)];
}
