/** The word on a flag, or on several at once: what becomes of it, why, and what has to be inspected again. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Disposition } from "../../core/records";
import { listed, t, word } from "../../language";
import { Notice } from "../../parts/frame";
import { partyName } from "../../parts/parties";
import { useLoaded } from "../../parts/use";
import { me } from "../../state";
import { people } from "../../store/jobs";
import type { Flag, OpenedFlag } from "./asking";
import { Keys } from "./keys";
import { type Known, knownOf, type Signing, signAll, type Word } from "./signing";
import { isFinding, KEYS, placeText, saidWord, wordsFor } from "./words";

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
  if (flags.length === 1 && state !== "open") {
    return <p class="soft">{closedText(state, opened)}</p>;
  }
  const own = known?.filter((one) => one.own) ?? [];
  if (own.length > 0 && own.length === flags.length) return <Notice kind="care">{t("decide-own")}</Notice>;
  return <Form {...props} known={known ?? []} />;
}

/** How a flag stands that is open no more; where a word was said on it, that word, by whom and why. */
function closedText(state: string, opened: OpenedFlag | undefined): string {
  const said = opened?.history.find(({ id }) => id === opened.disposition);
  const values = { state: word("flag", state) };
  if (!opened || !said) return t("decide-closed", values);
  const disposition = saidWord(said.says as Disposition, !isFinding(opened.kind));
  return t("decide-closed-by", { ...values, disposition, person: said.by, reason: said.note });
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

const EMPTY = { reason: "", ncr: "", extent: "", again: [] as readonly string[] };
const LEAST_REASON = 3;

function Form({ flags, marked, opened, handle, onBusy, onSigned, known }: DecideProps & { known: readonly Known[] }) {
  const [what, setWhat] = useState<Disposition | null>(null);
  const [draft, setDraft] = useState<Omit<Word, "what">>(EMPTY);
  const [says, setSays] = useState("");
  const [part, setPart] = useState(-1);
  const form = useRef<HTMLElement>(null);
  const words = wordsFor(flags.map(({ kind }) => kind));
  const doubt = flags.every(({ kind }) => !isFinding(kind));
  const change = (next: Disposition | null) => {
    setWhat(next);
    setSays("");
    onBusy(next !== null);
  };
  // Before the next key comes: it is typed into the reason.
  useLayoutEffect(() => {
    if (!what) return;
    const field = form.current?.querySelector("textarea");
    field?.focus({ preventScroll: true });
    form.current?.scrollIntoView({ block: "nearest" });
  }, [what]);
  const sign = async () => {
    const signer = me.value;
    if (!signer || !what || part >= 0) return;
    if (draft.reason.trim().length < LEAST_REASON) return setSays(t("decide-reason-first"));
    setPart(0);
    try {
      const signing = await signAll(signer, flags, { what, ...draft }, setPart);
      onSigned(signing, saidWord(what, doubt));
    } finally {
      setPart(-1);
      onBusy(false);
    }
  };
  handle.current = {
    choose: (key) => {
      const found = KEYS.find(([name]) => name === key)?.[1];
      if (part >= 0) return;
      if (found && words.includes(found)) change(found);
      else setSays(t("decide-not-here"));
    },
    sign: () => void sign(),
    back: () => {
      if (what) change(null);
      return what !== null;
    },
  };
  return (
    <section class="decide" aria-label={t("decide")} ref={form} data-deciding={what ?? ""}>
      {marked && <Together flags={flags} />}
      <fieldset class="words" aria-label={t("decide")}>
        {KEYS.filter(([, value]) => words.includes(value)).map(([key, value]) => (
          <button
            key={value}
            type="button"
            class="button"
            aria-pressed={what === value}
            data-disposition={value}
            onClick={() => change(what === value ? null : value)}
          >
            <span class="begins">{saidWord(value, doubt)}</span> <kbd>{key}</kbd>
          </button>
        ))}
      </fieldset>
      {flags.some(({ kind }) => kind === "sign-off shaken") && <p class="small">{t("decide-sign-anew")}</p>}
      {what && (
        <>
          <Warnings what={what} known={known} opened={opened} several={flags.length > 1} />
          <Fields what={what} draft={draft} opened={opened} flags={flags} onDraft={setDraft} />
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
        </>
      )}
      <p class="small" role="status">
        {part >= 0 ? t("decide-progress", { count: part, all: flags.length }) : says}
      </p>
    </section>
  );
}

const MOST_NAMED = 6;

function Together({ flags }: { flags: readonly Flag[] }) {
  const named = flags.slice(0, MOST_NAMED).map(placeText);
  const more = flags.length - named.length;
  return (
    <p>
      <b>{t("decide-together", { count: flags.length })}</b>
      <br />
      <span class="small">
        {named.join(" · ")}
        {more > 0 && ` · ${t("review-more", { count: more })}`}
      </span>
    </p>
  );
}

interface WarningsProps {
  what: Disposition;
  known: readonly Known[];
  opened: OpenedFlag | null | undefined;
  several: boolean;
}

/** What is to be known before signing: who else must agree, what a repair counts as, what cannot be signed. */
function Warnings({ what, known, opened, several }: WarningsProps) {
  const bound = known.filter(({ agree }) => agree.length > 0);
  const parties = [...new Set(bound.flatMap(({ agree }) => agree))];
  const binds = [...new Set(bound.map(({ flag }) => flag.item.binds || "shop"))];
  const first = known[0];
  const own = known.filter((one) => one.own);
  const away = known.filter((one) => !one.job);
  const cycle = Math.max(first?.cycle ?? 1, opened?.cycle ?? 1);
  return (
    <>
      {what === "use as is" && parties.length > 0 && (
        <Notice kind="care">
          {t("decide-agree", {
            parties: listed(parties.map(partyName)),
            binds: listed(binds.map((one) => word("binds", one))),
          })}
        </Notice>
      )}
      {what === "repair" && !several && first && (
        <p class="small">{t("decide-cycle", { cycle, mark: first.flag.piece.mark })}</p>
      )}
      {what === "scrap" && <Notice kind="care">{t("decide-scrap")}</Notice>}
      {own.length > 0 && <Notice kind="care">{t("decide-some-own", { count: own.length })}</Notice>}
      {away.map(({ flag }) => (
        <Notice key={flag.id} kind="bad">
          {t("decide-no-job", { job: flag.job })}
        </Notice>
      ))}
    </>
  );
}

interface FieldsProps {
  what: Disposition;
  draft: Omit<Word, "what">;
  flags: readonly Flag[];
  opened: OpenedFlag | null | undefined;
  onDraft: (draft: Omit<Word, "what">) => void;
}

function Fields({ what, draft, flags, opened, onDraft }: FieldsProps) {
  const asksNew = what === "rework" || what === "repair";
  const alike = flags.every(({ piece }) => piece.kind === flags[0]?.piece.kind);
  const steps = asksNew && alike ? (opened?.steps ?? []) : [];
  const tick = (code: string, on: boolean) =>
    onDraft({ ...draft, again: on ? [...draft.again, code] : draft.again.filter((one) => one !== code) });
  return (
    <>
      <label class="field">
        {t("decide-reason")}
        <textarea
          rows={2}
          value={draft.reason}
          required
          onInput={(event) => onDraft({ ...draft, reason: event.currentTarget.value })}
        />
      </label>
      {flags.some(({ kind }) => isFinding(kind)) && (
        <div class="pair">
          <label class="field">
            {t("decide-ncr")}
            <input value={draft.ncr} onInput={(event) => onDraft({ ...draft, ncr: event.currentTarget.value })} />
          </label>
          <label class="field">
            {t("decide-extent")}
            <input
              value={draft.extent}
              placeholder={t("decide-extent-like")}
              onInput={(event) => onDraft({ ...draft, extent: event.currentTarget.value })}
            />
          </label>
        </div>
      )}
      {steps.length > 0 && (
        <details class="rest">
          <summary>{t("decide-again", { count: draft.again.length })}</summary>
          <fieldset class="steps-again">
            <legend class="small">{t("decide-again-which")}</legend>
            {steps.map(({ code, number, name }) => (
              <label key={code}>
                <input
                  type="checkbox"
                  checked={draft.again.includes(code)}
                  onChange={(event) => tick(code, event.currentTarget.checked)}
                />
                {number} {name}
              </label>
            ))}
          </fieldset>
        </details>
      )}
    </>
  );
}
