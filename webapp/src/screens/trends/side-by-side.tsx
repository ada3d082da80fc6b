/** The same dimension of the same piece at several steps: what welding, heat or rolling did to it. */
import { useState } from "preact/hooks";
import { t, word } from "../../language";
import { linkTo } from "../../state";
import { useAsked } from "../office/asking";
import { type Dimension, figure, limitsText, type Stages, valueText } from "./asking";
import { Shape } from "./charts";

const FIRST = 8;

export function SideBySide({ plan, step, item }: { plan: string; step: string; item: string }) {
  const { found } = useAsked<Stages>(`/trends/stages?${new URLSearchParams({ plan, step, item })}`, []);
  if (!found || found.dimensions.length === 0) return null;
  return (
    <section class="trend-stages">
      <h2>{t("trends-stages")}</h2>
      {found.dimensions.map((dimension) => (
        <DimensionTable key={dimension.stages.map((one) => one.step + one.item).join()} dimension={dimension} />
      ))}
    </section>
  );
}

function DimensionTable({ dimension }: { dimension: Dimension }) {
  const { stages, rows, single } = dimension;
  const [most, setMost] = useState(FIRST);
  const uom = stages[0]?.uom ?? "";
  return (
    <>
      <p class="small soft">{t("trends-stages-how", { single })}</p>
      {rows.length === 0 && <p>{t("trends-stages-none")}</p>}
      {rows.length > 0 && (
        <table class="lines" aria-label={t("trends-stages")}>
          <thead>
            <tr>
              <th scope="col">{t("trends-column-piece")}</th>
              {stages.map((stage) => (
                <th key={stage.step + stage.item} scope="col">
                  {stage.step_number} {stage.step_name} · {stage.name}
                </th>
              ))}
              <th scope="col">{t("trends-column-change")}</th>
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, most).map((row) => (
              <tr key={`${row.piece} ${row.station}`}>
                <th scope="row">
                  <a href={linkTo("piece", row.job, row.piece)}>{row.mark}</a> {row.station}{" "}
                  <span class="small soft">{t("frame-job", { job: row.job })}</span>
                </th>
                {row.values.map((value, place) => (
                  <td key={stages[place]?.step} data-cell={stages[place]?.name ?? ""}>
                    {value && (
                      <>
                        <Shape verdict={value.verdict} label={word("verdict", value.verdict)} />{" "}
                        <b>{valueText(value.value, uom)}</b> {uom}{" "}
                        {(value.lower !== null || value.upper !== null) && (
                          <span class="small soft">{limitsText(value.lower, value.upper, uom)}</span>
                        )}
                      </>
                    )}
                  </td>
                ))}
                <td data-cell={t("trends-column-change")} class="nowrap">
                  {row.changes
                    .filter((one) => one !== null)
                    .map((one) => `${one > 0 ? "+" : ""}${figure(one, 3)}`)
                    .join(", ")}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {rows.length > most && (
        <button type="button" class="button unprinted" onClick={() => setMost(rows.length)}>
          {t("trends-more", { count: rows.length - most })}
        </button>
      )}
    </>
  );
}
