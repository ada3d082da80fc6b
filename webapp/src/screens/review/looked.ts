/** What of the review was looked at, to come back to from another page. */
import { useState } from "preact/hooks";
import { me } from "../../state";
import type { Filters } from "./filters";

export interface Looked {
  /** Who looked: another begins anew. */
  readonly person: string;
  readonly state: string;
  readonly filters: Filters;
  /** The id of a flag; '' for the first. */
  readonly chosen: string;
}

export type Look = (change: Partial<Looked>) => void;

let last: Looked | null = null;

/** What was looked at last, and the way to change it. */
export function useLooked(): [Looked, Look] {
  const person = me.value?.person ?? "";
  const first = { person, state: "open", filters: {}, chosen: "" };
  const [now, setNow] = useState<Looked>(last?.person === person ? last : first);
  const look: Look = (change) =>
    setNow((was) => {
      last = { ...was, ...change };
      return last;
    });
  return [now, look];
}
