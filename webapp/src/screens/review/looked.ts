/** What of the review was looked at, to come back to from another page; the opened flag stands in the address. */
import { useEffect, useState } from "preact/hooks";
import { me, route, stand, standsOver } from "../../state";
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

/** One pane at a time. */
export const NARROW = "(max-width: 719px)";

export const isNarrow = () => matchMedia(NARROW).matches;

/** The flag that the address names; '' where it names none. */
export function addressed(): string {
  const [screen, page, , , flag = ""] = route.value;
  return screen === "review" && page === "day" ? flag : "";
}

/** The address of the day that is looked at, with a flag opened or with none. */
export function addressOf(flag: string): string[] {
  const [, page, day = "now", shift = "0"] = route.value;
  const at = page === "day" ? [day, shift] : ["now", "0"];
  if (flag) return ["review", "day", ...at, flag];
  return at.join() === "now,0" ? ["review"] : ["review", "day", ...at];
}

/** On a narrow screen the flag lies over the list: Back, or what stands above the flag, leads to it again. */
export function openOver(flag: string): void {
  if (flag !== addressed()) stand(addressOf(flag), !addressed());
}

export function backToList(): void {
  if (!addressed()) return;
  if (standsOver()) history.back();
  else stand(addressOf(""));
}

/** Milliseconds: browsers change an address only so often, and a key that is held chooses thirty flags a second. */
const SETTLED = 250;
let following = 0;

/** The address follows what is chosen, once that has settled; on a narrow screen only while a flag is opened. */
function follow(chosen: string): void {
  clearTimeout(following);
  const from = route.value.join("/");
  following = window.setTimeout(() => {
    const opened = addressed();
    const elsewhere = route.value.join("/") !== from; // somebody went there meanwhile, by Back or by a link
    if (elsewhere || chosen === opened || (isNarrow() && !(opened && chosen))) return;
    stand(addressOf(chosen));
  }, SETTLED);
}

let last: Looked | null = null;

/** What was looked at last, and the way to change it. */
export function useLooked(): [Looked, Look] {
  const person = me.value?.person ?? "";
  const flag = addressed();
  const first = { person, state: "open", filters: {}, chosen: "" };
  const before: Looked = last?.person === person ? last : first;
  const [now, setNow] = useState<Looked>(flag ? { ...before, chosen: flag } : before);
  const change = (part: Partial<Looked>) =>
    setNow((was) => {
      last = { ...was, ...part };
      return last;
    });
  useEffect(() => {
    if (flag) change({ chosen: flag });
  }, [flag]);
  const look: Look = (part) => {
    change(part);
    if (part.chosen !== undefined) follow(part.chosen);
  };
  return [now, look];
}

/** From another screen: the flag that the review is to show when it is next opened. */
export function lookAt({ state, id }: { state: string; id: string }): void {
  last = { person: me.value?.person ?? "", state, filters: {}, chosen: id };
}
