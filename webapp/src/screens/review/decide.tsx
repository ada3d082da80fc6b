/** The word on a flag, or on several at once: what becomes of it, why, and what has to be inspected again. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Disposition } from "../../core/records";
import { listed, t } from "../../language";
import { Notice } from "../../parts/frame";
import { useLoaded } from "../../parts/use";
import { me } from "../../state";
import { people } from "../../store/jobs";
import type { Flag, OpenedFlag } from "./asking";
import { type Draft, draftOf, EMPTY, forget, keep } from "./drafts";
import { Keys } from "./keys";
import { Settled, SignedHere } from "./settled";
import { type Known, knownOf, type Signing, signAll, signed } from "./signing";
import { Fields, marksOf, Together, Warnings } from "./word-fields";
import { isFinding, KEYS, saidWord, wordsFor } from "./words";

/** What keys do to the form, wherever the focus is. */
export interface Handle {
  choose(key: string): void;
  sign(): void;
  /** Whether there was anything to take back. */
  back(): boolean;
}

interface DecideProps {
  flags: readonly Flag[];
  /** Whether they were marked, and may be others than the one that is shown. */
  marked: boolean;
  opened: OpenedFlag | null | undefined;
  handle: { current: Handle | null };
  /** Whether something is chosen, so that the list is to be held still. */
  onBusy: (busy: boolean) => void;
  onSigned: (signing: Signing, says: string) => void;
}

/** The form, or why there is none. */
export function Decide(props: DecideProps) {
  const { flags, opened, handle } = props;
  const supervisor = me.value?.roles.includes("supervisor");
  const person = me.value?.person ?? "";
  const key = flags.map(({ id }) => id).join(" ");
  const known = useLoaded(() => Promise.all(flags.map((flag) => knownOf(flag, person))), [key, person]);
  const state = (opened ?? flags[0])?.state ?? "";
  handle.current = null;
  if (!supervisor) return <NotMine />;
  if (opened === null) return null;
  const first = flags.length === 1 ? flags[0] : undefined;
  if (first && state !== "open") return <Settled state={state} opened={opened} />;
  const here = first && signed.value.get(first.id);
  if (first && here) return <SignedHere word={here} doubt={!isFinding(first.kind)} />;
  const own = known?.filter((one) => one.own) ?? [];
  if (own.length > 0 && own.length === flags.length) return <Notice kind="care">{t("decide-own")}</Notice>;
  return <Form {...props} known={known ?? []} />;
}

/** Who may decide, by name. */
function NotMine() {
  const names = useLoaded(
    async () =>
      [...(await people()).values()].filter((one) => one.roles.includes("supervisor")).map(({ name }) => name),
    [],
  );
  if (!names?.length) return <p class="soft">{t("decide-supervisor")}</p>;
  return <p class="soft">{t("decide-supervisor-named", { names: listed(names, "disjunction") })}</p>;
}

const LEAST_REASON = 3;

/** What is written for flags: as it was begun before, and kept from here on. */
function useDraft(flags: readonly Flag[]): [Draft, (change: Partial<Draft>) => void] {
  const ids = flags.map(({ id }) => id);
  const words = wordsFor(flags.map(({ kind }) => kind));
  const [draft, setDraft] = useState<Draft>(() => {
    const kept = draftOf(ids) ?? EMPTY;
    return kept.what && !words.includes(kept.what) ? { ...kept, what: null } : kept;
  });
  const was = useRef(draftOf(ids) ?? draft);
  useLayoutEffect(() => {
    keep(ids, was.current, draft);
    was.current = draft;
  }, [ids.join(" "), draft]);
  return [draft, (change) => setDraft((now) => ({ ...now, ...change }))];
}

/** The form comes into sight once a word is chosen, and what is typed next is the reason; not where it was chosen before. */
function useAtReason(form: { current: HTMLElement | null }, what: Disposition | null): () => void {
  const before = useRef(what);
  const toReason = () => form.current?.querySelector("textarea")?.focus({ preventScroll: true });
  useLayoutEffect(() => {
    if (what === before.current) return;
    before.current = what;
    if (!what) return;
    toReason();
    form.current?.scrollIntoView({ block: "nearest" });
  }, [what]);
  return toReason;
}

