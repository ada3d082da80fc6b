/** What an item's values say, in plain sentences. */
import { t, word } from "../../language";
import { Mark, type Shape } from "../../parts/marks";
import { reasonText } from "../../parts/reasons";
import { linkTo } from "../../state";
import { changes } from "../../store/jobs";
import { lookAt } from "../review/looked";
import { figure, indexText, type Trend } from "./asking";
import { firedOf, type NewestSignal, newestSignal, partsOf, placeOf } from "./signals";
import { type Flag, useWarned } from "./warned";
import { Watching } from "./watching";

/** Below it a sentence about spread is a hint only. */
export const FEW = 30;
/** Values from which on a correlation of neighbours is spoken of. */
const CORRELATED = 20;
const MOST_FLAGS = 3;
/** More pieces than these are not named. */
const MOST_PIECES = 4;

export function Says({ trend }: { trend: Trend }) {
  const warned = useWarned(trend, [changes.value, trend.count]);
  const notes = notesOf(trend);
  const signal = newestSignal(trend);
  return (
    <section class="trend-says" aria-label={t("trends-says")}>
      <ul>
        {warned.slice(0, MOST_FLAGS).map((flag) => (
          <FlagLine key={flag.id} flag={flag} />
        ))}
        <Line shape={controlShape(trend)} whole={signal ? [placeOf(trend.points, signal.at), ...named(signal)] : []}>
          {controlSays(trend, signal)}
        </Line>
        <Line shape={verdictShape(trend)}>{verdictSays(trend)}</Line>
        <Line shape={capable(trend).shape}>{capabilitySays(trend)}</Line>
      </ul>
      <Watching key={trend.watched.join()} trend={trend} />
      {notes.length > 0 && <p class="small soft">{notes.join(" ")}</p>}
    </section>
  );
}

/** whole: words in the sentence that stay on one line. */
function Line({ shape, whole = [], children }: { shape: Shape; whole?: readonly string[]; children: string }) {
  return (
    <li>
      <span aria-hidden="true">
        <Mark shape={shape} />
      </span>
      <span>
        <Unbroken whole={whole}>{children}</Unbroken>
      </span>
    </li>
  );
}

/** A sentence in which places and marks, which have hyphens, stay on one line. */
function Unbroken({ whole, children }: { whole: readonly string[]; children: string }) {
  return (
    <>
      {partsOf(children, whole).map((part, at) =>
        whole.includes(part) ? (
          <span key={at} class="nowrap">
            {part}
          </span>
        ) : (
          part
        ),
      )}
    </>
  );
}

/** A flag that a rule raised about the item: what it says, how it stands, and the way to it. */
function FlagLine({ flag }: { flag: Flag }) {
  const place = `${flag.piece.mark} ${flag.station}`.trim();
  const said = t("trends-flag", {
    kind: word("kind", flag.kind),
    state: flag.state,
    place,
    job: flag.job,
    reason: reasonText(flag.reason),
  });
  return (
    <li class="trend-flag">
      <span aria-hidden="true">
        <Mark shape={flag.state === "open" ? "close" : "open"} />
      </span>
      <span>
        <Unbroken whole={[place]}>{said}</Unbroken>{" "}
        <a class="unprinted" href={linkTo("review", "day", "now", "0", flag.id)} onClick={() => lookAt(flag)}>
          {t("trends-flag-go")} ›
        </a>
      </span>
    </li>
  );
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

function controlSays(trend: Trend, signal: NewestSignal | null): string {
  const count = trend.points.value.length;
  if (trend.why) return t("trends-no-control", { why: word("trend-why", trend.why) });
  if (Object.keys(trend.signals).length === 0) return t("trends-no-rules");
  if (signal) return signalSays(trend, signal);
  if (averageBeyond(trend) !== null) return t("trends-average-left");
  return t(count < FEW ? "trends-in-control-few" : "trends-in-control", { count });
}

/** What the newest signal is, up to where it counts, and where the others are. */
function signalSays({ points }: Trend, signal: NewestSignal): string {
  const { rule, at, ago, count } = signal;
  return t("trends-out-of-control", {
    rule: t(`trends-run-${rule}`),
    ends: rule === "beyond-3" ? "at" : "to",
    place: placeOf(points, at),
    ago,
    count,
    pieces: named(signal).join(", ") || "many",
  });
}

/** How many signals are at each piece; none of them where there are too many to be named. */
function named({ pieces }: NewestSignal): string[] {
  return pieces.length <= MOST_PIECES ? pieces.map(([mark, times]) => `${mark} (${times})`) : [];
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
