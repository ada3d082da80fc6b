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

type Shifts = Pick<Review, "start" | "end" | "shift" | "shifts">;

const DAY = 86_400;

function minutesOf(time: string): number {
  const [hours = 0, minutes = 0] = time.split(":").map(Number);
  return hours * 60 + minutes;
}

/** Seconds from the beginning of a day, which is that of its first shift, to that of a shift. */
function fromBegin({ shifts }: Shifts, shift: number): number {
  const minutes = minutesOf(shifts[shift - 1] ?? "") - minutesOf(shifts[0] ?? "");
  return shift > 0 ? ((minutes + 1440) % 1440) * 60 : 0;
}

/** Unix second at which a shift of the day shown begins, or of one that is days after it; 0 for the whole day. */
function beginOf(review: Shifts, shift: number, days = 0): number {
  return review.start - fromBegin(review, review.shift) + fromBegin(review, shift) + days * DAY;
}

/** Whether a shift of the day shown has begun, or of one that is days after it. */
export function hasBegun(review: Shifts, shift: number, now = Date.now(), days = 0): boolean {
  return beginOf(review, shift, days) * 1000 <= now;
}

/** The shift to look at on the day after: the same, the whole day where that has not begun; null where neither has. */
export function shiftAfter(review: Shifts, now = Date.now()): number | null {
  const begun = [review.shift, 0].find((shift) => hasBegun(review, shift, now, 1));
  return begun ?? null;
}

interface ChoosingProps {
  review: Review;
  asked: Asked;
  page: string;
}

/** The day shown and the ways to others; below it the shifts, where the shop has some. */
export function ChoosingDay(props: ChoosingProps) {
  const { review } = props;
  return (
    <>
      <div class="day-line">
        <p class="day-name">
          <b class="begins">{dayText(review.day)}</b>
          {review.shift > 0 && <span>, {shiftText(review, review.shift)}</span>}
        </p>
        <Days {...props} />
      </div>
      {review.shifts.length > 0 && <Shifts {...props} />}
    </>
  );
}

/** The days before and after, and today. */
function Days({ review, asked, page }: ChoosingProps) {
  const after = shiftAfter(review);
  const to = (count: number, shift: number) => dayLink(page, { day: daysAfter(review.day, count), shift });
  return (
    <nav class="choosing-day" aria-label={t("review-choose-day")}>
      {hasBegun(review, review.shift, Date.now(), -1) && <a href={to(-1, review.shift)}>‹ {t("review-day-before")}</a>}
      {after !== null && <a href={to(1, after)}>{t("review-day-after")} ›</a>}
      {asked.day && <a href={dayLink(page, { day: "", shift: 0 })}>{t("review-today")}</a>}
    </nav>
  );
}

/** The whole day and its shifts; what has not begun is named, and leads nowhere. */
function Shifts({ review, asked, page }: ChoosingProps) {
  return (
    <nav class="choosing-day" aria-label={t("review-shifts")}>
      <ul class="shifts">
        {[0, ...review.shifts.map((_, place) => place + 1)].map((shift) => (
          <li key={shift}>
            {shift === review.shift || hasBegun(review, shift) ? (
              <a href={dayLink(page, { ...asked, shift })} aria-current={shift === review.shift ? "true" : undefined}>
                {shiftText(review, shift)}
              </a>
            ) : (
              <span class="soft">{shiftText(review, shift)}</span>
            )}
          </li>
        ))}
      </ul>
    </nav>
  );
}
