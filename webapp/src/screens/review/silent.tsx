/** Who has not been heard from: phones, with what waits on them and for how long they hold out, and people. */
import { locale, t } from "../../language";
import { type Review, useDay, useHead } from "./asking";
import { type Asked, dayLink, hasBegun } from "./choosing-day";
import { ReviewPage, Table } from "./table";
import { fromNow, lengthText } from "./words";

const TWO_DAYS = 2 * 86_400;
const SHORT = 8;

type Silent = Review["silent"][number];

/** Whether a phone has something to lose before long: it may run out of room for what it has not sent. */
function bitesSoon({ waiting, holds_until }: Silent): boolean {
  return waiting > 0 && holds_until > 0 && holds_until - Date.now() / 1000 < TWO_DAYS;
}

/** Who recorded the day before and not on this one: nobody, where it has not begun. */
function missingIn(review: Review): Review["missing"] {
  return hasBegun(review, review.shift) ? review.missing : [];
}

/** In one line, for the day. */
export function silentText(review: Review): { says: string; bites: boolean } {
  const { silent } = review;
  const missing = missingIn(review);
  const waiting = silent.reduce((sum, one) => sum + one.waiting, 0);
  const bites = silent.some(bitesSoon);
  if (silent.length === 0) {
    return { says: missing.length > 0 ? t("review-missing", { count: missing.length }) : t("review-all-heard"), bites };
  }
  const values = { count: silent.length, waiting };
  return { says: t(waiting > 0 ? "review-silent-waiting" : "review-silent", values), bites };
}

export function SilentPage({ asked }: { asked: Asked }) {
  const head = useHead();
  const { found: review, fault } = useDay(asked, head);
  return (
    <ReviewPage
      title={t("review-not-heard")}
      says={t("review-says-silent")}
      fault={fault}
      here={review !== undefined}
      back={dayLink("day", asked)}
    >
      {review && (
        <>
          <Phones silent={review.silent} />
          {hasBegun(review, review.shift) && <Missing missing={review.missing} />}
        </>
      )}
    </ReviewPage>
  );
}

function Phones({ silent }: { silent: Review["silent"] }) {
  return (
    <section>
      <h2>{t("review-phones")}</h2>
      {silent.length === 0 ? (
        <p class="nothing">{t("review-none-silent")}</p>
      ) : (
        <Table
          name={t("review-phones")}
          columns={[
            t("review-person"),
            t("review-phone"),
            t("review-last-heard"),
            t("review-waiting"),
            t("review-oldest"),
            t("review-holds"),
          ]}
          numbers={[3]}
          rows={silent.map((one) => ({
            key: one.device,
            late: bitesSoon(one),
            cells: [
              one.person,
              one.device.slice(0, SHORT),
              fromNow(one.last_heard),
              one.waiting.toLocaleString(locale()),
              one.oldest ? fromNow(one.oldest) : "",
              holdsText(one),
            ],
          }))}
        />
      )}
    </section>
  );
}

function holdsText(one: Silent): string {
  if (!one.holds_until) return "";
  const left = one.holds_until - Date.now() / 1000;
  if (left <= 0) return t("review-holds-no-more");
  return t(bitesSoon(one) ? "review-holds-only" : "review-holds-for", { length: lengthText(left) });
}

function Missing({ missing }: { missing: Review["missing"] }) {
  return (
    <section>
      <h2>{t("review-people-missing")}</h2>
      {missing.length === 0 ? (
        <p class="nothing">{t("review-none-missing")}</p>
      ) : (
        <Table
          name={t("review-people-missing")}
          columns={[t("review-person"), t("review-last-recorded")]}
          rows={missing.map(({ person, last }) => ({ key: person, cells: [person, fromNow(last)] }))}
        />
      )}
    </section>
  );
}
