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

function ofOwner(): Map<string, Answer<unknown>> {
  const person = me.value?.person ?? "";
  if (person !== owner) kept.clear();
  owner = person;
  return kept;
}

/** The server's newest entry has this number. */
export function newestIs(number: number): void {
  newest = number;
}

export function keepAnswer<T>(answer: Answer<T>): Answer<T> {
  const all = ofOwner();
  all.delete(answer.path);
  all.set(answer.path, answer);
  for (const path of all.keys()) if (all.size > MOST_KEPT) all.delete(path);
  return answer;
}

/** The answer heard last; unless `old` is let through, only one that is as new as the server's newest entry. */
export function keptAnswer<T>(path: string, old: boolean): Answer<T> | undefined {
  const found = ofOwner().get(path) as Answer<T> | undefined;
  return found && (old || found.number === newest) ? found : undefined;
}
