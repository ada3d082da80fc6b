/** The last answers of the server to the review's pages, kept in memory to come back to while it is away. */
import { me } from "../../state";

export interface Answer<T> {
  /** What it is the answer to. */
  readonly path: string;
  readonly found: T | undefined;
  /** When it was heard, in milliseconds; 0 for never. */
  readonly heard: number;
  /** Number of the server's newest entry when it was asked for. */
  readonly number: number | null;
}

/** How many answers are kept. */
export const MOST_KEPT = 30;

const kept = new Map<string, Answer<unknown>>();
/** Whose answers these are: another, who may see less, sees none of them. */
let owner = "";
let newest: number | null = null;

me.subscribe((signer) => {
  const person = signer?.person ?? "";
  if (person !== owner) kept.clear();
  owner = person;
});

/** Who is asking: what is answered to one is kept for no other. */
export function whoAsks(): string {
  return owner;
}

/** The server's newest entry has this number. */
export function newestIs(number: number): void {
  newest = number;
}

/** Keep an answer for who asked for it, unless somebody else is here by now. */
export function keepAnswer<T>(answer: Answer<T>, asked: string): Answer<T> {
  if (asked !== owner) return answer;
  kept.delete(answer.path);
  kept.set(answer.path, answer);
  for (const path of kept.keys()) if (kept.size > MOST_KEPT) kept.delete(path);
  return answer;
}

/** The answer heard last; unless `old` is let through, only one that is as new as the server's newest entry. */
export function keptAnswer<T>(path: string, old: boolean): Answer<T> | undefined {
  const found = kept.get(path) as Answer<T> | undefined;
  return found && (old || found.number === newest) ? found : undefined;
}
