/** Which tags are printed on what: labels as a PDF, steel tags as SVG, and what hangs beside tags. */
import { useState } from "preact/hooks";
import { t } from "../../language";
import { Notice } from "../../parts/frame";
import { callSignedIn } from "../../sync/loop";
import type { Schemas } from "./asking";
import { pathOf, type TagRow, type Tags } from "./tags";
import { SheetPicture } from "./tags-sheet";

type Sheet = Schemas["Sheet"];
type Which = "new" | "all" | "stage" | "ticked";

interface Choice {
  rows: readonly TagRow[];
  /** What the server is asked for. */
  pieces: string;
}

export function Print({ tags, ticked }: { tags: Tags; ticked: ReadonlySet<string> }) {
  const [which, setWhich] = useState<Which>("new");
  const [stage, setStage] = useState(tags.stages[0]?.number ?? "");
  const choices = choicesOf(tags.tags, stage, ticked);
  const { rows, pieces } = choices[which];
  const radio = (value: Which, label: string) => (
    <label class="check">
      <input type="radio" name="pieces" checked={which === value} onChange={() => setWhich(value)} />
      {label}
    </label>
  );
  return (
    <div class="tags-print">
      <fieldset class="choices">
        <legend>{t("tags-pieces")}</legend>
        {radio("new", t("tags-new", { count: choices.new.rows.length }))}
        <p class="small soft tags-hint">{t("tags-new-means")}</p>
        {radio("all", t("tags-all", { count: choices.all.rows.length }))}
        {radio("stage", t("tags-stage", { count: choices.stage.rows.length }))}
        <select
          class="tags-hint"
          aria-label={t("tags-which-stage")}
          value={stage}
          onChange={(event) => {
            setStage(event.currentTarget.value);
            setWhich("stage");
          }}
        >
          {tags.stages.map((one) => (
            <option key={one.number} value={one.number}>
              {one.number} {one.name}
            </option>
          ))}
        </select>
        {radio("ticked", t("tags-ticked", { count: choices.ticked.rows.length }))}
      </fieldset>
      <Labels tags={tags} count={rows.length} pieces={pieces} />
      <SteelTags tags={tags} count={rows.length} pieces={pieces} />
    </div>
  );
}

function choicesOf(tags: readonly TagRow[], stage: string, ticked: ReadonlySet<string>): Record<Which, Choice> {
  const all = tags.filter(({ code }) => code);
  const chosen = all.filter(({ code }) => ticked.has(code));
  return {
    all: { rows: all, pieces: "all" },
    new: { rows: all.filter(({ state, remade }) => !state && !remade), pieces: "new" },
    stage: { rows: all.filter(({ stages }) => stages.includes(stage)), pieces: `stage:${stage}` },
    ticked: { rows: chosen, pieces: chosen.map(({ code }) => code).join(",") },
  };
}

interface MakeProps {
  tags: Tags;
  count: number;
  pieces: string;
}

function sheetName(sheet: Sheet): string {
  const [width = 0, height = 0] = sheet.label;
  if (sheet.columns * sheet.rows > 1) {
    const paper = (sheet.page[1] ?? 0) > 290 ? "A4" : "Letter";
    return t("tags-sheet", { paper, columns: sheet.columns, rows: sheet.rows, width, height });
  }
  const inches = [width / 25.4, height / 25.4];
  if (inches.every((one) => Math.abs(one - Math.round(one)) < 0.001)) {
    return t("tags-single-inch", { width: Math.round(inches[0] ?? 0), height: Math.round(inches[1] ?? 0) });
  }
  return t("tags-single", { width, height });
}

