/** The last values of an item, oldest first, each between the limits it was judged by. */
import { Decimal } from "../../core/numbers";
import { t } from "../../language";
import { shownValue } from "../../parts/notation";
import { linkTo } from "../../state";
import type { OpenedFlag } from "./asking";

const [WIDTH, HEIGHT, TOP, BOTTOM] = [320, 112, 10, 102];
/** Where the values end: beside the newest stand its limits. */
const RIGHT = 272;
const LEAST = 3;

type Point = OpenedFlag["trend"][number];

export function Trend({ flag }: { flag: OpenedFlag }) {
  const points = flag.trend;
  if (points.length < LEAST) return null;
  const numbers = points.flatMap(({ value, lower, upper }) => [value, lower ?? value, upper ?? value]);
  const [least, most] = [Math.min(...numbers), Math.max(...numbers)];
  const x = (place: number) => 8 + (place / (points.length - 1)) * (RIGHT - 16);
  const y = (value: number) => BOTTOM - ((value - least) / (most - least || 1)) * (BOTTOM - TOP);
  const here = points.findIndex(({ id }) => id === flag.record);
  const newest = points.at(-1);
  const shown = (value: number) => shownValue(new Decimal(Number(value.toPrecision(6))), flag.uom);
  return (
    <section>
      <h3>{t("review-last", { count: points.length, item: flag.item.name })}</h3>
      <svg class="flag-trend" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={summary(points, flag, shown)}>
        {(["lower", "upper"] as const).map((side) => (
          <path key={side} d={limitLine(points, side, x, y)} class="flag-trend-limit" />
        ))}
        {[newest?.lower, newest?.upper].map(
          (limit) =>
            typeof limit === "number" && (
              <text key={limit} x={RIGHT + 2} y={y(limit) + 3}>
                {shown(limit)}
              </text>
            ),
        )}
        <polyline
          points={points.map(({ value }, place) => `${x(place)},${y(value)}`).join(" ")}
          class="flag-trend-values"
        />
        {points.map(({ id, value, verdict }, place) =>
          place === here ? null : (
            <circle
              key={id + place}
              cx={x(place)}
              cy={y(value)}
              r="2.5"
              class={verdict === "out of tolerance" ? "flag-trend-out" : ""}
            />
          ),
        )}
        {here >= 0 && (
          <rect
            x={x(here) - 5}
            y={y(points[here]?.value ?? 0) - 5}
            width="10"
            height="10"
            class={points[here]?.verdict === "out of tolerance" ? "flag-trend-out" : ""}
          />
        )}
      </svg>
      <a class="to-step" href={linkTo("trends", flag.step.code, flag.item.code)}>
        {t("review-to-trends", { item: flag.item.name })} ›
      </a>
    </section>
  );
}

/** A limit from point to point, in steps where it is another; broken where there is none. */
function limitLine(
  points: readonly Point[],
  side: "lower" | "upper",
  x: (place: number) => number,
  y: (value: number) => number,
): string {
  const half = points.length > 1 ? (x(1) - x(0)) / 2 : 0;
  return points
    .flatMap((point, place) => {
      const limit = point[side];
      if (limit === null) return [];
      const joined = place > 0 && points[place - 1]?.[side] !== null;
      return [`${joined ? "L" : "M"}${x(place) - half} ${y(limit)}H${x(place) + half}`];
    })
    .join("");
}

function summary(points: readonly Point[], flag: OpenedFlag, shown: (value: number) => string): string {
  const values = points.map(({ value }) => value);
  return t("review-trend", {
    count: points.length,
    item: flag.item.name,
    least: shown(Math.min(...values)),
    most: shown(Math.max(...values)),
    uom: flag.uom,
  });
}
