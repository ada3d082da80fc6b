/** What was fixed on the spot that day, by item, to be seen in one go. */
import { t } from "../../language";
import { limitText } from "../../parts/notation";
import { linkTo } from "../../state";
import { type Spot, useDay, useHead, useLive } from "./asking";
import { type Asked, ChoosingDay, dayLink, query } from "./choosing-day";
import { ReviewPage, Table } from "./table";
import { limitsOf, timeOn, valueText } from "./words";

export function SpotPage({ asked }: { asked: Asked }) {
  const head = useHead();
  const { found: spots, fault } = useLive<Spot[]>(`/review/on-the-spot?${query({ ...asked })}`, head);
  const { found: review } = useDay(asked, head);
  const count = spots?.reduce((sum, one) => sum + one.count, 0);
  return (
    <ReviewPage
      title={count === undefined ? t("review-spot") : t("review-spot-title", { count })}
      says={t("review-says-spot")}
      fault={fault}
      here={spots !== undefined}
      back={dayLink("day", asked)}
    >
      {review && (
        <div>
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
                t("review-fact-by", { person: flag.by, time: timeOn(review?.day ?? "", flag.at) }),
              ],
            }))}
          />
        </section>
      ))}
    </ReviewPage>
  );
}
