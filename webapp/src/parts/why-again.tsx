/** Why a record is made again in place of one that stays in the book: asked always, never guessed. */
import type { Why } from "../core/records";
import type { At } from "../screens/step";

const ONWARD: [Why, string][] = [
  ["slip", "Slip of the finger"],
  ["measured again", "Looked again"],
  ["after rework", "Fixed on the spot"],
];

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
  const body = at.job.progress.records.get(before)?.body as { entered?: string; result?: string } | undefined;
  const own = at.job.progress.piece(at.piece);
  const decided = own.standing.strictest(before)?.body.disposition;
  const left: Why = decided === "repair" ? "after repair" : "after rework";
  const choices: [Why, string][] =
    decided === "repair" || decided === "rework" ? [[left, `Left so ${left}`], ...ONWARD.slice(0, 2)] : ONWARD;
  return (
    <fieldset class="why">
      <legend>Instead of {body?.entered ?? body?.result ?? "what is there"}, which stays in the book:</legend>
      {choices.map(([value, label]) => (
        <button key={value} type="button" class="station" aria-pressed={why === value} onClick={() => onWhy(value)}>
          {label}
        </button>
      ))}
    </fieldset>
  );
}
