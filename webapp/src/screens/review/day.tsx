/** The day: four lists, counts, and the flags with the opened one beside them. */
import { useEffect, useState } from "preact/hooks";
import { t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { linkTo } from "../../state";
import { type Review, useHead, useLive } from "./asking";
import { Bench } from "./bench";
import { type Asked, ChoosingDay, dayLink, dayText, query, shiftText } from "./choosing-day";
import { FilterLine, States } from "./filters";
import { FirstLists } from "./first-lists";
import { useLooked } from "./looked";
import { forgetArrived } from "./signing";
import { silentText } from "./silent";

/** Tell when the day or the shift that is looked at is over: what is now may be another. */
function useEnd(review: Review | undefined, onEnd: () => void): void {
  const end = review?.end ?? 0;
  useEffect(() => {
    const left = (end + 1) * 1000 - Date.now();
    if (left < 0 || left > 86_400_000) return;
    const timer = setTimeout(onEnd, left + 500);
    return () => clearTimeout(timer);
  }, [end]);
}

export function DayPage({ asked }: { asked: Asked }) {
  const [now, look] = useLooked();
  const head = useHead();
  const [ended, setEnded] = useState(0);
  const path = `/review?${query({ ...asked, state: now.state, ...now.filters })}`;
  const { found: review, path: answered, fault } = useLive<Review>(path, head, ended);
  useEnd(review, () => setEnded(ended + 1));
  useEffect(() => void forgetArrived(), [review]);
  return (
    <Frame wide>
      {fault && <Notice kind="bad">{t(review ? "review-stale" : "review-offline", { says: fault })}</Notice>}
      {review ? (
        <>
          <Title review={review} asked={asked} />
          <FirstLists review={review} />
          <section aria-label={t("review-flags")}>
            <div class="above-flags">
              <States review={review} state={now.state} onState={(state) => look({ state, filters: {}, chosen: "" })} />
              <FilterLine
                review={review}
                filters={now.filters}
                onFilters={(filters) => look({ filters, chosen: "" })}
              />
            </div>
            <Bench key={answered} review={review} state={stateIn(answered)} head={head} now={now} look={look} />
          </section>
        </>
      ) : (
        !fault && <p class="body soft">{t("review-loading")}</p>
      )}
    </Frame>
  );
}

/** The state that an answer is about. */
function stateIn(path: string): string {
  return new URLSearchParams(path.slice(path.indexOf("?"))).get("state") ?? "";
}

function Title({ review, asked }: { review: Review; asked: Asked }) {
  const { counts } = review;
  const silent = silentText(review);
  const report = (kind: string) => `/api/v1/review/report.${kind}?${query({ day: review.day, shift: review.shift })}`;
  return (
    <div class="review-title">
      <div>
        <h1>{t("review")}</h1>
        <p class="day-name">
          <b class="begins">{dayText(review.day)}</b>
          {review.shift > 0 && <span>, {shiftText(review, review.shift)}</span>}
        </p>
        <ChoosingDay review={review} asked={asked} page="day" />
      </div>
      <div class="beside-title">
        <p class="soft">
          {t("review-counts", { ...counts })}
          <br />
          {t("review-released", { count: counts.released })} ·{" "}
          <a href={dayLink("spot", asked)}>{t("review-spot-count", { count: counts.on_the_spot })}</a>
        </p>
        <nav class="review-ways" aria-label={t("review-ways")}>
          <a href={linkTo("review", "ncr")}>{t("review-ncr")}</a>
          <a class={silent.bites ? "late" : ""} href={dayLink("silent", asked)}>
            {silent.says}
          </a>
          <span>
            {t("review-report")} <a href={report("pdf")}>PDF</a> <a href={report("xlsx")}>XLSX</a>
          </span>
          <span>
            {t("review-rework-sheet")} <a href="/api/v1/review/rework.pdf">PDF</a>
          </span>
        </nav>
      </div>
    </div>
  );
}
