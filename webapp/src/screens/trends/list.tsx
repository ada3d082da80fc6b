/** Every item that was measured, to look for by what it or its step is called. */
import { useState } from "preact/hooks";
import { locale, t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { Mark } from "../../parts/marks";
import { linkTo, me } from "../../state";
import { changes } from "../../store/jobs";
import { useAsked } from "../office/asking";
import type { ListedItem } from "./asking";
import { Choice } from "./choices";
import { Printed } from "./printed";
import { lookFirst, type Stands, standsOf, useDrifting } from "./warned";

const STUDYING = ["planner", "supervisor"];
const FIRST = 30;
const ORDERS = ["look", "newest", "step"] as const;

export function ListPage() {
  const [wanted, setWanted] = useState("");
  const [order, setOrder] = useState<string>("look");
  const [most, setMost] = useState(FIRST);
  const path = `/trends?order=${order === "step" ? "step" : "newest"}`;
  const { found: items, says } = useAsked<ListedItem[]>(path, [changes.value]);
  const drifting = useDrifting([changes.value]);
  const stands = standsOf(items?.filter((item) => fits(item, wanted)) ?? [], drifting);
  const left = order === "look" ? lookFirst(stands) : stands;
  const plans = new Set(items?.map(({ plan }) => plan));
  return (
    <Frame wide title={t("office")} back={linkTo("office")}>
      <div class="body trends">
        <Printed about={[t("trends"), wanted]} />
        <h1>{t("trends")}</h1>
        <p>{t("trends-means")}</p>
        {says && <Notice kind="bad">{t("trends-offline", { says })}</Notice>}
        <Ways />
        {items?.length === 0 && <p class="soft">{t("trends-none")}</p>}
        {items && items.length > 0 && (
          <>
            <div class="trend-search unprinted">
              <label class="field wide">
                {t("trends-search")}
                <input type="search" value={wanted} onInput={(event) => setWanted(event.currentTarget.value)} />
              </label>
              <Choice
                label={t("trends-order")}
                value={order}
                onValue={setOrder}
                choices={ORDERS.map((one) => [one, t(`trends-order-${one}`)])}
              />
            </div>
            <p role="status" class="small soft">
              {t("trends-count", { count: left.length, all: items.length })}
            </p>
            <Items stands={left.slice(0, most)} plans={plans.size > 1} />
            {left.length > most && (
              <button type="button" class="button unprinted" onClick={() => setMost(most + FIRST)}>
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

function Items({ stands, plans }: { stands: readonly Stands[]; plans: boolean }) {
  return (
    <table class="lines trend-items" aria-label={t("trends-items")}>
      <thead>
        <tr>
          {["item", "stands", "step", ...(plans ? ["plan"] : []), "values", "newest"].map((name) => (
            <th key={name} scope="col">
              {t(`trends-column-${name}`)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {stands.map((one) => (
          <ItemRow key={`${one.item.plan} ${one.item.step} ${one.item.item}`} stands={one} plans={plans} />
        ))}
      </tbody>
    </table>
  );
}

function ItemRow({ stands, plans }: { stands: Stands; plans: boolean }) {
  const { item } = stands;
  return (
    <tr>
      <th scope="row">
        <a href={linkTo("trends", item.plan, item.step, item.item)}>{item.name}</a>
      </th>
      <td data-cell="">
        <HowItStands stands={stands} />
      </td>
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
  );
}

/** By shape and word what makes an item worth a look; nothing where nothing does. */
function HowItStands({ stands: { item, drifting, out } }: { stands: Stands }) {
  if (!drifting && out === 0) return null;
  return (
    <ul class="trend-stands">
      {drifting && (
        <li>
          <span aria-hidden="true">
            <Mark shape="close" />
          </span>
          {t("trends-stands-drift")}
        </li>
      )}
      {out > 0 && (
        <li>
          <span aria-hidden="true">
            <Mark shape="out" />
          </span>
          {t("trends-stands-out", { out, count: item.recent })}
        </li>
      )}
    </ul>
  );
}

/** Whether each word that is looked for begins a word of the item's, its step's or its plan's name. */
function fits(item: ListedItem, wanted: string): boolean {
  const text = ` ${item.name} ${item.step_number} ${item.step_name} ${item.plan} ${item.item}`.toLowerCase();
  return wanted
    .toLowerCase()
    .split(/\s+/)
    .every((one) => text.includes(` ${one}`));
}
