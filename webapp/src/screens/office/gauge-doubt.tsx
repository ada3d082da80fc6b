/** A gauge that was dropped or found out of tolerance: every reading it touches since a day, for somebody to decide. */
import { useState } from "preact/hooks";
import { t, word } from "../../language";
import { calendarDay, clockTime } from "../../parts/customs";
import { Frame, Notice } from "../../parts/frame";
import { Mark, type Shape } from "../../parts/marks";
import { linkTo } from "../../state";
import { type Schemas, useAsked } from "./asking";

const SHAPES: Record<string, Shape> = { "in tolerance": "in", "out of tolerance": "out", "too close to call": "close" };

type Touched = Schemas["TouchedReadings"];

export function GaugeDoubt({ id }: { id: string }) {
  const [typed, setTyped] = useState("");
  const [since, setSince] = useState("");
  return (
    <Frame wide title={t("gauges")} back={linkTo("gauges")}>
      <div class="body">
        <h1>{t("gauge-doubt", { id })}</h1>
        <p>{t("gauge-doubt-how")}</p>
        <form
          class="office-ask"
          onSubmit={(event) => {
            event.preventDefault();
            setSince(typed);
          }}
        >
          <label class="field">
            {t("gauge-doubt-since")}
            <input type="date" required value={typed} onInput={(event) => setTyped(event.currentTarget.value)} />
          </label>
          <button type="submit" class="button main">
            {t("gauge-doubt-find")} <span>›</span>
          </button>
        </form>
        {since && <Found key={since} id={id} since={since} />}
      </div>
    </Frame>
  );
}

function Found({ id, since }: { id: string; since: string }) {
  const { found, says } = useAsked<Touched>(`/gauges/${encodeURIComponent(id)}/readings?since=${since}`, []);
  if (says) return <Notice kind="bad">{t("office-offline", { says })}</Notice>;
  if (!found) return null;
  const { count, readings } = found;
  return (
    <section class="choices">
      <div role="status">
        <h2>{t("gauge-doubt-count", { count, id, day: calendarDay(since) })}</h2>
      </div>
      {count > 0 && <Notice kind="care">{t("gauge-doubt-decides")}</Notice>}
      {count > readings.length && <p>{t("gauge-doubt-shown", { count: readings.length })}</p>}
      {count > 0 && <Readings readings={readings} />}
    </section>
  );
}

function Readings({ readings }: Pick<Touched, "readings">) {
  const heads = [
    t("jobs-job"),
    t("jobs-piece"),
    ...["item", "station", "value", "by", "when", "verdict"].map((name) => t(`gauge-doubt-${name}`)),
  ];
  return (
    <table class="lines level" aria-label={t("gauge-doubt-find")}>
      <thead>
        <tr>
          {heads.map((name) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {readings.map((one) => (
          <tr key={one.record}>
            <td data-cell={t("jobs-job")}>
              <a href={linkTo("jobs", one.job)}>{one.job}</a>
            </td>
            <th scope="row">
              <a href={linkTo("piece", one.job, one.piece)}>{one.mark}</a>
            </th>
            <td data-cell={t("gauge-doubt-item")}>
              <a href={linkTo("item", one.job, one.piece, one.step, one.item)}>{one.name}</a>
            </td>
            <td data-cell={t("gauge-doubt-station")}>{one.station}</td>
            <td data-cell={t("gauge-doubt-value")}>
              <span class="nowrap">
                {one.entered} {one.uom}
              </span>
            </td>
            <td data-cell={t("gauge-doubt-by")}>{one.by}</td>
            <td data-cell={t("gauge-doubt-when")}>{clockTime(one.at)}</td>
            <td data-cell={t("gauge-doubt-verdict")}>
              <Word verdict={one.verdict} />
              {one.standing !== "in force" && <span class="small soft"> {word("standing", one.standing)}</span>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Word({ verdict }: { verdict: string }) {
  return (
    <span class="stands-so">
      <span aria-hidden="true">
        <Mark shape={SHAPES[verdict] ?? "open"} />
      </span>{" "}
      {word("verdict", verdict)}
    </span>
  );
}
