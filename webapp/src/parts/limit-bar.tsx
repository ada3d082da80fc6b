/** Where a value falls: the band between the limits, and the value's mark above it. */
import { type Limits, shown } from "../core/limits";
import type { Decimal } from "../core/numbers";
import { t } from "../language";
import { limitText, shownValue } from "./notation";

const WIDTH = 320;
const EDGE = 12;

export function LimitBar({ limits, value, uom }: { limits: Limits; value: Decimal | null; uom: string }) {
  const [lower, upper] = [limits.lower?.toNumber(), limits.upper?.toNumber()];
  if (lower === undefined && upper === undefined) return null;
  const base = lower ?? Math.min(0, upper ?? 0);
  const end = upper ?? base + Math.max(Math.abs(base) * 0.2, 1e-6);
  const room = Math.max(end - base, 1e-9) * 0.5;
  const [from, to] = [lower === undefined ? base : base - room, end + room];
  const x = (at: number) => EDGE + Math.min(Math.max((at - from) / (to - from), 0), 1) * (WIDTH - 2 * EDGE);
  const inside =
    value === null ||
    ((lower === undefined || value.gte(limits.lower ?? value)) &&
      (upper === undefined || value.lte(limits.upper ?? value)));
  const at = value === null ? null : x(value.toNumber());
  const left = x(lower ?? from);
  const right = upper === undefined ? WIDTH - EDGE : x(upper);
  return (
    <svg
      class="limit-bar"
      viewBox={`0 0 ${WIDTH} 56`}
      role="img"
      aria-label={t("limit-bar", { limits: limitText(limits, uom) })}
    >
      <path d={`M${EDGE} 26H${WIDTH - EDGE}`} stroke="var(--ink)" stroke-width="2" />
      <rect
        x={left}
        y="17"
        width={Math.max(right - left, 2)}
        height="18"
        fill="var(--in-ground)"
        stroke="var(--in)"
        stroke-width="2"
      />
      {at !== null && <path d={`M${at} 16l-9 -14h18z`} fill={inside ? "var(--in)" : "var(--out)"} />}
      {limits.lower && (
        <text x={left} y="53" text-anchor="middle">
          {shownValue(shown(limits.lower, false), uom)}
        </text>
      )}
      {limits.upper && (
        <text x={right} y="53" text-anchor="middle">
          {shownValue(shown(limits.upper, true), uom)}
        </text>
      )}
    </svg>
  );
}
