/** The drawings of a job at the desk: a sheet's picture put in, and the job's pieces pinned on it. */
import { useState } from "preact/hooks";
import { t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { linkTo, me } from "../../state";
import type { Drawing } from "../../store/drawings";
import { wake } from "../../sync/loop";
import { type Schemas, sent, useAsked } from "./asking";
import { type ChosenFile, FileField } from "./file-field";
import { Pinning } from "./pinning";
import { pathOf } from "./tags";
import "../../weld-map.css";

type Piece = Schemas["Piece"];

const MAY: readonly string[] = ["planner", "engineer"];

export function DrawingDesk({ id }: { id: string }) {
  const [tick, setTick] = useState(0);
  const [chosen, setChosen] = useState("");
  const { found: drawings, says } = useAsked<Drawing[]>(`${pathOf(id)}/drawings`, [tick]);
  const { found: pieces } = useAsked<Piece[]>(`${pathOf(id)}/pieces`, []);
  const may = me.value?.roles.some((role) => MAY.includes(role)) ?? false;
  const now = drawings?.find((one) => one.id === chosen) ?? drawings?.[0];
  const onDone = (drawing: Drawing) => {
    setChosen(drawing.id);
    setTick((count) => count + 1);
    wake();
  };
  return (
    <Frame wide title={t("frame-job", { job: id })} back={linkTo("jobs", id)}>
      <div class="body">
        <div>
          <h1>{t("map-title", { job: id })}</h1>
          {now && (
            <p class="soft">{t("drawing-about", { sheet: now.sheet, revision: now.revision, title: now.title })}</p>
          )}
        </div>
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {drawings && !may && <Notice>{t("drawing-who")}</Notice>}
        {drawings?.length === 0 && <p>{t("drawing-none")}</p>}
        {drawings && drawings.length > 1 && <Choice drawings={drawings} now={now} onChoose={setChosen} />}
        {now && pieces && (
          <Pinning key={`${now.id} ${now.sha256}`} job={id} drawing={now} pieces={pieces} may={may} onDone={onDone} />
        )}
        {drawings && may && <PutIn job={id} drawings={drawings} onDone={onDone} />}
      </div>
    </Frame>
  );
}

interface ChoiceProps {
  drawings: readonly Drawing[];
  now: Drawing | undefined;
  onChoose: (id: string) => void;
}

function Choice({ drawings, now, onChoose }: ChoiceProps) {
  return (
    <label class="field short">
      {t("map-sheets")}
      <select value={now?.id ?? ""} onChange={(event) => onChoose(event.currentTarget.value)}>
        {drawings.map((one) => (
          <option key={one.id} value={one.id}>
            {t("map-drawing", { sheet: one.sheet, title: one.title })}
          </option>
        ))}
      </select>
    </label>
  );
}

interface PutInProps {
  job: string;
  drawings: readonly Drawing[];
  onDone: (drawing: Drawing) => void;
}

const EMPTY = { sheet: "", revision: "", title: "", page: "1" };

/** A sheet put in, or its next revision: then its pins stay where they are. */
function PutIn({ job, drawings, onDone }: PutInProps) {
  const [typed, setTyped] = useState(EMPTY);
  const [file, setFile] = useState<ChosenFile | null>(null);
  const [part, setPart] = useState<number | null>(null);
  const [says, setSays] = useState("");
  const there = drawings.find((one) => one.sheet === typed.sheet.trim());
  const isPdf = file?.name.toLowerCase().endsWith(".pdf") ?? false;
  const put = async () => {
    setSays("");
    setPart(0);
    const { page, ...about } = typed;
    const value = { ...about, file, page: isPdf ? Number(page) || 1 : 1 };
    await sent<Drawing>(`${pathOf(job)}/drawings`, value, setPart).then(
      (drawing) => {
        setTyped(EMPTY);
        setFile(null);
        onDone(drawing);
      },
      (error: Error) => setSays(error.message),
    );
    setPart(null);
  };
  const field = (name: keyof typeof EMPTY, label: string) => (
    <label class="field">
      {label}
      <input
        autocomplete="off"
        inputMode={name === "page" ? "numeric" : "text"}
        value={typed[name]}
        onInput={(event) => setTyped({ ...typed, [name]: event.currentTarget.value })}
      />
    </label>
  );
  return (
    <section class="choices desk">
      <h2>{t("drawing-put-in")}</h2>
      <div class="drawing-about">
        {field("sheet", t("drawing-sheet"))}
        {field("revision", t("drawing-revision"))}
        {field("title", t("drawing-title"))}
      </div>
      <FileField label={t("drawing-file")} accept=".png,.jpg,.jpeg,.pdf" onFile={setFile} />
      {file && <p class="file-name">{t("drawing-chosen", { name: file.name })}</p>}
      {isPdf && <div class="drawing-about">{field("page", t("drawing-page"))}</div>}
      {there && <Notice kind="care">{t("drawing-replaces", { sheet: there.sheet, count: there.pins.length })}</Notice>}
      {says && <Notice kind="bad">{says}</Notice>}
      <div class="office-actions">
        <button
          type="button"
          class="button"
          disabled={!file || !typed.sheet.trim() || part !== null}
          onClick={() => void put()}
        >
          {t("drawing-put-in-now")}
        </button>
      </div>
      {part !== null && <progress value={part} aria-label={t("drawing-sending")} />}
    </section>
  );
}
