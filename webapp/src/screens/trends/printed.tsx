/** What a sheet of paper has to say of itself: the shop, what it is about, what was chosen, and when it was printed. */
import { useEffect, useState } from "preact/hooks";
import { locale, t } from "../../language";
import { useLoaded } from "../../parts/use";
import { shopName } from "../../store/jobs";
import { type Chosen, FILTERS, type Trend, type Ways } from "./asking";

export function Printed({ about }: { about: readonly string[] }) {
  const shop = useLoaded(() => shopName(), []) ?? "";
  const [now, setNow] = useState(Date.now);
  useEffect(() => {
    const printing = () => setNow(Date.now());
    addEventListener("beforeprint", printing);
    return () => removeEventListener("beforeprint", printing);
  }, []);
  const when = new Date(now).toLocaleString(locale(), { dateStyle: "medium", timeStyle: "short" });
  const said = [shop, ...about, t("trends-printed-at", { when })];
  return <p class="trend-printed">{said.filter(Boolean).join(" · ")}</p>;
}

/** An item, and which of its values are shown. */
export function aboutItem(trend: Trend, chosen: Chosen, ways: Ways): string[] {
  const { name, step_number: number, step_name: step, plan, people } = trend;
  const filters = FILTERS.filter((one) => chosen[one]).map((one) => {
    const value = chosen[one] ?? "";
    return t("trends-printed-filter", { filter: t(`trends-filter-${one}`), value: people[value] ?? value });
  });
  return [t("trends-printed-item", { item: name, number, step, plan }), ...filters, t(`trends-show-${ways.show}`)];
}
