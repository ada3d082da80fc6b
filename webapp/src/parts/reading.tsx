/** What is typed, what it is as well, and the verdict on it. */
import type { Decimal } from "../core/numbers";
import type { Verdict } from "../core/verdict";
import { t, word } from "../language";
import { Mark, type Shape } from "./marks";
import { beside, marginRead, shownValue } from "./notation";
import { reasonText } from "./reasons";

interface ReadingRowProps {
  typed: string;
  uom: string;
  other: string;
  beside: string;
  onOther: (uom: string) => void;
}

/** What is typed, the largest thing on the screen, with its uom and what it is as well; and the way to another uom. */
export function ReadingRow({ typed, uom, other, beside, onOther }: ReadingRowProps) {
  return (
    <div class="reading-row">
      <div
        class={typed.length > 9 ? "reading longer" : typed.length > 5 ? "reading long" : "reading"}
        aria-live="polite"
      >
        <span class="figure">{typed || "–"}</span>
        <span class="uom">
          {uom}
          <small>{beside}</small>
        </span>
      </div>
      {other !== uom && (
        <button type="button" class="uom-key" onClick={() => onOther(other)}>
          {t("measure-instead", { uom: other })}
        </button>
      )}
    </div>
  );
}

/** What the figure typed is as well: its decimal or its nearest fraction, or the value in the item's own uom. */
export function asWell(figure: Decimal, value: Decimal, own: string, uom: string, typed: string): string {
  return uom === own ? beside(figure, uom, typed) : `${shownValue(value, own)} ${own}`;
}

const SHAPES: Readonly<Record<string, Shape>> = {
  "in tolerance": "in",
  recorded: "in",
  "out of tolerance": "out",
  open: "open",
};

/** The shape of a verdict's word. */
export function shapeOf(verdict: string): Shape {
  return SHAPES[verdict] ?? "close";
}

/** A verdict in words, with how far past the limit in the uom read, and why. */
export function verdictText({ word: said, margin, reason }: Verdict, own: string, uom: string): string {
  const past = margin && marginRead(margin, own, uom);
  const values = {
    verdict: word("verdict", said),
    uom,
    reason: reasonText(reason),
    ...(past?.isNegative() ? { margin: shownValue(past.abs(), uom) } : {}),
  };
  if (past?.isNegative()) return t(reason ? "measure-verdict-by-why" : "measure-verdict-by", values);
  return t(reason ? "measure-verdict-why" : "measure-verdict", values);
}

export function VerdictLine({ verdict, own, uom }: { verdict: Verdict; own: string; uom: string }) {
  const shape = shapeOf(verdict.word);
  return (
    <div class={`verdict ${shape}`} role="status">
      <Mark shape={shape} />
      <span class="begins">{verdictText(verdict, own, uom)}</span>
    </div>
  );
}
