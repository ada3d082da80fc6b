/** The list and the opened flag: which of them is in sight on a narrow screen, and where the focus goes. */
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { lineOf } from "./flags";
import { addressed, backToList, isNarrow, NARROW, openOver } from "./looked";

/** Do something once what is shown was drawn anew, and before the next key comes. */
function useAfterwards(): (what: () => void) => void {
  const wanted = useRef<(() => void) | null>(null);
  const [, redraw] = useState(0);
  useLayoutEffect(() => {
    const what = wanted.current;
    wanted.current = null;
    what?.();
  });
  return (what) => {
    wanted.current = what;
    redraw((count) => count + 1);
  };
}

/** Whether one pane is shown at a time. */
function useNarrow(): boolean {
  const [narrow, setNarrow] = useState(isNarrow());
  useEffect(() => {
    const query = matchMedia(NARROW);
    const tell = () => setNarrow(query.matches);
    query.addEventListener("change", tell);
    return () => query.removeEventListener("change", tell);
  }, []);
  return narrow;
}

/** current: the id of the flag that is looked at; '' where there is none. */
export function usePanes(current: string) {
  const narrow = useNarrow();
  const inside = Boolean(addressed() && current);
  const afterwards = useAfterwards();
  const pane = useRef<HTMLElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const was = useRef(inside);
  const toTitle = () => void pane.current?.querySelector<HTMLElement>("h2")?.focus();
  const toTop = () => pane.current?.scrollTo(0, 0);
  /** To a flag's line; to the heading of the list where it has none. */
  const toLine = (id: string) => (lineOf(list.current, id) ?? list.current?.querySelector("h2"))?.focus();
  useLayoutEffect(() => {
    if (was.current && !inside && isNarrow()) toLine(current);
    was.current = inside;
  }, [inside]);
  return {
    narrow,
    /** Whether the opened flag is all that is seen. */
    alone: narrow && inside,
    inside,
    pane,
    list,
    toTop,
    show: (id: string) => {
      if (!isNarrow()) return;
      openOver(id);
      scrollTo(0, 0);
    },
    enter: () => {
      if (isNarrow() && current) openOver(current);
      afterwards(toTitle);
    },
    leave: (id: string) => {
      if (isNarrow()) backToList();
      afterwards(() => toLine(id));
    },
    focusOn: (id: string) =>
      afterwards(() => {
        toTop();
        if (inside && isNarrow()) {
          scrollTo(0, 0);
          return toTitle();
        }
        const line = lineOf(list.current, id);
        line?.focus({ preventScroll: true });
        line?.scrollIntoView({ block: "nearest" });
      }),
  };
}