function Form({ flags, marked, opened, handle, onBusy, onSigned, known }: DecideProps & { known: readonly Known[] }) {
  const [draft, setDraft] = useDraft(flags);
  const [says, setSays] = useState(() => (draft === EMPTY ? "" : t("decide-begun")));
  /** Whether it was asked once more: what is scrapped does not come back. */
  const [sure, setSure] = useState(false);
  const [part, setPart] = useState(-1);
  const form = useRef<HTMLElement>(null);
  const { what } = draft;
  const toReason = useAtReason(form, what);
  const words = wordsFor(flags.map(({ kind }) => kind));
  const doubt = flags.every(({ kind }) => !isFinding(kind));
  useLayoutEffect(() => onBusy(what !== null), [what]);
  const change = (next: Partial<Draft>) => {
    setDraft(next);
    setSays("");
    setSure(false);
  };
  const sign = async () => {
    const signer = me.value;
    if (!signer || !what || part >= 0) return;
    if (draft.reason.trim().length < LEAST_REASON) return setSays(t("decide-reason-first"));
    if (what === "scrap" && !sure) return setSure(true);
    setPart(0);
    try {
      const signing = await signAll(signer, flags, { ...draft, what }, setPart);
      forget(signing.done);
      onSigned(signing, saidWord(what, doubt));
    } finally {
      setPart(-1);
      setSure(false);
      onBusy(false);
    }
  };
  handle.current = {
    choose: (key) => {
      const found = KEYS.find(([name]) => name === key)?.[1];
      if (part >= 0) return;
      if (!found || !words.includes(found)) return setSays(t("decide-not-here"));
      if (found === what) toReason();
      else change({ what: found });
    },
    sign: () => {
      if (!what || form.current?.contains(document.activeElement)) return void sign();
      // What was begun before is read again before it is signed.
      toReason();
      setSays(t("decide-read-first"));
    },
    back: () => {
      if (sure) setSure(false);
      else if (what) change({ what: null });
      return what !== null;
    },
  };
  return (
    <section class="decide" aria-label={t("decide")} ref={form} data-deciding={what ?? ""}>
      {marked && <Together flags={flags} />}
      <Words words={words} doubt={doubt} what={what} onChoose={(next) => change({ what: next })} />
      {flags.some(({ kind }) => kind === "sign-off shaken") && <p class="small">{t("decide-sign-anew")}</p>}
      {what && (
        <>
          <Warnings what={what} known={known} opened={opened} several={flags.length > 1} />
          <Fields what={what} draft={draft} opened={opened} flags={flags} onDraft={change} />
          {sure ? (
            <Sure marks={marksOf(flags)} busy={part >= 0} onSign={() => void sign()} onNot={() => setSure(false)} />
          ) : (
            <button
              type="button"
              class="button main"
              disabled={draft.reason.trim().length < LEAST_REASON || part >= 0}
              onClick={() => void sign()}
            >
              {flags.length > 1
                ? t("decide-sign-several", { disposition: saidWord(what, doubt), count: flags.length })
                : t("decide-sign", { disposition: saidWord(what, doubt) })}
              <span class="hint">
                <Keys names={t("review-keycap-sign")} />
              </span>
            </button>
          )}
        </>
      )}
      <p class="small" role="status">
        {part >= 0 ? t("decide-progress", { count: part, all: flags.length }) : sure ? t("decide-sure") : says}
      </p>
    </section>
  );
}

interface WordsProps {
  words: readonly Disposition[];
  doubt: boolean;
  what: Disposition | null;
  onChoose: (what: Disposition | null) => void;
}

function Words({ words, doubt, what, onChoose }: WordsProps) {
  return (
    <fieldset class="words" aria-label={t("decide")}>
      {KEYS.filter(([, value]) => words.includes(value)).map(([key, value]) => (
        <button
          key={value}
          type="button"
          class="button"
          aria-pressed={what === value}
          data-disposition={value}
          onClick={() => onChoose(what === value ? null : value)}
        >
          <span class="begins">{saidWord(value, doubt)}</span> <kbd>{key}</kbd>
        </button>
      ))}
    </fieldset>
  );
}

interface SureProps {
  marks: string;
  busy: boolean;
  onSign: () => void;
  onNot: () => void;
}

/** Asked once more; where the finger that pressed before lies now, nothing is signed. */
function Sure({ marks, busy, onSign, onNot }: SureProps) {
  const not = useRef<HTMLButtonElement>(null);
  useLayoutEffect(() => {
    if (document.activeElement === document.body) not.current?.focus({ preventScroll: true });
    not.current?.parentElement?.scrollIntoView({ block: "nearest" });
  }, []);
  return (
    <div class="sure">
      <button type="button" class="button" ref={not} onClick={onNot}>
        {t("decide-scrap-not", { marks })}
      </button>
      <button type="button" class="button main" disabled={busy} onClick={onSign}>
        {t("decide-scrap-sign", { marks })}
        <span class="hint">
          <Keys names={t("review-keycap-sign")} />
        </span>
      </button>
    </div>
  );
}
