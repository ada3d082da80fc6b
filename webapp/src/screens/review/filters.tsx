/** Flags by state, and by job, stage, kind and person where there is something to choose. */
import { t, word } from "../../language";
import type { Review } from "./asking";
import { signed } from "./signing";

export const STATES = ["open", "decided", "fixed on the spot", "closed"] as const;
export const FILTERS = ["job", "stage", "kind", "person"] as const;
export type Filters = Readonly<Partial<Record<(typeof FILTERS)[number], string>>>;

type Counts = Review["counts"];

/** away: of the open ones, those with a word that is on its way to the server. */
function countOf(state: string, { open, decided, on_the_spot }: Counts, away: number): string {
  const count = { open: Math.max(0, open - away), decided, "fixed on the spot": on_the_spot }[state];
  return count === undefined ? "" : String(count);
}

interface StatesProps {
  review: Review;
  state: string;
  onState: (state: string) => void;
}

export function States({ review, state, onState }: StatesProps) {
  const away = state === "open" ? review.flags.filter(({ id }) => signed.value.has(id)).length : 0;
  const count = (one: string) => countOf(one, review.counts, away);
  return (
    <fieldset class="states" aria-label={t("review-by-state")}>
      {STATES.map((one) => (
        <button key={one} type="button" aria-pressed={one === state} onClick={() => onState(one)}>
          {word("flag", one)} {count(one) && <b>{count(one)}</b>}
        </button>
      ))}
    </fieldset>
  );
}

interface FiltersProps {
  review: Review;
  filters: Filters;
  onFilters: (filters: Filters) => void;
}

export function FilterLine({ review, filters, onFilters }: FiltersProps) {
  const shown = FILTERS.filter((name) => review.filters[name].length > 1 || filters[name]);
  const chosen = FILTERS.some((name) => filters[name]);
  const every = review.filters.kind.reduce((sum, { count }) => sum + count, 0);
  const { left } = review.filters;
  const listed = review.flags.length;
  return (
    <div class="filters">
      {shown.map((name) => (
        <label key={name}>
          {t(`review-by-${name}`)}
          <select
            value={filters[name] ?? ""}
            onChange={(event) => onFilters({ ...filters, [name]: event.currentTarget.value })}
          >
            <option value="">{t("review-all")}</option>
            {review.filters[name].map((one) => (
              <option key={one.value} value={one.value}>
                {optionText(name, one)}
              </option>
            ))}
          </select>
        </label>
      ))}
      {chosen && (
        <button type="button" class="link" onClick={() => onFilters({})}>
          {t("review-clear")}
        </button>
      )}
      <span class="left" role="status">
        {chosen && t("review-left", { left, all: every })}
        {left > listed && <span> {t("review-first-only", { listed })}</span>}
      </span>
    </div>
  );
}

function optionText(name: string, { name: says, count }: { name: string; count: number }): string {
  const shown = name === "kind" ? word("kind", says) : says;
  return t("review-option", { name: shown, count });
}
