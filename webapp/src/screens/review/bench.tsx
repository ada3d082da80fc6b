/** The flags and the opened one beside them: what keys, fingers and the pointer do to them. */
import { useEffect, useRef, useState } from "preact/hooks";
import { t } from "../../language";
import { trouble, wake } from "../../sync/loop";
import type { Flag, Head, Review } from "./asking";
import { Decide, type Handle } from "./decide";
import { isFiltered } from "./filters";
import { Flags } from "./flags";
import { Keys, KeysHelp, useKeys } from "./keys";
import { backToList, type Look, type Looked } from "./looked";
import { Opened } from "./opened";
import { usePanes } from "./panes";
import type { Signing } from "./signing";
import { type Standing, usePointed, useStanding } from "./standing-flags";
import { Nothing, type Signed, Told } from "./told";
import { marksOf } from "./word-fields";

const idsOf = (flags: readonly Flag[]) => flags.map(({ id }) => id);

interface BenchProps {
  review: Review;
  /** Of the flags that are listed. */
  state: string;
  head: Head;
  now: Looked;
  look: Look;
}

export function Bench({ review, state, head, now, look }: BenchProps) {
  const open = state === "open";
  const [marked, setMarked] = useState<ReadonlySet<string>>(new Set());
  const [busy, setBusy] = useState(false);
  const [pointed, point] = usePointed();
  const [helping, setHelping] = useState(false);
  const [signing, setSigning] = useState<Signed | null>(null);
  const handle = useRef<Handle | null>(null);
  const standing = useStanding(review, now, head, open, busy || pointed || marked.size > 0);
  const { flags, flag } = standing;
  const panes = usePanes(flag?.id ?? "");
  const lost = useLost(standing, now, look);
  useWoken(head);
  const choose = (id: string) => {
    standing.seen(id);
    look({ chosen: id });
    setBusy(false);
    panes.toTop();
  };
  /** Chosen by hand, not come to after signing. */
  const go = (id: string) => {
    choose(id);
    panes.show(id);
    if (panes.narrow) setSigning(null);
  };
  const mark = (ids: readonly string[], on: boolean) =>
    setMarked(new Set([...marked, ...ids].filter((id) => on || !ids.includes(id))));
  const alike = alikeOf(standing);
  const leave = () => panes.leave(flag?.id ?? "");
  useKeys({
    move: (by) => {
      const at = flags.findIndex(({ id }) => id === flag?.id);
      const to = flags[Math.min(Math.max(at + by, 0), flags.length - 1)];
      if (!to) return;
      choose(to.id);
      panes.focusOn(to.id);
    },
    open: panes.enter,
    mark: () => flag && open && flags.includes(flag) && mark([flag.id], !marked.has(flag.id)),
    alike: () => open && mark(alike, !alike.every((id) => marked.has(id))),
    choose: (key) => handle.current?.choose(key),
    sign: () => handle.current?.sign(),
    back: () => {
      if (handle.current?.back()) panes.focusOn(flag?.id ?? "");
      else if (marked.size > 0) setMarked(new Set());
      else leave();
    },
    help: () => setHelping(true),
  });
  const onSigned = (made: Signing, word: string) => {
    const to = following(flags, flag, new Set(made.done));
    setMarked(new Set(marked.size > 0 ? made.failed.map(({ id }) => id) : []));
    const signed = [...flags, ...(flag ? [flag] : [])].filter(({ id }) => made.done.includes(id));
    setSigning({ ...made, word, marks: marksOf(signed) });
    look({ chosen: to?.id ?? "" });
    if (to) panes.focusOn(to.id);
    else panes.leave("");
  };
  const told = <Told signing={signing} came={standing.came} lost={lost} onBack={go} />;
  return (
    <div class="bench" data-inside={panes.inside || undefined}>
      <div class="list-pane" ref={panes.list}>
        {!panes.alone && told}
        <h2 class={flags.length > 0 ? "unseen" : "list-heading"} tabIndex={-1}>
          {t("review-flags")}
        </h2>
        {flags.length === 0 ? (
          <Nothing state={state} filtered={isFiltered(now.filters)} />
        ) : (
          <Flags
            day={review.day}
            flags={flags}
            current={flag?.id ?? ""}
            marked={marked}
            markable={open}
            fresh={new Set(idsOf(standing.came))}
            onChoose={go}
            onMark={(id) => mark([id], !marked.has(id))}
            onPointed={point}
          />
        )}
        <p class="keys-line">
          <button type="button" class="link" onClick={() => setHelping(true)}>
            {t("review-keys")}
            <kbd>?</kbd>
          </button>
        </p>
      </div>
      {flag && (
        <aside class="opened" aria-label={t("review-opened")} ref={panes.pane}>
          <button type="button" class="link back to-list" onClick={leave}>
            ‹ {t("review-to-list")}
          </button>
          {panes.alone && told}
          <Opened key={flag.id} flag={flag} opened={standing.opened}>
            <Decide
              key={marked.size > 0 ? "several" : flag.id}
              flags={marked.size > 0 ? flags.filter(({ id }) => marked.has(id)) : [flag]}
              marked={marked.size > 0}
              opened={marked.size > 0 && !marked.has(flag.id) ? undefined : standing.opened}
              handle={handle}
              onBusy={setBusy}
              onSigned={onSigned}
            />
            <Marking
              marked={marked.size}
              alike={open ? alike.length : 0}
              onAlike={() => mark(alike, true)}
              onClear={() => setMarked(new Set())}
            />
          </Opened>
        </aside>
      )}
      {helping && <KeysHelp onClose={() => setHelping(false)} />}
    </div>
  );
}

/** The flag that is looked at and those that one word may settle with it, of the list. */
function alikeOf({ flags, flag, opened }: Standing): string[] {
  if (!flag || !opened) return [];
  return idsOf(flags).filter((id) => id === flag.id || opened.alike.includes(id));
}

/** The next flag that is left after some were signed, else the one before. */
function following(flags: readonly Flag[], flag: Flag | undefined, gone: ReadonlySet<string>): Flag | undefined {
  const at = Math.max(
    0,
    flags.findIndex(({ id }) => id === flag?.id),
  );
  return [...flags.slice(at), ...flags.slice(0, at).reverse()].find(({ id }) => !gone.has(id));
}

/** Whether a flag that the address named is no longer there; then the list is looked at, and the address names none. */
function useLost({ lost }: Standing, { chosen }: Looked, look: Look): boolean {
  const [told, tell] = useState(false);
  useEffect(() => {
    if (chosen) tell(false);
  }, [chosen]);
  useEffect(() => {
    if (!lost) return;
    tell(true);
    look({ chosen: "" });
    backToList();
  }, [lost]);
  return told;
}

/** What waits here goes out as soon as the server is heard again, and not when the next turn would come. */
function useWoken({ number, failure }: Head): void {
  useEffect(() => {
    if (number !== null && !failure && trouble.value) wake();
  }, [number, failure]);
}

interface MarkingProps {
  marked: number;
  alike: number;
  onAlike: () => void;
  onClear: () => void;
}

function Marking({ marked, alike, onAlike, onClear }: MarkingProps) {
  if (marked > 0) {
    return (
      <button type="button" class="link alike" onClick={onClear}>
        {t("review-unmark")}
        <Keys names={t("review-keycap-back")} />
      </button>
    );
  }
  if (alike < 2) return null;
  return (
    <button type="button" class="link alike" onClick={onAlike}>
      {t("review-mark-alike", { count: alike })}
      <kbd>A</kbd>
    </button>
  );
}
