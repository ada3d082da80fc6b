/** The same values as a table, the newest first. */
import { useState } from "preact/hooks";
import { locale, t, word } from "../../language";
import { clockTime } from "../../parts/customs";
import { linkTo } from "../../state";
import { limitsText, type Trend, valueText } from "./asking";
import { Shape } from "./charts";

const FIRST = 100;
/** Where rows are stacked, as on a phone, the first fill several screens. */
const STACKED = "(max-width: 700px)";
const FIRST_STACKED = 20;
/** Verdicts whose shape is enough. */
const QUIET = ["in tolerance", "recorded"];

interface TableProps {
  trend: Trend;
  signals: ReadonlyMap<number, string[]>;
}

export function ValueTable({ trend, signals }: TableProps) {
  const [most, setMost] = useState(() => (matchMedia(STACKED).matches ? FIRST_STACKED : FIRST));
  const { points } = trend;
  const count = points.value.length;
  const shown = Math.min(most, count);
  const names = [
    "piece",
    "value",
    "limits",
    ...(points.by.length > 0 ? ["who"] : []),
    ...(points.gauge.some(Boolean) ? ["gauge"] : []),
    "measured",
  ];
  return (
    <section class="trend-table">
      <h2>{t("trends-values")}</h2>
      <p class="small soft">{t("trends-rows", { shown, count })}</p>
      <table class="lines" aria-label={t("trends-values")}>
        <thead>
          <tr>
            {names.map((name) => (
              <th key={name} scope="col">
                {t(`trends-column-${name}`)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {Array.from({ length: shown }, (_, row) => count - 1 - row).map((place) => (
            <ValueRow key={place} trend={trend} place={place} rules={signals.get(place) ?? []} />
          ))}
        </tbody>
      </table>
      {shown < count && (
        <button type="button" class="button unprinted" onClick={() => setMost(most + FIRST)}>
          {t("trends-more", { count: Math.min(FIRST, count - shown) })}
        </button>
      )}
    </section>
  );
}

function ValueRow({ trend, place, rules }: { trend: Trend; place: number; rules: readonly string[] }) {
  const { points, people, uom } = trend;
  const [job, verdict, by] = [points.job[place] ?? "", points.verdict[place] ?? "", points.by[place]];
  const [lower, upper] = [points.lower[place], points.upper[place]];
  return (
    <tr>
      <th scope="row">
        <a href={linkTo("piece", job, points.piece[place] ?? "")}>{points.mark[place]}</a>{" "}
        <span class="nowrap">{points.station[place]}</span>{" "}
        <span class="small soft nowrap">{t("frame-job", { job })}</span>
      </th>
      <td data-cell={t("trends-column-value")}>
        <span class="nowrap">
          <Shape verdict={verdict} label={word("verdict", verdict)} /> <b>{valueText(points.value[place] ?? 0, uom)}</b>{" "}
          {uom}
        </span>{" "}
        {!QUIET.includes(verdict) && <span class="small">{word("verdict", verdict)}</span>}
        {rules.length > 0 && <span class="small signal"> {t("trends-signal-at", { count: rules.length })}</span>}
      </td>
      <td data-cell={t("trends-column-limits")} class="nowrap">
        {limitsText(lower, upper, uom)}
      </td>
      {points.by.length > 0 && <td data-cell={t("trends-column-who")}>{by && (people[by] ?? by)}</td>}
      {points.gauge.some(Boolean) && (
        <td data-cell={t("trends-column-gauge")} class="nowrap">
          {points.gauge[place]}
        </td>
      )}
      <td data-cell={t("trends-column-measured")} class="nowrap">
        {clockTime(points.at[place] ?? "")}
      </td>
    </tr>
  );
}

export function shareText(one: { flagged: number; n: number }): string {
  return t("trends-share", { flagged: one.flagged.toLocaleString(locale()), n: one.n.toLocaleString(locale()) });
}
