/** Flags by state, and by job, stage, kind and person where there is something to choose. */
import { t, word } from "../../language";
import type { Review } from "./asking";
import { listedIn } from "./counts";

export const STATES = ["open", "decided", "fixed on the spot", "closed"] as const;
export const FILTERS = ["job", "stage", "kind", "person"] as const;
export type Filters = Readonly<Partial<Record<(typeof FILTERS)[number], string>>>;

interface StatesProps {
  review: Review;
  state: string;
  /** Of the open ones, those with a word signed here that has not arrived. */
  away: number;
  onState: (state: string) => void;
}

export function States({ review, state, away, onState }: StatesProps) {
  const counts = listedIn(review.counts, away);
  return (
    <fieldset class="states" aria-label={t("review-by-state")}>
      {STATES.map((one) => (
        <button key={one} type="button" aria-pressed={one === state} onClick={() => onState(one)}>
          {word("flag", one)} <b>{counts[one]}</b>
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
  if (shown.length === 0) return null;
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
    </div>
  );
}

export function isFiltered(filters: Filters): boolean {
  return FILTERS.some((name) => filters[name]);
}

interface ListedProps {
  review: Review;
  state: string;
  filters: Filters;
  /** Whether `review` is the answer to these. */
  answered: boolean;
  onClear: () => void;
}

/** What is listed, in a sentence; how much of it the filters leave, and the way to take them off. */
export function Listed({ review, state, filters, answered, onClear }: ListedProps) {
  const every = review.filters.kind.reduce((sum, { count }) => sum + count, 0);
  const { left } = review.filters;
  const listed = review.flags.length;
  const { shift } = review;
  const anyDay = state === "open" || state === "decided";
  const chosen = isFiltered(filters);
  return (
    <div class="what-listed">
      <p class="soft">{anyDay ? t("review-listed-any", { state }) : t("review-listed-day", { shift })}</p>
      <p role="status">
        {answered && chosen && <b>{t("review-left", { left, all: every })} </b>}
        {answered && left > listed && t("review-first-only", { listed })}
      </p>
      <button type="button" class="link" hidden={!chosen} onClick={onClear}>
        {t("review-clear")}
      </button>
    </div>
  );
}

function optionText(name: string, { name: says, count }: { name: string; count: number }): string {
  const shown = name === "kind" ? word("kind", says) : says;
  return t("review-option", { name: shown, count });
}
