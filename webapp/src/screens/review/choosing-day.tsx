/** Which day of the shop is looked at, and which of its shifts. */
import { locale, t } from "../../language";
import { linkTo } from "../../state";
import type { Review } from "./asking";

/** Where a page stands: a day by its ISO text, '' for the one it is now, and a shift, 0 for the whole day. */
export interface Asked {
  readonly day: string;
  readonly shift: number;
}

export function askedDay([day = "", shift = ""]: readonly string[]): Asked {
  return { day: /^\d{4}-\d\d-\d\d$/.test(day) ? day : "", shift: Number(shift) || 0 };
}

export function query(values: Readonly<Record<string, string | number>>): string {
  const given = Object.entries(values).filter(([, value]) => value);
  return new URLSearchParams(given.map(([name, value]) => [name, String(value)])).toString();
}

/** The link to a page of a day. */
export function dayLink(page: string, { day, shift }: Asked): string {
  if (!day && !shift) return page === "day" ? linkTo("review") : linkTo("review", page);
  return linkTo("review", page, day || "now", String(shift));
}

export function dayText(day: string): string {
  return new Date(`${day}T12:00`).toLocaleDateString(locale(), { weekday: "long", day: "numeric", month: "long" });
}

function daysAfter(day: string, count: number): string {
  const date = new Date(`${day}T12:00Z`);
  date.setUTCDate(date.getUTCDate() + count);
  return date.toISOString().slice(0, 10);
}

export function shiftText({ shifts }: Review, shift: number): string {
  if (shift === 0) return t("review-whole-day");
  return t("review-shift", { from: shifts[shift - 1] ?? "", to: shifts[shift % shifts.length] ?? "" });
}

/** The days before and after, today, and the shifts where the shop has some. */
export function ChoosingDay({ review, asked, page }: { review: Review; asked: Asked; page: string }) {
  const over = review.shift ? review.end + 1 : review.start + 86_400;
  const past = over * 1000 <= Date.now();
  const to = (count: number) => dayLink(page, { ...asked, day: daysAfter(review.day, count) });
  return (
    <nav class="choosing-day" aria-label={t("review-choose-day")}>
      <a href={to(-1)}>‹ {t("review-day-before")}</a>
      {past && <a href={to(1)}>{t("review-day-after")} ›</a>}
      {asked.day && <a href={dayLink(page, { ...asked, day: "" })}>{t("review-today")}</a>}
      {review.shifts.length > 0 && (
        <ul class="shifts" aria-label={t("review-shifts")}>
          {[0, ...review.shifts.map((_, place) => place + 1)].map((shift) => (
            <li key={shift}>
              <a href={dayLink(page, { ...asked, shift })} aria-current={shift === review.shift ? "true" : undefined}>
                {shiftText(review, shift)}
              </a>
            </li>
          ))}
        </ul>
      )}
    </nav>
  );
}
