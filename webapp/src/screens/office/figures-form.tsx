/** The figures of a job as a form: each with its uom, and beside it what was read from what is typed. */
import { parse } from "../../core/numbers";
import { t } from "../../language";
import { beside } from "../../parts/notation";
import type { Asked } from "./asking";

interface FiguresProps {
  asked: Readonly<Record<string, Asked>>;
  typed: Readonly<Record<string, string>>;
  /** What stands in the job now, where it is changed. */
  before?: Readonly<Record<string, string>>;
  onType: (typed: Record<string, string>) => void;
}

export function FiguresForm({ asked, typed, before, onType }: FiguresProps) {
  return (
    <div class="figures-form">
      {Object.entries(asked).map(([name, figure]) => {
        const text = typed[name] ?? "";
        const changed = before !== undefined && text.trim() !== (before[name] ?? "");
        return (
          <label key={name} class={changed ? "figure changed" : "figure"}>
            <span>
              <b>{name}</b> <span class="small soft">{figure.what}</span>
            </span>
            <span class="figure-typed">
              <input
                value={text}
                autocomplete="off"
                aria-label={t("jobs-figure-of", { name, what: figure.what, uom: figure.uom })}
                aria-describedby={`hint-${name}`}
                onInput={(event) => onType({ ...typed, [name]: event.currentTarget.value })}
              />
              <span>{figure.uom}</span>
            </span>
            <span class="small soft" id={`hint-${name}`} aria-live="polite">
              {hint(text, figure.uom)}
              {changed && before[name] && ` ${t("jobs-was", { value: before[name] })}`}
            </span>
          </label>
        );
      })}
    </div>
  );
}

/** The fraction beside a decimal and the decimal beside a fraction; what is wrong where it is no number. */
export function hint(text: string, uom: string): string {
  if (!text.trim()) return "";
  try {
    const other = beside(parse(text).value, uom, text);
    return other ? `= ${other} ${uom}` : "";
  } catch (error) {
    return (error as Error).message;
  }
}

/** Drawing sheets and their revisions, one a line: `1 B`. */
export function drawingsOf(text: string): Record<string, string> {
  const lines = text.split("\n").map((line) => /^(.+?)[\s:,]+(\S+)$/.exec(line.trim()));
  return Object.fromEntries(lines.flatMap((found) => (found ? [[found[1] ?? "", found[2] ?? ""]] : [])));
}

export function drawingsText(drawings: Readonly<Record<string, string>>): string {
  return Object.entries(drawings)
    .map(([sheet, revision]) => `${sheet} ${revision}`)
    .join("\n");
}
