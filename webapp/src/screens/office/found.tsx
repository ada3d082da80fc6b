/** What a check found: every fault with its place, what to look at, and the pieces as they were read. */
import { t } from "../../language";
import { Notice } from "../../parts/frame";
import type { Schemas } from "./asking";
import { Faults } from "./plans";

const MOST = 200;

interface FoundProps {
  answer: Schemas["CheckedJob"];
  name: string;
  /** Something was changed since. */
  stale: boolean;
}

export function Found({ answer: { faults, advice, pieces }, name, stale }: FoundProps) {
  return (
    <>
      {stale && <Notice kind="care">{t("found-stale")}</Notice>}
      <Faults name={name} faults={faults} />
      {faults.length === 0 && <Notice>{t("found-sound", { count: pieces.length })}</Notice>}
      {advice.length > 0 && (
        <Notice kind="care">
          <p>
            <b>{t("found-advice", { count: advice.length })}</b>
          </p>
          <ol class="steps">
            {advice.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ol>
        </Notice>
      )}
      {pieces.length > 0 && (
        <details class="covered">
          <summary>{t("found-pieces", { count: pieces.length })}</summary>
          <PieceTable pieces={pieces.slice(0, MOST)} />
          {pieces.length > MOST && <p class="small soft">{t("jobs-more", { count: pieces.length - MOST })}</p>}
        </details>
      )}
    </>
  );
}

interface PieceTableProps {
  pieces: readonly Schemas["ListedPiece"][];
  /** What stands last in a row, by mark. */
  more?: (mark: string) => preact.ComponentChildren;
}

export function PieceTable({ pieces, more }: PieceTableProps) {
  const names = [
    t("piece-list-mark"),
    t("piece-list-kind"),
    t("piece-list-name"),
    t("piece-list-part-of"),
    t("piece-list-joins"),
    t("piece-list-figures"),
    t("piece-list-sheet"),
    t("piece-list-place"),
  ]; // prettier-ignore
  return (
    <table class="lines" aria-label={t("piece-list")}>
      <thead>
        <tr>
          {names.map((name) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
          {more && (
            <th scope="col">
              <span class="hidden-input">{t("piece-list-more")}</span>
            </th>
          )}
        </tr>
      </thead>
      <tbody>
        {pieces.map((piece) => (
          <tr key={piece.mark}>
            <th scope="row">
              <span class="nowrap">{piece.mark}</span>
            </th>
            <td data-cell="">{piece.kind}</td>
            <td data-cell="">{piece.name}</td>
            <td data-cell={t("piece-list-part-of")}>{piece.part_of.join(", ")}</td>
            <td data-cell={t("piece-list-joins")}>{piece.joins.join(", ")}</td>
            <td data-cell={t("piece-list-figures")}>
              {Object.entries(piece.figures)
                .map(([name, typed]) => `${name} ${typed}`)
                .join(", ")}
            </td>
            <td data-cell={t("piece-list-sheet")}>{piece.sheet}</td>
            <td data-cell={t("piece-list-place")}>{piece.place}</td>
            {more && <td data-cell="">{more(piece.mark)}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
