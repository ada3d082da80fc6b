/** Beside the word on a flag: what is to be known before signing it, and what is written with it. */
import type { Disposition } from "../../core/records";
import { listed, t, word } from "../../language";
import { Notice } from "../../parts/frame";
import { partyName } from "../../parts/parties";
import type { Flag, OpenedFlag } from "./asking";
import type { Draft } from "./drafts";
import type { Known } from "./signing";
import { isFinding, placeText } from "./words";

const MOST_NAMED = 6;

export function Together({ flags }: { flags: readonly Flag[] }) {
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

/** Marks of the pieces of flags, each once. */
export function marksOf(flags: readonly Flag[]): string {
  return listed([...new Set(flags.map(({ piece }) => piece.mark))]);
}

/** What scrapping stops, by the jobs on this device. */
function scrapText(known: readonly Known[]): string {
  if (known.length === 0 || known.some(({ job }) => !job)) return t("decide-scrap");
  const own = new Set(known.map(({ flag }) => flag.piece.mark));
  const wholes = [...new Set(known.flatMap((one) => one.wholes))].filter((mark) => !own.has(mark));
  const marks = listed([...own]);
  if (wholes.length === 0) return t("decide-scrap-alone", { marks });
  return t("decide-scrap-stops", { marks, wholes: listed(wholes), count: own.size });
}

interface WarningsProps {
  what: Disposition;
  known: readonly Known[];
  opened: OpenedFlag | null | undefined;
  several: boolean;
}

/** What is to be known before signing: who else must agree, what a repair counts as, what cannot be signed. */
export function Warnings({ what, known, opened, several }: WarningsProps) {
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
      {what === "scrap" && <Notice kind="care">{scrapText(known)}</Notice>}
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
  draft: Draft;
  flags: readonly Flag[];
  opened: OpenedFlag | null | undefined;
  onDraft: (change: Partial<Draft>) => void;
}

export function Fields({ what, draft, flags, opened, onDraft }: FieldsProps) {
  const asksNew = what === "rework" || what === "repair";
  const alike = flags.every(({ piece }) => piece.kind === flags[0]?.piece.kind);
  const steps = asksNew && alike ? (opened?.steps ?? []) : [];
  const tick = (code: string, on: boolean) =>
    onDraft({ again: on ? [...draft.again, code] : draft.again.filter((one) => one !== code) });
  return (
    <>
      <label class="field">
        {t("decide-reason")}
        <textarea
          rows={2}
          value={draft.reason}
          required
          onInput={(event) => onDraft({ reason: event.currentTarget.value })}
        />
      </label>
      {flags.some(({ kind }) => isFinding(kind)) && (
        <div class="pair">
          <label class="field">
            {t("decide-ncr")}
            <input value={draft.ncr} onInput={(event) => onDraft({ ncr: event.currentTarget.value })} />
          </label>
          <label class="field">
            {t("decide-extent")}
            <input
              value={draft.extent}
              placeholder={t("decide-extent-like")}
              onInput={(event) => onDraft({ extent: event.currentTarget.value })}
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
