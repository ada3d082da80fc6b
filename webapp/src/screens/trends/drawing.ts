/** How a trend is drawn: lines for limits, control limits and average; a shape of its own for each verdict. */
import uPlot from "uplot";
import { locale } from "../../language";
import { fixed } from "./asking";

/** What a chart draws of each value, in order; on the scale of the statistics or as measured. */
export interface Drawn {
  readonly values: readonly (number | null)[];
  readonly verdicts: readonly string[];
  readonly lower: readonly (number | null)[];
  readonly upper: readonly (number | null)[];
  readonly average: { readonly [column in "values" | "lower" | "upper"]: readonly number[] } | null;
  /** Lines across: what they are called, where they lie, whether broken. */
  readonly lines: readonly { readonly name: string; readonly at: number; readonly dash: boolean }[];
  readonly signals: ReadonlySet<number>;
  readonly at: readonly string[];
  readonly limitName: string;
  /** A limit is never rounded, a line that was worked out is. */
  readonly limitText: (value: number) => string;
  readonly text: (value: number) => string;
}

const NARROW = 560;
const POINTS = 5;
/** Below it the lines across lie closer. */
const LOW = 200;

/** Colours by name, from where the chart stands: they differ by daylight, dark and paper. */
function colour(here: HTMLElement, name: string): string {
  return getComputedStyle(here).getPropertyValue(`--${name}`).trim() || "black";
}

function dayOf(at: string): string {
  return new Date(`${at.slice(0, 10)}T12:00`).toLocaleDateString(locale(), { month: "short", day: "numeric" });
}

function hourOf(at: string): string {
  const made = new Date(at.slice(0, 16).replace(" ", "T"));
  return made.toLocaleTimeString(locale(), { hour: "numeric", minute: "2-digit" });
}

/** The columns as uPlot takes them; x is the place of a value, from 1. */
export function columnsOf(drawn: Drawn): uPlot.AlignedData {
  const none = drawn.values.map(() => null);
  const { values, lower, upper } = drawn.average ?? { values: none, lower: none, upper: none };
  const across = drawn.lines.map(({ at }) => drawn.values.map(() => at));
  const places = drawn.values.map((_, place) => place + 1);
  const columns = [places, drawn.values, drawn.lower, drawn.upper, values, lower, upper, ...across];
  return columns as unknown as uPlot.AlignedData;
}

/** Room above and below whatever is drawn. */
function rangeOf(drawn: Drawn): [number, number] {
  const all = [drawn.values, drawn.lower, drawn.upper, drawn.average?.values ?? [], drawn.lines.map(({ at }) => at)]
    .flat()
    .filter((one) => one !== null);
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const room = (most - least) * 0.08 || Math.abs(most) * 0.01 || 1;
  return [least - room, most + room];
}

export function optionsOf(
  here: HTMLElement,
  drawn: Drawn,
  size: { width: number; height: number },
  onPoint: (place: number) => void,
): uPlot.Options {
  const ink = (name: string) => () => colour(here, name);
  const stepped = uPlot.paths.stepped?.({ align: 1 });
  const limit: uPlot.Series = {
    stroke: ink("in"),
    width: 1.5,
    points: { show: false },
    ...(stepped && { paths: stepped }),
  };
  const narrow = size.width < NARROW;
  return {
    ...size,
    legend: { show: false },
    padding: [14, narrow ? 12 : 140, 0, 0],
    scales: { x: { time: false, range: (_, least, most) => [least - 0.8, most + 0.8] }, y: { range: rangeOf(drawn) } },
    series: [
      {},
      { stroke: ink("ink-soft"), width: 1, points: { show: false } },
      limit,
      limit,
      { stroke: ink("steel"), width: 2, points: { show: false } },
      ...[0, 1].map((): uPlot.Series => ({ stroke: ink("steel"), width: 1, dash: [2, 4], points: { show: false } })),
      ...drawn.lines.map(
        ({ dash }): uPlot.Series => ({
          stroke: ink("ink"),
          width: 1,
          points: { show: false },
          ...(dash && { dash: [6, 5] }),
        }),
      ),
    ],
    axes: [
      axis(ink("ink-soft"), (_, splits) => days(drawn, splits), ink("line"), narrow ? 70 : 90),
      { ...axis(ink("ink-soft"), onAxis, ink("line"), size.height < LOW ? 20 : 36), size: narrow ? 58 : 72 },
    ],
    cursor: {
      drag: { x: false, y: false },
      y: false,
      points: {
        size: (_, series) => (series === 1 ? 16 : 0),
        width: (_, series) => (series === 1 ? 2 : 0),
        stroke: ink("steel"),
        fill: "transparent",
      },
    },
    hooks: {
      draw: [(chart) => drawPoints(chart, here, drawn), ...(narrow ? [] : [drawNames(here, drawn)])],
      setCursor: [(chart) => typeof chart.cursor.idx === "number" && onPoint(chart.cursor.idx)],
    },
  };
}

function axis(stroke: () => string, values: uPlot.Axis.DynamicValues, line: () => string, space: number): uPlot.Axis {
  return {
    stroke,
    values,
    space,
    font: '13px "Atkinson Hyperlegible Next Variable", system-ui, sans-serif',
    grid: { stroke: line, width: 0.5 },
    ticks: { stroke: line, width: 1, size: 6 },
  };
}

/** To as many decimals as the lines lie apart. */
function onAxis(_: uPlot, splits: number[], __: number, ___: number, apart: number): string[] {
  const places = Math.min(10, Math.max(0, -Math.floor(Math.log10(apart) + 1e-9)));
  const finer = Math.abs(apart * 10 ** places - Math.round(apart * 10 ** places)) > 1e-6 ? places + 1 : places;
  return splits.map((split) => fixed(split, finer));
}

