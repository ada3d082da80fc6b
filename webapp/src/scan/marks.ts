/** The marks of all jobs on this phone, and which of them fit what was typed. */
import type { Piece } from "../core/job";
import { masterOf } from "../store/masters";

export interface Known {
  readonly job: string;
  readonly piece: string;
  readonly mark: string;
  readonly name: string;
}

/** Every piece of every job that is here, as the jobs list them. */
export async function allMarks(): Promise<Known[]> {
  const lists = (await masterOf<{ pieces: Piece[] }>("pieces")).sort((a, b) => a.number - b.number);
  const found = new Map<string, Known>();
  for (const { scope, body } of lists) {
    const job = scope.slice("job:".length);
    for (const piece of body.pieces) {
      found.set(`${job} ${piece.id}`, { job, piece: piece.id, mark: piece.mark, name: piece.name ?? piece.kind });
    }
  }
  return [...found.values()];
}

/** The same for the mark 'S-14' and for 's14', 'S 14' and 's-14'. */
function bare(text: string): string {
  return text.toLowerCase().replace(/[\s.-]+/g, "");
}

/** How well a mark or the words beside it fit: 0 best; null where a word of what was typed is nowhere in them. */
export function rankOf(typed: string, mark: string, beside: string): number | null {
  const [wanted, own] = [bare(typed), bare(mark)];
  if (own === wanted) return 0;
  // Of '14' rather S-14 than S-114: the figures at the end are the same.
  if (wanted && (own.match(/\d+$/)?.[0] ?? "") === wanted) return 1;
  if (own.startsWith(wanted)) return 2;
  if (own.includes(wanted)) return 3;
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const around = beside.toLowerCase().split(/\s+/);
  const fits = (word: string) =>
    around.some((one) => one.startsWith(word)) || (word.length > 1 && own.includes(bare(word)));
  return words.every(fits) ? 4 : null;
}

/** Those that fit what was typed, the best first, else in the order they were in. */
export function fitting<T>(typed: string, all: readonly T[], words: (one: T) => readonly [string, string]): T[] {
  if (!bare(typed)) return [...all];
  const ranked = all.map((one) => ({ one, rank: rankOf(typed, ...words(one)) }));
  const found = ranked.filter((each): each is { one: T; rank: number } => each.rank !== null);
  return found.sort((a, b) => a.rank - b.rank).map(({ one }) => one);
}
