/**
 * Repair cycles of a piece: R1, R2 and so on.
 *
 * A word 'repair' counts where it stands about one of the findings it names, and where it was carried out: a record says
 * that it came after it. What was carried out counts though the word was made void or another was said since; and a
 * finding that is made void takes back no word about it. Words about what was found side by side share a number; one
 * about what was recorded after a repair has the next. What number a word claims counts for nothing.
 */

import { added } from "./job";
import { isA, type Judged } from "./judging";
import type { Standing } from "./standing";
import { inOrder } from "./text";

const REPAIR = "repair";
const AFTER_REPAIR = "after repair";

/** The repairs asked for of one piece. */
export class Repairs {
  /** The cycle of each word that counts, by its id. */
  readonly numbers: ReadonlyMap<string, number>;
  private readonly voidAt = new Map<string, string[]>();
  private readonly asking = new Map<string, string[]>();

  constructor(private readonly standing: Standing) {
    for (const id of standing.voids.keys()) {
      const record = standing.records.get(id);
      if (record) added(this.voidAt, placeKey(record), id);
    }
    const words = this.words();
    for (const { id, body } of words) for (const record of new Set(body.about.records)) added(this.asking, record, id);
    const before = words.map(({ id, body }): [string, string[]] => {
      return [id, [...this.before(body.about.records)].filter((one) => one !== id)];
    });
    this.numbers = numbered(before.sort(([a], [b]) => inOrder(a, b)));
  }

  private words(): Judged<"disposition">[] {
    const { standing } = this;
    const all = [...standing.records.values()];
    const valid = all.filter(({ id }) => !standing.voids.has(id));
    const named = new Set(valid.flatMap(({ payload }) => payload.under ?? []));
    const mended = new Set(
      valid.filter(({ payload }) => payload.why === AFTER_REPAIR).map((one) => one.payload.replaces),
    );
    return all.filter((one): one is Judged<"disposition"> => {
      if (!isA(one, "disposition") || one.body.disposition !== REPAIR || !standing.decides(one)) return false;
      const about = one.body.about.records;
      if (named.has(one.id) || about.some((id) => mended.has(id))) return true;
      return !standing.voids.has(one.id) && about.some((id) => standing.strictest(id)?.body.disposition === REPAIR);
    });
  }

  /** The number that a word about a record would have. */
  next(recordId: string): number {
    const same = new Set(this.asking.get(recordId));
    return following(
      this.numbers,
      [...this.before([recordId])].filter((id) => !same.has(id)),
    );
  }

  /**
   * What records came after: what they name, and the repairs of records of the same place that they replace, or that are
   * older than they are and void.
   */
  private before(about: readonly string[]): Set<string> {
    const found = new Set<string>();
    for (const id of new Set(about)) {
      const record = this.standing.records.get(id);
      if (!record) continue;
      for (const one of record.payload.under ?? []) found.add(one);
      const gone = (this.voidAt.get(placeKey(record)) ?? []).filter((one) => inOrder(one, record.id) < 0);
      for (const old of [...this.replacedBy(record), ...gone]) {
        for (const one of this.asking.get(old) ?? []) found.add(one);
      }
    }
    return found;
  }

  /** The ids of all that a record replaces, one after the other. */
  private replacedBy(record: Judged): ReadonlySet<string> {
    const found = new Set<string>();
    let newer: Judged | undefined = record;
    while (newer) {
      const old: string = newer.payload.replaces || "";
      if (found.has(old) || !this.standing.replacedBy.get(old)?.includes(newer)) break;
      found.add(old);
      newer = this.standing.records.get(old);
    }
    return found;
  }
}

function placeKey({ place }: Judged): string {
  return [place.piece, place.step, place.item, place.station].join("\0");
}

/** One more than the highest before it. One turn is enough where ids follow time; a circle ends as well. */
function numbered(before: readonly (readonly [string, readonly string[]])[]): Map<string, number> {
  const found = new Map(before.map(([id]) => [id, 1]));
  let settled = false;
  for (let turn = 0; turn < before.length && !settled; turn++) {
    settled = true;
    for (const [id, those] of before) {
      const number = Math.min(following(found, those), before.length);
      if (number !== found.get(id)) settled = false;
      found.set(id, number);
    }
  }
  return found;
}

function following(numbers: ReadonlyMap<string, number>, before: Iterable<string>): number {
  return 1 + Array.from(before, (id) => numbers.get(id) ?? 0).reduce((most, one) => Math.max(most, one), 0);
}
