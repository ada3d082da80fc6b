/** The day: four lists, counts, and the flags with the opened one beside them. */
import { useEffect, useRef, useState } from "preact/hooks";
import { t } from "../../language";
import { Frame } from "../../parts/frame";
import { linkTo } from "../../state";
import { type Review, useHead, useLive } from "./asking";
import { Bench } from "./bench";
import { type Asked, ChoosingDay, dayLink, hasBegun, query } from "./choosing-day";
import { awayOf, listedIn, ofDay } from "./counts";
import { FilterLine, Listed, States } from "./filters";
import { FirstLists } from "./first-lists";
import { useLooked } from "./looked";
import { paperOf, reworkSheet } from "./paper";
import { forgetArrived } from "./signing";
import { silentText } from "./silent";
import { Away, NotYours } from "./table";

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

/** Whether an answer is about the day and the shift that are asked for. */
function isOf(path: string, asked: Asked): boolean {
  const answered = new URLSearchParams(path.slice(path.indexOf("?")));
  return (answered.get("day") ?? "") === asked.day && Number(answered.get("shift")) === asked.shift;
}

/** The state that an answer is about. */
function stateIn(path: string): string {
  return new URLSearchParams(path.slice(path.indexOf("?"))).get("state") ?? "";
}

/** The way back to the flags once the filters are taken off: the button that took them off is gone by then. */
function useFocusOnFlags(review: Review | undefined): () => void {
  const wanted = useRef(false);
  const focus = () => document.querySelector<HTMLElement>(".flags [tabindex='0']")?.focus({ preventScroll: true });
  useEffect(() => {
    if (wanted.current && document.activeElement === document.body) focus();
    wanted.current = false;
  }, [review]);
  return () => {
    wanted.current = true;
    focus();
  };
}

export function DayPage({ asked }: { asked: Asked }) {
  const [now, look] = useLooked();
  const head = useHead();
  const [ended, setEnded] = useState(0);
  const path = `/review?${query({ ...asked, state: now.state, ...now.filters })}`;
  const { found, path: answered, fault } = useLive<Review>(path, head, ended);
  const review = fault && !isOf(answered, asked) ? undefined : found;
  const focusOnFlags = useFocusOnFlags(review);
  useEnd(review, () => setEnded(ended + 1));
  useEffect(() => void forgetArrived(), [review]);
  if (fault?.refused) return <NotYours />;
  const state = stateIn(answered);
  const away = review ? awayOf(review, state) : 0;
  return (
    <Frame wide>
      {fault && <Away fault={fault} here={review !== undefined} />}
      {review ? (
        <>
          <Title review={review} asked={asked} away={away} />
          <FirstLists review={review} />
          <section aria-label={t("review-flags")}>
            <div class="above-flags">
              <States
                review={review}
                state={now.state}
                away={away}
                onState={(next) => look({ state: next, filters: {}, chosen: "" })}
              />
              <Listed
                review={review}
                state={now.state}
                filters={now.filters}
                answered={answered === path}
                onClear={() => {
                  look({ filters: {}, chosen: "" });
                  focusOnFlags();
                }}
              />
              <FilterLine
                review={review}
                filters={now.filters}
                onFilters={(filters) => look({ filters, chosen: "" })}
              />
            </div>
            {fault && answered !== path ? (
              <p class="nothing">{t("review-flags-offline")}</p>
            ) : (
              <Bench key={answered} review={review} state={state} head={head} now={now} look={look} />
            )}
          </section>
        </>
      ) : (
        <div class="body review-page">
          <h1>{t("review")}</h1>
          {!fault && <p class="soft">{t("review-loading")}</p>}
        </div>
      )}
    </Frame>
  );
}

interface TitleProps {
  review: Review;
  asked: Asked;
  /** How many words signed here have not arrived. */
  away: number;
}

function Title({ review, asked, away }: TitleProps) {
  return (
    <div class="review-title">
      <div>
        <h1>{t("review")}</h1>
        <ChoosingDay review={review} asked={asked} page="day" />
      </div>
      <div class="beside-title">
        <Figures review={review} away={away} />
        <Ways review={review} asked={asked} />
      </div>
    </div>
  );
}

/** What became of the flags of the day; what is open now, of any day. */
function Figures({ review, away }: Omit<TitleProps, "asked">) {
  const { counts, shift } = review;
  const figures = ofDay(counts, away);
  const values = { shift, recorded: counts.recorded, ...figures };
  return (
    <p class="figures">
      {!hasBegun(review, shift) ? (
        <b>{t("review-not-begun", { shift })}</b>
      ) : figures.away > 0 ? (
        t("review-counts-away", { ...values })
      ) : (
        t("review-counts", { ...values })
      )}
      <br />
      {t("review-open-now", { open: listedIn(counts, away).open ?? 0 })}
      {away > 0 && <b> · {t("review-away", { count: away })}</b>}
    </p>
  );
}

function Ways({ review, asked }: Omit<TitleProps, "away">) {
  const silent = silentText(review);
  const paper = paperOf();
  const report = (kind: string, more: Record<string, string> = {}) =>
    `/api/v1/review/report.${kind}?${query({ day: review.day, shift: review.shift, ...more })}`;
  return (
    <>
      <p class="review-ways">
        <span>{t("review-released", { count: review.counts.released })}</span>
        <a href={dayLink("spot", asked)}>{t("review-spot-count", { count: review.counts.of_day.on_the_spot })}</a>
        <a class={silent.bites ? "late" : ""} href={dayLink("silent", asked)}>
          {silent.says}
        </a>
      </p>
      <nav class="review-ways" aria-label={t("review-ways")}>
        <a href={linkTo("review", "ncr")}>{t("review-ncr")}</a>
        <span>
          {t("review-report")} <a href={report("pdf", { paper })}>PDF</a> <a href={report("xlsx")}>XLSX</a>
        </span>
        <span>
          {t("review-rework-sheet")} <a href={reworkSheet()}>PDF</a>
        </span>
      </nav>
    </>
  );
}
