/** The flags as they stand on the screen: held still while somebody decides, and which of them is looked at. */
import { useEffect, useRef, useState } from "preact/hooks";
import { type Flag, type Head, type OpenedFlag, openFlag, type Review } from "./asking";
import { addressed, type Looked } from "./looked";
import { useOpened } from "./opened";
import { inPlace, lookedAt } from "./order";
import { signed } from "./signing";

/** How long the list is held still after the pointer has moved over it, in milliseconds. */
const POINTED = 3_000;

/** Whether the pointer moved over the list just now, and how to tell that it does. */
export function usePointed(): [boolean, () => void] {
  const [pointed, setPointed] = useState(false);
  const timer = useRef(0);
  useEffect(() => () => clearTimeout(timer.current), []);
  const point = () => {
    clearTimeout(timer.current);
    timer.current = window.setTimeout(() => setPointed(false), POINTED);
    setPointed(true);
  };
  return [pointed, point];
}

export interface Standing {
  readonly flags: readonly Flag[];
  /** The one that is looked at: of the list, or another that the address names. None where there is none. */
  readonly flag: Flag | undefined;
  /** All that the server has of it; null where it is gone, undefined until it is heard. */
  readonly opened: OpenedFlag | null | undefined;
  /** Whether the address names a flag that is no longer there. */
  readonly lost: boolean;
  /** Those that came since the list was first shown and were not looked at yet. */
  readonly came: readonly Flag[];
  /** A flag was looked at. */
  readonly seen: (id: string) => void;
}

export function useStanding(review: Review, now: Looked, head: Head, open: boolean, held: boolean): Standing {
  const shown = useRef<readonly Flag[]>([]);
  const place = useRef(0);
  const known = useRef<Set<string>>(new Set(review.flags.map(({ id }) => id)));
  const ordered = inPlace(shown.current, review.flags, held);
  const flags = open ? ordered.filter(({ id }) => !signed.value.has(id)) : ordered;
  const far = farOf(flags, shown.current, now);
  const asked = useOpened(far, head.number);
  const near = far && asked === undefined ? undefined : lookedAt(flags, now.chosen, place.current);
  const nearer = useOpened(near?.id, head.number);
  const [flag, opened] = asked ? [asked, asked] : [near, nearer];
  const at = flags.findIndex(({ id }) => id === flag?.id);
  const next = flags[at + 1]?.id;
  useEffect(() => {
    shown.current = flags;
    if (at >= 0) place.current = at;
  });
  useEffect(() => {
    if (next && opened) openFlag(next, head.number).catch(() => {});
  }, [next, opened]);
  return {
    flags,
    flag,
    opened,
    lost: asked === null,
    came: flags.filter(({ id }) => !known.current.has(id)),
    seen: (id) => known.current.add(id),
  };
}

/** The id of the flag that the address names where the list has none of that id. */
function farOf(flags: readonly Flag[], shown: readonly Flag[], { chosen }: Looked): string | undefined {
  const has = (list: readonly Flag[]) => list.some(({ id }) => id === chosen);
  // A word on it was signed this moment: what comes next is chosen in the same breath.
  const going = signed.value.has(chosen) && has(shown);
  return chosen && chosen === addressed() && !has(flags) && !going ? chosen : undefined;
}