/** Under whole places when the value was made: the day, once for each; where all are of one day, the hour. */
export function days({ at }: Pick<Drawn, "at">, splits: readonly number[]): string[] {
  const made = splits.map((split) => (Number.isInteger(split) ? at[split - 1] : undefined));
  const named = made.map((one) => (one ? dayOf(one) : ""));
  const single = new Set(named.filter(Boolean)).size === 1;
  const first = made.findIndex(Boolean);
  let before = "";
  return made.map((one, place) => {
    const day = named[place] ?? "";
    if (single && one) return place === first ? `${hourOf(one)}\n${day}` : hourOf(one);
    const again = day === before;
    before = day || before;
    return again ? "" : day;
  });
}

function drawPoints(chart: uPlot, here: HTMLElement, drawn: Drawn): void {
  const { ctx } = chart;
  const ratio = uPlot.pxRatio;
  const least = (chart.scales.x?.min ?? 0) - 1;
  const most = chart.scales.x?.max ?? drawn.values.length;
  const room = chart.bbox.width / Math.max(1, most - least);
  const usual = Math.min(4.5 * ratio, Math.max(1.6 * ratio, room * 0.4));
  const [inside, out, close] = ["in", "out", "close"].map((name) => colour(here, name));
  const inks = [colour(here, "ink"), colour(here, "paper")] as const;
  ctx.save();
  ctx.beginPath();
  ctx.rect(chart.bbox.left, 0, chart.bbox.width, chart.bbox.top + chart.bbox.height);
  ctx.clip();
  const draw = (place: number, shape: (x: number, y: number) => void) => {
    const value = drawn.values[place];
    if (typeof value !== "number" || place + 1 < least || place > most) return;
    ctx.beginPath();
    shape(chart.valToPos(place + 1, "x", true), chart.valToPos(value, "y", true));
  };
  // What is wrong is drawn last and large, so that nothing lies over it.
  for (const bad of [false, true]) {
    for (const [place, verdict] of drawn.verdicts.entries()) {
      if ((verdict === "out of tolerance" || verdict === "too close to call") !== bad) continue;
      const radius = bad ? Math.max(usual, POINTS * ratio) : usual;
      ctx.fillStyle = { "in tolerance": inside, "out of tolerance": out, "too close to call": close }[verdict] ?? "";
      draw(place, (x, y) => drawShape(ctx, verdict, x, y, radius, inks));
    }
  }
  ctx.fillStyle = colour(here, "steel");
  for (const place of drawn.signals) {
    draw(place, (x, y) => {
      const [tip, wide, high] = [y - 9 * ratio, 5 * ratio, 8 * ratio];
      ctx.moveTo(x, tip);
      ctx.lineTo(x - wide, tip - high);
      ctx.lineTo(x + wide, tip - high);
      ctx.fill();
    });
  }
  ctx.restore();
}

function drawShape(
  ctx: CanvasRenderingContext2D,
  verdict: string,
  x: number,
  y: number,
  radius: number,
  [ink, paper]: readonly [ink: string, paper: string],
): void {
  ctx.setLineDash([]);
  ctx.strokeStyle = ink;
  switch (verdict) {
    case "out of tolerance":
      ctx.rect(x - radius, y - radius, radius * 2, radius * 2);
      break;
    case "too close to call":
      ctx.moveTo(x, y - radius * 1.3);
      ctx.lineTo(x + radius * 1.3, y);
      ctx.lineTo(x, y + radius * 1.3);
      ctx.lineTo(x - radius * 1.3, y);
      break;
    case "in tolerance":
      ctx.arc(x, y, radius, 0, Math.PI * 2);
      break;
    case "":
      ctx.arc(x, y, radius * 0.7, 0, Math.PI * 2);
      ctx.fillStyle = ink;
      break;
    default:
      ctx.arc(x, y, radius, 0, Math.PI * 2);
      ctx.fillStyle = paper;
      ctx.lineWidth = Math.max(1, radius / 3);
      ctx.stroke();
  }
  ctx.fill();
}

/** What each line is called, on the right of it; pushed apart where two lie close. */
function drawNames(here: HTMLElement, drawn: Drawn): (chart: uPlot) => void {
  return (chart) => {
    const ratio = uPlot.pxRatio;
    const { ctx, bbox } = chart;
    const limits = [drawn.lower.at(-1), drawn.upper.at(-1)].filter((one) => typeof one === "number");
    const names = [
      ...limits.map((at) => ({ at, name: `${drawn.limitName} ${drawn.limitText(at)}`, ink: "in" })),
      ...drawn.lines.map(({ at, name }) => ({ at, name: `${name} ${drawn.text(at)}`, ink: "ink" })),
    ]
      .map((one) => ({ ...one, y: chart.valToPos(one.at, "y", true) }))
      .sort((one, other) => one.y - other.y);
    ctx.save();
    ctx.font = `${13 * ratio}px "Atkinson Hyperlegible Next Variable", system-ui, sans-serif`;
    ctx.textBaseline = "middle";
    ctx.textAlign = "left";
    let next = 0;
    for (const { name, y, ink } of names) {
      const at = Math.max(y, next);
      ctx.fillStyle = colour(here, ink);
      ctx.fillText(name, bbox.left + bbox.width + 8 * ratio, at);
      next = at + 16 * ratio;
    }
    ctx.restore();
  };
}
