/** The chart of values and the one of moving ranges below it, and in words the value that was come to. */
import { useMemo, useState } from "preact/hooks";
import { t, word } from "../../language";
import { clockTime } from "../../parts/customs";
import { go } from "../../state";
import { figure, fixed, limitsText, limitText, placesOf, type Trend, valueText } from "./asking";
import { Chart } from "./chart";
import type { Drawn } from "./drawing";

interface ChartsProps {
  trend: Trend;
  signals: ReadonlyMap<number, string[]>;
  at: number | null;
  onPoint: (place: number) => void;
}

const SPANS = [50, 200, 500];
const HIGH = { values: 330, ranges: 130 };
const LEAP = 10;

export function Charts({ trend, signals, at, onPoint }: ChartsProps) {
  const count = trend.points.value.length;
  const [asRead, setAsRead] = useState(false);
  const [newest, setNewest] = useState(0);
  const placed = trend.scale === "position" && !asRead;
  const span = useMemo(() => spanOf(count, newest, at), [count, newest, at]);
  const values = useMemo(() => drawnValues(trend, signals, placed), [trend, signals, placed]);
  const ranges = useMemo(() => drawnRanges(trend), [trend]);
  return (
    <section class="trend-charts" aria-label={t("trends-chart")}>
      <div class="trend-head">
        <h2>{placed ? t("trends-chart-placed") : t("trends-chart-read", { uom: trend.uom })}</h2>
        <div class="stations unprinted">
          {trend.scale === "position" && (
            <button type="button" class="station" aria-pressed={asRead} onClick={() => setAsRead(!asRead)}>
              {t("trends-as-read")}
            </button>
          )}
          {SPANS.filter((one) => one < count).map((one) => (
            <button
              key={one}
              type="button"
              class="station"
              aria-pressed={newest === one}
              onClick={() => setNewest(newest === one ? 0 : one)}
            >
              {t("trends-newest", { count: one })}
            </button>
          ))}
        </div>
      </div>
      <Legend trend={trend} placed={placed} signals={signals.size > 0} />
      <p class="trend-read" role="status" aria-live="polite">
        {at === null ? "" : readOut(trend, signals, at)}
      </p>
      {/* biome-ignore lint/a11y/useSemanticElements: it is no set of fields */}
      <div
        class="trend-keys"
        role="group"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: as above
        tabIndex={0}
        aria-label={t("trends-chart-label", { count })}
        aria-describedby="trend-how"
        onKeyDown={(event) => moveByKey(event, trend, signals, at, onPoint)}
      >
        <Chart drawn={values} height={HIGH.values} at={at} span={span} onPoint={onPoint} />
        {ranges && (
          <>
            <h3 class="small">{t("trends-ranges")}</h3>
            <Chart drawn={ranges} height={HIGH.ranges} at={at} span={span} onPoint={onPoint} />
          </>
        )}
      </div>
      <p class="small soft unprinted" id="trend-how">
        {t("trends-chart-how")}
      </p>
    </section>
  );
}

/** The newest values, or as many that end with the one come to where it lies before them. */
function spanOf(count: number, newest: number, at: number | null): readonly [number, number] {
  if (newest === 0 || newest >= count) return [0, count - 1];
  const last = at !== null && at < count - newest ? at + Math.floor(newest / 2) : count - 1;
  const first = Math.max(0, Math.min(last, count - 1) - newest + 1);
  return [first, first + newest - 1];
}

function drawnValues(trend: Trend, signals: ReadonlyMap<number, string[]>, placed: boolean): Drawn {
  const { points, control, ewma } = trend;
  const worked = trend.scale === "value" || placed;
  const places = placesOf(points.value) + 1;
  const all = (limit: number | null) => points.value.map(() => limit);
  const lines = control && [
    { name: t("trends-line-control"), at: control.upper, dash: true },
    { name: t("trends-line-centre"), at: control.centre, dash: false },
    { name: t("trends-line-control"), at: control.lower, dash: true },
  ];
  return {
    values: placed ? (points.position ?? []) : points.value,
    verdicts: points.verdict,
    lower: placed ? all(trend.lower) : points.lower,
    upper: placed ? all(trend.upper) : points.upper,
    average: (worked && ewma && averageOf(ewma)) || null,
    lines: (worked && lines) || [],
    signals: new Set(worked ? signals.keys() : []),
    at: points.at,
    limitName: t("trends-line-limit"),
    limitText: placed ? (value) => figure(value, 3) : limitText,
    text: placed ? (value) => figure(value, 3) : (value) => fixed(value, places),
  };
}

/** The average, and its limits at every point: the last of those given hold for all that follow. */
function averageOf({ values, lower, upper }: NonNullable<Trend["ewma"]>): NonNullable<Drawn["average"]> {
  const whole = (limits: readonly number[]) =>
    values.map((_, place) => limits[Math.min(place, limits.length - 1)] ?? 0);
  return { values, lower: whole(lower), upper: whole(upper) };
}

function drawnRanges(trend: Trend): Drawn | null {
  const { control, points } = trend;
  if (!control) return null;
  const values = points.position ?? points.value;
  const none = values.map(() => null);
  const places = placesOf(points.value) + 1;
  const mean = { name: t("trends-line-mean"), at: control.mr_bar, dash: false };
  return {
    values: values.map((value, place) => (place === 0 ? null : Math.abs(value - (values[place - 1] ?? value)))),
    verdicts: none.map(() => ""),
    lower: none,
    upper: none,
    average: null,
    lines: [{ name: t("trends-line-control"), at: control.mr_upper, dash: true }, mean],
    signals: new Set(),
    at: points.at,
    limitName: "",
    limitText: () => "",
    text: points.position ? (value) => figure(value, 3) : (value) => fixed(value, places),
  };
}

