/** The pieces of a list: a file, or rows typed by the same columns. */
import { useId } from "preact/hooks";
import { t } from "../../language";
import { Notice } from "../../parts/frame";
import type { Asked } from "./asking";
import { type ChosenFile, FileField } from "./file-field";

/** A row by the names of a list's columns, as the server reads them. */
export type TypedRow = Record<string, string>;

const COLUMNS = ["mark", "kind", "name", "part of", "joins", "sheet", "place"];

interface PiecesProps {
  plan: string;
  kinds: readonly string[];
  figures: Readonly<Record<string, Asked>>;
  file: ChosenFile | null;
  rows: readonly TypedRow[];
  onFile: (file: ChosenFile | null) => void;
  onRows: (rows: TypedRow[]) => void;
}

export function PiecesForm({ plan, kinds, figures, file, rows, onFile, onRows }: PiecesProps) {
  return (
    <section class="choices desk">
      <h2>{t("piece-list")}</h2>
      <div class="desk-pair">
        <FileField label={t("piece-list-file")} accept=".xlsx,.csv" onFile={onFile} />
        <a class="button" href={`/api/v1/plans/${plan}/pieces.xlsx`} download>
          {t("piece-list-template")}
        </a>
      </div>
      {file ? (
        <Notice>
          <p>{t("piece-list-from", { name: file.name })}</p>
          <button type="button" class="button" onClick={() => onFile(null)}>
            {t("piece-list-type-instead")}
          </button>
        </Notice>
      ) : (
        <TypedRows kinds={kinds} figures={figures} rows={rows} onRows={onRows} />
      )}
    </section>
  );
}

/** A new row is there as soon as something is typed in the last one. */
function TypedRows({ kinds, figures, rows, onRows }: Pick<PiecesProps, "kinds" | "figures" | "rows" | "onRows">) {
  const known = useId();
  const columns = [...COLUMNS, ...Object.keys(figures)];
  const title = (column: string) =>
    COLUMNS.includes(column) ? t(`piece-list-${column.replaceAll(" ", "-")}`) : `${column}, ${figures[column]?.uom}`;
  const type = (place: number, column: string, text: string) => {
    const typed = rows.map((row, own) => (own === place ? { ...row, [column]: text } : row));
    const last = typed.at(-1) ?? {};
    onRows(Object.values(last).some((one) => one.trim()) ? [...typed, {}] : typed);
  };
  return (
    <div class="typed-rows">
      <datalist id={known}>
        {kinds.map((kind) => (
          <option key={kind} value={kind} />
        ))}
      </datalist>
      <table>
        <caption class="small soft">{t("piece-list-typed")}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column} scope="col">
                {title(column)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, place) => (
            <tr key={place}>
              {columns.map((column) => (
                <td key={column}>
                  <input
                    value={row[column] ?? ""}
                    list={column === "kind" ? known : undefined}
                    autocomplete="off"
                    aria-label={t("piece-list-cell", { column: title(column), row: place + 1 })}
                    onInput={(event) => type(place, column, event.currentTarget.value)}
                  />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
