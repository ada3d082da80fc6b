/** The flags, worst first: a grid that is gone through by arrows, each line one flag. */
import { useLayoutEffect, useRef } from "preact/hooks";
import type { Decimal as Value } from "../../core/numbers";
import { Decimal } from "../../core/numbers";
import { t, word } from "../../language";
import { Mark } from "../../parts/marks";
import { reasonText } from "../../parts/reasons";
import type { Flag } from "./asking";
import { begun } from "./drafts";
import { limitsOf, placeText, shapeOf, timeOn, valueText } from "./words";

interface FlagsProps {
  /** The day that is shown: of what was recorded on it, the time is enough. */
  day: string;
  flags: readonly Flag[];
  current: string;
  marked: ReadonlySet<string>;
  /** Whether several may be marked to get one word. */
  markable: boolean;
  /** Ids of flags that came while the list was held still. */
  fresh: ReadonlySet<string>;
  onChoose: (id: string) => void;
  onMark: (id: string) => void;
  /** The pointer moves over the list: then nothing moves under it. */
  onPointed: () => void;
}

export function Flags({ day, flags, current, marked, markable, fresh, onChoose, onMark, onPointed }: FlagsProps) {
  const grid = useRef<HTMLTableElement>(null);
  useStill(grid, flags, current);
  return (
    <table
      class="flags"
      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a grid is a table one goes through by arrows
      role="grid"
      aria-label={t("review-flags")}
      aria-multiselectable="true"
      ref={grid}
      onPointerMove={onPointed}
    >
      <HeadLine />
      <tbody>
        {flags.map((flag) => (
          <FlagLine
            key={flag.id}
            day={day}
            flag={flag}
            current={flag.id === current}
            marked={marked.has(flag.id)}
            markable={markable}
            selected={marked.size > 0 ? marked.has(flag.id) : flag.id === current}
            fresh={fresh.has(flag.id)}
            onChoose={() => onChoose(flag.id)}
            onMark={() => onMark(flag.id)}
          />
        ))}
      </tbody>
    </table>
  );
}

/** Keep the current line where it is on the screen when lines come or go above it. */
function useStill(grid: { current: HTMLElement | null }, flags: readonly Flag[], current: string): void {
  /** Where the line stood last, from the top of the page. */
  const last = useRef({ id: "", top: 0 });
  useLayoutEffect(() => {
    const line = lineOf(grid.current, current)?.getBoundingClientRect();
    if (!line) return;
    const [was, top] = [last.current, line.top + scrollY];
    last.current = { id: current, top };
    const seen = was.top > scrollY && was.top < scrollY + innerHeight;
    if (was.id === current && seen && Math.abs(top - was.top) > 1) scrollBy(0, top - was.top);
  }, [flags, current]);
}

export function lineOf(within: ParentNode | null, id: string): HTMLElement | null {
  return within?.querySelector<HTMLElement>(`[data-flag="${CSS.escape(id)}"]`) ?? null;
}

function HeadLine() {
  const names = ["piece", "item", "value", "kind", "who"];
  return (
    <thead>
      <tr>
        <th scope="col" class="cell-mark">
          <span class="unseen">{t("review-marked")}</span>
        </th>
        {names.map((name) => (
          <th key={name} scope="col" class={`cell-${name}`}>
            {t(`review-column-${name}`)}
          </th>
        ))}
      </tr>
    </thead>
  );
}

interface FlagLineProps {
  day: string;
  flag: Flag;
  current: boolean;
  marked: boolean;
  markable: boolean;
  selected: boolean;
  fresh: boolean;
  onChoose: () => void;
  onMark: () => void;
}

function FlagLine({ day, flag, current, marked, markable, selected, fresh, onChoose, onMark }: FlagLineProps) {
  return (
    <tr
      tabIndex={current ? 0 : -1}
      aria-selected={selected}
      aria-current={current ? "true" : undefined}
      data-flag={flag.id}
      data-kind={flag.kind}
      data-marked={marked || undefined}
      onClick={(event) => !(event.target as Element).closest("label") && onChoose()}
    >
      <td class="cell-mark">
        {markable && (
          <label>
            <input
              type="checkbox"
              tabIndex={-1}
              checked={marked}
              aria-label={t("review-mark", { place: placeText(flag) })}
              onChange={onMark}
            />
          </label>
        )}
      </td>
      <td class="cell-piece">
        <b>{flag.piece.mark}</b> <span class="station-name">{flag.station}</span>
        <small>{t("frame-job", { job: flag.job })}</small>
      </td>
      <td class="cell-item">
        {flag.item.name || flag.step.name}
        <small>{flag.item.name ? `${flag.step.number} ${flag.step.name}` : flag.step.number}</small>
      </td>
      <td class="cell-value">
        <span>{valueText(flag)}</span>
        {flag.value && flag.limits && <SmallBar limits={limitsOf(flag)} value={new Decimal(flag.value)} />}
      </td>
      <td class="cell-kind">
        <span aria-hidden="true">
          <Mark shape={shapeOf(flag.kind)} />
        </span>
        <span>
          {word("kind", flag.kind)}
          {fresh && <b class="flag-new">{t("review-new")}</b>}
          {begun.value.has(flag.id) && <b class="flag-new">{t("review-begun")}</b>}
          {flag.reason && <small>{reasonText(flag.reason)}</small>}
        </span>
      </td>
      <td class="cell-who">
        {flag.by}
        <small class="when">{timeOn(day, flag.at)}</small>
      </td>
    </tr>
  );
}

const WIDTH = 120;

/** The band between the limits and the value's stroke, without figures: they stand beside it. */
function SmallBar({ limits, value }: { limits: { lower: Value | null; upper: Value | null }; value: Value }) {
  const [lower, upper] = [limits.lower?.toNumber(), limits.upper?.toNumber()];
  if (lower === undefined && upper === undefined) return null;
  const at = value.toNumber();
  const away = Math.abs(at - (upper ?? lower ?? at));
  const room = Math.max(((upper ?? at) - (lower ?? at)) / 2 || away, away / 3, 1e-9);
  const [from, to] = [(lower ?? (upper ?? at) - 2 * room) - room, (upper ?? (lower ?? at) + 2 * room) + room];
  const x = (place: number) => 3 + Math.min(Math.max((place - from) / (to - from), 0), 1) * (WIDTH - 6);
  const [left, right] = [x(lower ?? from), x(upper ?? to)];
  const inside = (lower === undefined || at >= lower) && (upper === undefined || at <= upper);
  return (
    <svg viewBox={`0 0 ${WIDTH} 20`} aria-hidden="true">
      <path d={`M0 10H${WIDTH}`} stroke="var(--ink-soft)" stroke-width="1.5" />
      <rect x={left} y="5" width={Math.max(right - left, 2)} height="10" fill="var(--in-ground)" stroke="var(--in)" />
      <path d={`M${x(at)} 1V19`} stroke={inside ? "var(--in)" : "var(--out)"} stroke-width="4" />
    </svg>
  );
}