/** Labels: the sheet, where on it they begin, and the file. */
function Labels({ tags, count, pieces }: MakeProps) {
  const [id, setId] = useState(tags.sheets[0]?.id ?? "");
  const [typed, setTyped] = useState("1");
  const [cuts, setCuts] = useState(false);
  const sheet = tags.sheets.find((one) => one.id === id);
  if (!sheet) return null;
  const most = sheet.columns * sheet.rows;
  const start = Math.round(Number(typed));
  const wrong = !(start >= 1 && start <= most);
  const pages = Math.ceil((count + start - 1) / most);
  const query = `sheet=${id}&start=${wrong ? 1 : start}&cuts=${cuts}`;
  return (
    <section class="tags-sheet">
      <h2>{t("tags-labels")}</h2>
      <label class="field">
        {t("tags-print-on")}
        <select
          value={id}
          onChange={(event) => {
            setId(event.currentTarget.value);
            setTyped("1");
          }}
        >
          {tags.sheets.map((one) => (
            <option key={one.id} value={one.id}>
              {sheetName(one)}
            </option>
          ))}
        </select>
      </label>
      {most > 1 && (
        <div class="tags-start">
          <SheetPicture sheet={sheet} start={wrong ? 1 : start} count={count} />
          <div class="choices">
            <label class="field">
              {t("tags-start", { most })}
              <input
                type="number"
                inputMode="numeric"
                min={1}
                max={most}
                value={typed}
                onInput={(event) => setTyped(event.currentTarget.value)}
              />
            </label>
            <label class="check">
              <input type="checkbox" checked={cuts} onChange={(event) => setCuts(event.currentTarget.checked)} />
              {t("tags-cuts")}
            </label>
          </div>
        </div>
      )}
      {wrong && <Notice kind="bad">{t("tags-start-wrong", { most })}</Notice>}
      <Make
        name={t("tags-make-pdf")}
        says={count > 0 ? t("tags-made-pdf", { count, pages }) : t("tags-none-chosen")}
        path={`${pathOf(tags.job)}/tags.pdf?${query}&pieces=${pieces}`}
        off={wrong || count === 0}
      />
      <p class="small soft">{t("tags-true-size")}</p>
      <div class="tags-beside">
        <Make plain name={t("tags-board")} path={`${pathOf(tags.job)}/board.png`} />
        <Make plain name={t("tags-stickers")} path={`/stickers.pdf?${query}`} off={wrong} />
      </div>
    </section>
  );
}

function SteelTags({ tags, count, pieces }: MakeProps) {
  const [plate, setPlate] = useState(tags.plates[0]?.id ?? "");
  return (
    <section class="tags-sheet">
      <h2>{t("tags-steel")}</h2>
      <p class="small soft">{t("tags-steel-means")}</p>
      <label class="field">
        {t("tags-plate")}
        <select value={plate} onChange={(event) => setPlate(event.currentTarget.value)}>
          {tags.plates.map(({ id, width, height, hole }) => (
            <option key={id} value={id}>
              {t("tags-plate-size", { width, height, hole })}
            </option>
          ))}
        </select>
      </label>
      <Make
        name={t("tags-make-svg")}
        says={count > 0 ? t("tags-made-svg", { count }) : t("tags-none-chosen")}
        path={`${pathOf(tags.job)}/tags.zip?plate=${plate}&pieces=${pieces}`}
        off={count === 0}
      />
    </section>
  );
}

interface FileProps {
  name: string;
  /** What the file will hold. */
  says?: string;
  path: string;
  off?: boolean;
  plain?: boolean;
}

/** A file the server makes. The session is seen to first, since a browser that saves a file cannot sign in. */
function Make({ name, says, path, off = false, plain = false }: FileProps) {
  const [trouble, setTrouble] = useState("");
  const [busy, setBusy] = useState(false);
  const make = async () => {
    setBusy(true);
    setTrouble("");
    await callSignedIn("/jobs").then(
      () => follow(`/api/v1${path}`),
      (error: Error) => setTrouble(t("office-offline", { says: error.message })),
    );
    setBusy(false);
  };
  return (
    <>
      <button type="button" class={plain ? "button" : "button main"} disabled={off || busy} onClick={() => void make()}>
        {name} {!plain && <span>›</span>}
      </button>
      {says && <p role="status">{says}</p>}
      {trouble && <Notice kind="bad">{trouble}</Notice>}
    </>
  );
}

function follow(address: string): void {
  const link = document.createElement("a");
  link.href = address;
  link.download = "";
  link.click();
}
