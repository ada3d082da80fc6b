/** Every item that was measured, to look for by what it or its step is called. */
import { useState } from "preact/hooks";
import { locale, t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { linkTo, me } from "../../state";
import { changes } from "../../store/jobs";
import { useAsked } from "../office/asking";
import type { Item } from "./asking";

const STUDYING = ["planner", "supervisor"];
const FIRST = 60;

export function ListPage() {
  const [wanted, setWanted] = useState("");
  const [order, setOrder] = useState<"newest" | "step">("newest");
  const [most, setMost] = useState(FIRST);
  const { found: items, says } = useAsked<Item[]>(`/trends?order=${order}`, [changes.value]);
  const left = items?.filter((item) => fits(item, wanted)) ?? [];
  const plans = new Set(items?.map(({ plan }) => plan));
  return (
    <Frame wide title={t("office")} back={linkTo("office")}>
      <div class="body trends">
        <h1>{t("trends")}</h1>
        <p>{t("trends-means")}</p>
        {says && <Notice kind="bad">{t("trends-offline", { says })}</Notice>}
        <Ways />
        {items?.length === 0 && <p class="soft">{t("trends-none")}</p>}
        {items && items.length > 0 && (
          <>
            <div class="trend-search">
              <label class="field">
                {t("trends-search")}
                <input type="search" value={wanted} onInput={(event) => setWanted(event.currentTarget.value)} />
              </label>
              <label class="field">
                {t("trends-order")}
                <select value={order} onChange={(event) => setOrder(event.currentTarget.value as "newest" | "step")}>
                  <option value="newest">{t("trends-order-newest")}</option>
                  <option value="step">{t("trends-order-step")}</option>
                </select>
              </label>
            </div>
            <p role="status" class="small soft">
              {t("trends-count", { count: left.length, all: items.length })}
            </p>
            <Items items={left.slice(0, most)} plans={plans.size > 1} />
            {left.length > most && (
              <button type="button" class="button" onClick={() => setMost(most + FIRST)}>
                {t("trends-more", { count: Math.min(FIRST, left.length - most) })}
              </button>
            )}
          </>
        )}
      </div>
    </Frame>
  );
}

/** To what the whole shop's values say, beside those of one item. */
function Ways() {
  const studies = me.value?.roles.some((role) => STUDYING.includes(role)) ?? false;
  return (
    <div class="office-actions unprinted">
      <a class="button" href={linkTo("trends", "shares")}>
        {t("trends-shares")}
      </a>
      {studies && (
        <a class="button" href={linkTo("trends", "gauge-study")}>
          {t("trends-study")}
        </a>
      )}
    </div>
  );
}

function Items({ items, plans }: { items: readonly Item[]; plans: boolean }) {
  return (
    <table class="lines" aria-label={t("trends-items")}>
      <thead>
        <tr>
          {["item", "step", ...(plans ? ["plan"] : []), "values", "newest"].map((name) => (
            <th key={name} scope="col">
              {t(`trends-column-${name}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {items.map((item) => (
          <tr key={`${item.plan} ${item.step} ${item.item}`}>
            <th scope="row">
              <a href={linkTo("trends", item.plan, item.step, item.item)}>{item.name}</a>
            </th>
            <td data-cell={t("trends-column-step")}>
              {item.step_number} {item.step_name}
            </td>
            {plans && <td data-cell={t("trends-column-plan")}>{item.plan}</td>}
            <td data-cell={t("trends-column-values")}>{item.count.toLocaleString(locale())}</td>
            <td data-cell={t("trends-column-newest")} class="nowrap">
              {new Date(item.last * 1000).toLocaleString(locale(), {
                month: "short",
                day: "numeric",
                hour: "2-digit",
                minute: "2-digit",
              })}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Whether each word that is looked for begins a word of the item's, its step's or its plan's name. */
function fits(item: Item, wanted: string): boolean {
  const text = ` ${item.name} ${item.step_number} ${item.step_name} ${item.plan} ${item.item}`.toLowerCase();
  return wanted
    .toLowerCase()
    .split(/\s+/)
    .every((one) => text.includes(` ${one}`));
}
