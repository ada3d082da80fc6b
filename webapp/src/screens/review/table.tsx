/** A page of lines beside the day: its title, its way back, and a table that is printed as it stands. */
import type { ComponentChildren } from "preact";
import { t } from "../../language";
import { Frame } from "../../parts/frame";
import { linkTo } from "../../state";
import type { Fault } from "./asking";
import { timeHeard } from "./words";

interface PageProps {
  title: string;
  /** What the page tells in one sentence. */
  says?: string;
  fault: Fault | null;
  /** Whether an answer is here. */
  here: boolean;
  back?: string;
  children: ComponentChildren;
}

export function ReviewPage({ title, says, fault, here, back, children }: PageProps) {
  if (fault?.refused) return <NotYours />;
  return (
    <Frame wide title={t("review")} back={back ?? linkTo("review")}>
      {fault && <Away fault={fault} here={here} />}
      <div class="body review-page">
        <div>
          <h1 class="begins">{title}</h1>
          {says && <p class="soft">{says}</p>}
        </div>
        {here ? children : !fault && <p class="soft">{t("review-loading")}</p>}
      </div>
    </Frame>
  );
}

/** That what stands on the page is not what the server has now: in sight, however far the page is gone through. */
export function Away({ fault, here }: { fault: Fault; here: boolean }) {
  const { says, status } = fault;
  const time = timeHeard(fault.heard);
  return (
    <div class="notice bad as-heard" role="alert">
      {!here && t("review-offline", { says })}
      {here && (status === 0 ? t("review-stale", { time }) : t("review-stale-says", { time, says }))}
    </div>
  );
}

/** What somebody reads who may not see the review. */
export function NotYours() {
  return (
    <Frame wide>
      <div class="body review-page">
        <h1>{t("review")}</h1>
        <p>{t("review-not-yours")}</p>
        <p>
          <a class="way" href={linkTo("")}>
            {t("frame-my-work")}
          </a>
        </p>
      </div>
    </Frame>
  );
}

export interface Row {
  readonly key: string;
  /** One cell a column; the first names the line. */
  readonly cells: readonly ComponentChildren[];
  readonly late?: boolean;
}

interface TableProps {
  name: string;
  columns: readonly string[];
  rows: readonly Row[];
  /** Places of columns that hold numbers. */
  numbers?: readonly number[];
  /** Whether columns are as wide in every table of the page. */
  fixed?: boolean;
}

/** On a phone each line becomes a block, and each cell says its column. */
export function Table({ name, columns, rows, numbers = [], fixed = false }: TableProps) {
  return (
    <table class={fixed ? "review-lines fixed" : "review-lines"} aria-label={name}>
      <thead>
        <tr>
          {columns.map((column, place) => (
            <th key={column} scope="col" class={numbers.includes(place) ? "number" : ""}>
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ key, cells, late }) => (
          <tr key={key} class={late ? "late-line" : ""}>
            {cells.map((cell, place) =>
              place === 0 ? (
                <th key={columns[place]} scope="row">
                  {cell}
                </th>
              ) : (
                <td key={columns[place]} data-column={columns[place]} class={numbers.includes(place) ? "number" : ""}>
                  {cell}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

export interface Choice {
  readonly value: string;
  readonly name: string;
}

/** A few ways to look at the same, one of them pressed. */
export function Choices({
  name,
  choices,
  chosen,
  onChoose,
}: {
  name: string;
  choices: readonly Choice[];
  chosen: string;
  onChoose: (value: string) => void;
}) {
  return (
    <fieldset class="states" aria-label={name}>
      {choices.map((one) => (
        <button key={one.value} type="button" aria-pressed={one.value === chosen} onClick={() => onChoose(one.value)}>
          {one.name}
        </button>
      ))}
    </fieldset>
  );
}
