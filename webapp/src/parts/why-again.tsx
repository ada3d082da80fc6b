/** Why a record is made again in place of one that stays in the book: asked always, never guessed. */
import type { Why } from "../core/records";
import { t, word } from "../language";
import type { At } from "../screens/step";

const ONWARD: readonly Why[] = ["slip", "measured again", "after rework"];

/** What a record says, as it was entered. */
export function entered(at: At, id: string): string {
  const body = at.job.progress.records.get(id)?.body as { entered?: string; result?: string } | undefined;
  return body?.entered ?? (body?.result ? word("result", body.result) : t("again-what-is-there"));
}

/** The reasons that fit: the one a disposition asks for first, where there is one. */
export function reasonsAgain(at: At, before: string): [Why, string][] {
  const decided = at.job.progress.piece(at.piece).standing.strictest(before)?.body.disposition;
  const plain = ONWARD.map((why): [Why, string] => [why, t(`onward-${why.replaceAll(" ", "-")}`)]);
  if (decided === "repair") return [["after repair", t("onward-after-repair")], ...plain.slice(0, 2)];
  return decided === "rework" ? [["after rework", t("onward-after-rework-decided")], ...plain.slice(0, 2)] : plain;
}

export function WhyAgain({
  at,
  before,
  why,
  onWhy,
}: {
  at: At;
  before: string;
  why: string;
  onWhy: (why: Why) => void;
}) {
  return (
    <fieldset class="why">
      <legend>{t("again-instead", { before: entered(at, before) })}</legend>
      {reasonsAgain(at, before).map(([value, label]) => (
        <button key={value} type="button" class="station" aria-pressed={why === value} onClick={() => onWhy(value)}>
          {label}
        </button>
      ))}
    </fieldset>
  );
}

/** The reason that was chosen before the keypad was there, and the way to another. */
export function WhyChosen({ at, before, why, onOther }: { at: At; before: string; why: Why; onOther: () => void }) {
  const label = reasonsAgain(at, before).find(([value]) => value === why)?.[1] ?? word("why", why);
  return (
    <p class="why-chosen">
      <span class="small">{t("again-instead-why", { before: entered(at, before), why: label })}</span>
      <button type="button" class="link" onClick={onOther}>
        {t("again-other-reason")}
      </button>
    </p>
  );
}