/** Arrow keys go from value to value, with Shift to the next that is marked; Enter opens the piece. */
function moveByKey(
  event: KeyboardEvent,
  trend: Trend,
  signals: ReadonlyMap<number, string[]>,
  at: number | null,
  onPoint: (place: number) => void,
): void {
  const last = trend.points.value.length - 1;
  const here = at ?? last + 1;
  const step = { ArrowLeft: -1, ArrowRight: 1, ArrowDown: -1, ArrowUp: 1, PageUp: LEAP, PageDown: -LEAP }[event.key];
  if (event.key === "Enter" && at !== null) {
    go("piece", trend.points.job[at] ?? "", trend.points.piece[at] ?? "");
    return;
  }
  const ends = { Home: 0, End: last }[event.key];
  if (step === undefined && ends === undefined) return;
  event.preventDefault();
  if (ends !== undefined) {
    onPoint(ends);
    return;
  }
  let to = at === null ? last : here + (step ?? 0);
  if (event.shiftKey) {
    const marked = (place: number) => signals.has(place) || trend.points.verdict[place] === "out of tolerance";
    const way = Math.sign(step ?? 1);
    to = here + way;
    while (to >= 0 && to <= last && !marked(to)) to += way;
    if (to < 0 || to > last) return;
  }
  onPoint(Math.max(0, Math.min(last, to)));
}

/** One value in a sentence. */
export function readOut(trend: Trend, signals: ReadonlyMap<number, string[]>, at: number): string {
  const { points } = trend;
  const by = points.by[at];
  const rules = signals.get(at) ?? [];
  return [
    t("trends-read", {
      place: at + 1,
      count: points.value.length,
      value: valueText(points.value[at] ?? 0, trend.uom),
      uom: trend.uom,
      verdict: word("verdict", points.verdict[at] ?? ""),
      mark: points.mark[at] ?? "",
      station: points.station[at] || "none",
      job: points.job[at] ?? "",
      when: clockTime(points.at[at] ?? ""),
    }),
    by && t("trends-read-by", { name: trend.people[by] ?? by }),
    points.gauge[at] && t("trends-read-gauge", { gauge: points.gauge[at] }),
    ...rules.map((rule) => t("trends-read-marked", { rule: t(`trends-run-${rule}`) })),
  ]
    .filter(Boolean)
    .join(" ");
}

/** What the shapes and lines mean, each drawn as it is in the chart. */
function Legend({ trend, placed, signals }: { trend: Trend; placed: boolean; signals: boolean }) {
  const worked = trend.scale === "value" || placed;
  const verdicts = Object.keys(trend.verdicts);
  const { lower, upper } = trend.points;
  const limited = [...lower, ...upper].some((limit) => limit !== null);
  const same = new Set(lower).size === 1 && new Set(upper).size === 1;
  const limits = same ? limitsText(lower[0], upper[0], trend.uom) : "";
  return (
    <ul class="trend-legend small">
      {verdicts.map((verdict) => (
        <li key={verdict}>
          <Shape verdict={verdict} /> {word("verdict", verdict)}
        </li>
      ))}
      {signals && worked && (
        <li>
          <svg viewBox="0 0 16 16" aria-hidden="true">
            <path d="M8 13L2 3h12z" fill="var(--steel)" />
          </svg>{" "}
          {t("trends-signal")}
        </li>
      )}
      {limited && (
        <LineShown
          look={{ stroke: "var(--in)", "stroke-width": 2 }}
          says={limits ? t("trends-legend-limits-are", { limits }) : t("trends-legend-limits")}
        />
      )}
      {worked && trend.control && (
        <>
          <LineShown look={{ stroke: "var(--ink)" }} says={t("trends-legend-centre")} />
          <LineShown look={{ stroke: "var(--ink)", "stroke-dasharray": "6 4" }} says={t("trends-legend-control")} />
        </>
      )}
      {worked && trend.ewma && (
        <LineShown
          look={{ stroke: "var(--steel)", "stroke-width": 2 }}
          says={t("trends-average", { weight: figure(trend.ewma.weight, 2) })}
        />
      )}
    </ul>
  );
}

function LineShown({ look, says }: { look: Record<string, string | number>; says: string }) {
  return (
    <li>
      <svg viewBox="0 0 28 14" class="wide" aria-hidden="true">
        <path d="M0 7H28" fill="none" {...look} />
      </svg>{" "}
      {says}
    </li>
  );
}

/** label: what it is, where no word stands beside it. */
export function Shape({ verdict, label = "" }: { verdict: string; label?: string }) {
  const drawn = {
    "in tolerance": <circle cx="8" cy="8" r="5" fill="var(--in)" />,
    "out of tolerance": <rect x="3" y="3" width="10" height="10" fill="var(--out)" />,
    "too close to call": <path d="M8 1l7 7-7 7-7-7z" fill="var(--close)" />,
  }[verdict];
  return (
    <svg viewBox="0 0 16 16" role={label ? "img" : "presentation"} aria-hidden={!label} aria-label={label}>
      {drawn ?? <circle cx="8" cy="8" r="4.5" fill="none" stroke="var(--ink)" stroke-width="1.5" />}
    </svg>
  );
}
