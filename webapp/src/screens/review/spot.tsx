/** What was fixed on the spot that day, by item, to be seen in one go. */
import { t } from "../../language";
import { clockTime } from "../../parts/customs";
import { limitText } from "../../parts/notation";
import { linkTo } from "../../state";
import { type Review, type Spot, useHead, useLive } from "./asking";
import { type Asked, ChoosingDay, dayLink, dayText, query, shiftText } from "./choosing-day";
import { ReviewPage, Table } from "./table";
import { limitsOf, valueText } from "./words";

export function SpotPage({ asked }: { asked: Asked }) {
  const head = useHead();
  const { found: spots, fault } = useLive<Spot[]>(`/review/on-the-spot?${query({ ...asked })}`, head);
  const { found: review } = useLive<Review>(`/review?${query({ ...asked })}`, head);
  const count = spots?.reduce((sum, one) => sum + one.count, 0) ?? 0;
  return (
    <ReviewPage
      title={t("review-spot-title", { count })}
      says={t("review-says-spot")}
      fault={fault}
      here={spots !== undefined}
      back={dayLink("day", asked)}
    >
      {review && (
        <div>
          <p class="day-name">
            <b class="begins">{dayText(review.day)}</b>
            {review.shift > 0 && <span>, {shiftText(review, review.shift)}</span>}
          </p>
          <ChoosingDay review={review} asked={asked} page="spot" />
        </div>
      )}
      {spots?.length === 0 && <p class="nothing">{t("review-none-spot")}</p>}
      {spots?.map((spot) => (
        <section key={spot.number + spot.item}>
          <h2>
            {spot.item} <span class="soft">{t("review-times", { count: spot.count })}</span>
          </h2>
          <Table
            fixed
            name={spot.item}
            columns={[t("review-piece"), t("review-job"), t("review-found"), t("review-fact-limit"), t("review-who")]}
            rows={spot.flags.map((flag) => ({
              key: flag.id,
              cells: [
                <a key="piece" href={linkTo("step", flag.job, flag.piece.id, flag.step.code)}>
                  {flag.piece.mark} {flag.station}
                </a>,
                flag.job,
                <span key="value" class="lined-out">
                  {valueText(flag) || t("review-rejected")}
                </span>,
                flag.limits ? limitText(limitsOf(flag), flag.uom) : "",
                t("review-fact-by", { person: flag.by, time: clockTime(flag.at) }),
              ],
            }))}
          />
        </section>
      ))}
    </ReviewPage>
  );
}
