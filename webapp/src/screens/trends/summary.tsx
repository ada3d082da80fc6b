/** What an item's values say, in plain sentences. */
import { t, word } from "../../language";
import { Mark, type Shape } from "../../parts/marks";
import { figure, indexText, type Trend } from "./asking";

/** Below it a sentence about spread is a hint only. */
export const FEW = 30;
/** Values from which on a correlation of neighbours is spoken of. */
const CORRELATED = 20;

export function Says({ trend }: { trend: Trend }) {
  const notes = notesOf(trend);
  return (
    <section class="trend-says" aria-label={t("trends-says")}>
      <ul>
        <Line shape={controlShape(trend)}>{controlSays(trend)}</Line>
        <Line shape={verdictShape(trend)}>{verdictSays(trend)}</Line>
        <Line shape={capable(trend).shape}>{capabilitySays(trend)}</Line>
      </ul>
      {notes.length > 0 && <p class="small soft">{notes.join(" ")}</p>}
    </section>
  );
}

function Line({ shape, children }: { shape: Shape; children: string }) {
  return (
    <li>
      <span aria-hidden="true">
        <Mark shape={shape} />
      </span>
      <span>{children}</span>
    </li>
  );
}

function firedOf(trend: Trend): number[] {
  return [...new Set(Object.values(trend.signals).flat())].sort((one, other) => one - other);
}

function controlShape(trend: Trend): Shape {
  if (!trend.control || !trend.ewma) return "open";
  return firedOf(trend).length > 0 || averageBeyond(trend) ? "close" : "in";
}

/** The newest average, where it has left its limits. */
function averageBeyond({ ewma }: Trend): number | null {
  const [level, lower, upper] = [ewma?.values.at(-1), ewma?.lower.at(-1), ewma?.upper.at(-1)];
  if (level === undefined || lower === undefined || upper === undefined) return null;
  return level < lower || level > upper ? level : null;
}

function controlSays(trend: Trend): string {
  const count = trend.points.value.length;
  if (trend.why) return t("trends-no-control", { why: word("trend-why", trend.why) });
  if (Object.keys(trend.signals).length === 0) return t("trends-no-rules");
  const fired = firedOf(trend);
  const last = fired.at(-1);
  if (last === undefined) {
    if (averageBeyond(trend) !== null) return t("trends-average-left");
    return t(count < FEW ? "trends-in-control-few" : "trends-in-control", { count });
  }
  const rules = Object.entries(trend.signals).filter(([, places]) => places.includes(last));
  return t("trends-out-of-control", {
    count: fired.length,
    mark: trend.points.mark[last] ?? "",
    ago: count - 1 - last,
    rule: t(`trends-rule-${rules[0]?.[0] ?? ""}`),
  });
}

function verdictShape({ verdicts, points }: Trend): Shape {
  if (verdicts["out of tolerance"]) return "out";
  if (verdicts["too close to call"]) return "close";
  return verdicts["in tolerance"] === points.value.length ? "in" : "open";
}

function verdictSays(trend: Trend): string {
  const { verdicts, points } = trend;
  if (verdicts.recorded === points.value.length) return t("trends-only-recorded");
  return t("trends-verdicts", {
    out: verdicts["out of tolerance"] ?? 0,
    close: verdicts["too close to call"] ?? 0,
    unjudged: verdicts.unjudged ?? 0,
    count: points.value.length,
  });
}

/** Whether the tolerance can be held, by the ends of the indices' intervals: 1 is where six sigma just fit. */
export function capable({ capability }: Pick<Trend, "capability">): { word: string; shape: Shape } {
  const { cp, cpk } = capability;
  if (!cpk) return { word: "", shape: "open" };
  if (cpk.interval.low >= 1) return { word: "holds", shape: "in" };
  if (cp && cp.interval.high < 1) return { word: "cannot hold", shape: "out" };
  if (cpk.interval.high < 1) return { word: cp && cp.interval.low >= 1 ? "off centre" : "does not hold", shape: "out" };
  return { word: "cannot say", shape: "close" };
}

function capabilitySays(trend: Trend): string {
  const { cp, cpk, why } = trend.capability;
  if (!cpk) return t("trends-no-capability", { why: word("trend-why", why) });
  const ends = (one: typeof cpk) => ({
    value: indexText(one.value),
    low: indexText(one.interval.low),
    high: indexText(one.interval.high),
  });
  const { value, low, high } = ends(cpk);
  const means = word("trend-capable", capable(trend).word);
  if (!cp) return t("trends-capability-one", { value, low, high, means });
  const whole = ends(cp);
  return t("trends-capability", { cp: whole.value, cpLow: whole.low, cpHigh: whole.high, value, low, high, means });
}

/** What has to be known to read the rest rightly. */
function notesOf(trend: Trend): string[] {
  const { summary, control, correlation, capability } = trend;
  const count = trend.points.value.length;
  const on = trend.unit === "half tolerance" ? t("trends-unit-half") : trend.uom;
  const related = correlation !== null && count >= CORRELATED && correlation > 2 / Math.sqrt(count);
  const beyond = averageBeyond(trend);
  return [
    beyond !== null && t("trends-average-beyond", { level: figure(beyond), uom: on }),
    summary?.sd != null && t("trends-figures", { mean: figure(summary.mean), sd: figure(summary.sd, 3), uom: on }),
    count > 1 && count < FEW && t("trends-small", { count }),
    trend.scale === "position" && t(trend.unit === "half tolerance" ? "trends-placed" : "trends-placed-one"),
    control &&
      t(control.baseline < count ? "trends-baseline" : "trends-baseline-all", { count: control.baseline, all: count }),
    capability.cpk && firedOf(trend).length > 0 && t("trends-capability-was"),
    related && t("trends-related", { value: indexText(correlation) }),
    trend.older && t("trends-older", { most: trend.most, count: trend.count }),
    trend.names_left_out && t("trends-names-left-out"),
  ].filter((one): one is string => Boolean(one));
}
