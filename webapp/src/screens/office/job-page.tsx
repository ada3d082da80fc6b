/** One job's office page: what it is judged by, its pieces, and what can be done with it. */
import { useState } from "preact/hooks";
import { t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { useJob } from "../../parts/use";
import { linkTo, me } from "../../state";
import { callSignedIn, wake } from "../../sync/loop";
import { type Schemas, useAsked } from "./asking";
import { type ChosenFile, FileField } from "./file-field";
import { PieceTable } from "./found";
import { day } from "./jobs";

type Page = Schemas["JobPage"];
type Piece = Schemas["Piece"];

const pathOf = (id: string) => `/jobs/${encodeURIComponent(id)}`;

export function JobPage({ id }: { id: string }) {
  const [tick, setTick] = useState(0);
  const { found: page, says } = useAsked<Page>(pathOf(id), [tick]);
  const { found: pieces } = useAsked<Piece[]>(`${pathOf(id)}/pieces`, [tick]);
  const planner = me.value?.roles.includes("planner") ?? false;
  const onDone = () => {
    wake();
    setTick((count) => count + 1);
  };
  return (
    <Frame wide title={t("jobs")} back={linkTo("jobs")}>
      <div class="body">
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {page && (
          <>
            <div>
              <h1>{t("frame-job", { job: page.id })}</h1>
              <p class="soft">
                {page.title}
                {!page.open && <b> · {t("job-page-closed")}</b>}
              </p>
            </div>
            <Actions page={page} planner={planner} onDone={onDone} />
            <Basis page={page} />
            {pieces && <Pieces page={page} pieces={pieces} planner={planner} onDone={onDone} />}
            <Changes page={page} />
          </>
        )}
      </div>
    </Frame>
  );
}

interface PartProps {
  page: Page;
  planner: boolean;
  onDone: () => void;
}

function Actions({ page, planner, onDone }: PartProps) {
  const [says, setSays] = useState("");
  const [asking, setAsking] = useState(false);
  const turn = async (to: "close" | "open") => {
    setAsking(false);
    await callSignedIn(`${pathOf(page.id)}/${to}`, {}).then(onDone, (error: Error) => setSays(error.message));
  };
  return (
    <>
      <nav class="office-actions" aria-label={t("jobs-ways")}>
        <a class="button" href={linkTo("tags", page.id)}>
          {t("job-page-tags")}
        </a>
        <a class="button" href={linkTo("job-change", page.id)}>
          {t("job-change")}
        </a>
        <a class="button" href={linkTo("drawing", page.id)}>
          {t("drawing-open")}
        </a>
        <a class="button" href={linkTo("job", page.id)}>
          {t("job-page-floor")}
        </a>
        {planner && !page.open && (
          <button type="button" class="button" onClick={() => void turn("open")}>
            {t("job-page-reopen")}
          </button>
        )}
        {planner && page.open && (
          <button type="button" class="button" aria-expanded={asking} onClick={() => setAsking(!asking)}>
            {t("job-page-close")}
          </button>
        )}
      </nav>
      {asking && (
        <Notice kind="care">
          <p>{t("job-page-close-means", { job: page.id })}</p>
          <button type="button" class="button" onClick={() => void turn("close")}>
            {t("job-page-close-now", { job: page.id })}
          </button>
        </Notice>
      )}
      {says && <Notice kind="bad">{says}</Notice>}
    </>
  );
}

function Basis({ page }: { page: Page }) {
  const drawings = Object.entries(page.drawings);
  return (
    <section>
      <h2>{t("job-page-judged-by")}</h2>
      <p>
        {page.plan && (
          <a href={linkTo("plan", page.plan.hash)}>
            {t("job-page-plan", { code: page.plan.code, revision: page.plan.revision })}
          </a>
        )}
        {drawings.length > 0 &&
          ` · ${t("job-page-drawings", { drawings: drawings.map(([sheet, one]) => `${sheet} ${one}`).join(", ") })}`}
      </p>
      <details class="covered">
        <summary>{t("job-page-figures", { count: page.figures.length })}</summary>
        <dl class="figure-list">
          {page.figures.map((figure) => (
            <div key={figure.name}>
              <dt>
                {figure.name} <span class="small soft">{figure.what}</span>
              </dt>
              <dd>
                {figure.typed || "–"} {figure.uom}
              </dd>
            </div>
          ))}
        </dl>
      </details>
    </section>
  );
}

const MOST = 300;

function Pieces({ page, pieces, planner, onDone }: PartProps & { pieces: readonly Piece[] }) {
  const [wanted, setWanted] = useState("");
  const [says, setSays] = useState("");
  const job = useJob(page.id);
  const byMark = new Map(pieces.map((piece) => [piece.mark, piece]));
  const bare = wanted.trim().toLowerCase();
  const fitting = pieces.filter(({ mark, kind, name }) => `${mark} ${kind} ${name}`.toLowerCase().includes(bare));
  return (
    <section class="choices desk">
      <h2>{t("job-page-pieces", { count: pieces.length })}</h2>
      <div class="desk-pair">
        <label class="field">
          {t("job-page-find")}
          <input type="search" value={wanted} onInput={(event) => setWanted(event.currentTarget.value)} />
        </label>
        <a class="button" href={`/api/v1${pathOf(page.id)}/pieces.xlsx`} download>
          {t("job-page-take-out")}
        </a>
      </div>
      {says && <Notice kind="care">{says}</Notice>}
      <PieceTable
        pieces={fitting.slice(0, MOST)}
        more={(mark) => {
          const piece = byMark.get(mark);
          const scrapped = piece && job?.progress.piece(piece.id).scrapped;
          const may = planner && !!scrapped;
          return piece && <PieceLinks page={page} piece={piece} mayRemake={may} onDone={onDone} onSay={setSays} />;
        }}
      />
      {fitting.length > MOST && <p class="small soft">{t("jobs-more", { count: fitting.length - MOST })}</p>}
      {planner && <AddList page={page} planner={planner} onDone={onDone} />}
    </section>
  );
}

interface LinksProps {
  page: Page;
  piece: Piece;
  mayRemake: boolean;
  onDone: () => void;
  onSay: (says: string) => void;
}

/** Where a piece's material came from; and, where it is scrapped, how it is made again. */
function PieceLinks({ page, piece, mayRemake, onDone, onSay }: LinksProps) {
  const remake = () =>
    callSignedIn<Schemas["Remade"]>(`${pathOf(page.id)}/pieces/${encodeURIComponent(piece.id)}/remade`, {}).then(
      ({ piece: made, moved, left }) => {
        onSay(
          [
            t("job-page-remade-as", { mark: made.mark }),
            moved.length > 0 && t("job-page-joints-moved", { marks: moved.join(", ") }),
            left.length > 0 && t("job-page-joints-left", { marks: left.join(", ") }),
          ]
            .filter(Boolean)
            .join(" "),
        );
        onDone();
      },
      (error: Error) => onSay(error.message),
    );
  return (
    <>
      <a href={linkTo("trace", page.id, piece.id)}>{t("job-page-material")}</a>
      {piece.remade && <div>{t("job-page-remade", { mark: piece.remade })}</div>}
      {mayRemake && !piece.remade && (
        <button type="button" class="link" onClick={() => void remake()}>
          {t("job-page-remake")}
        </button>
      )}
    </>
  );
}

function AddList({ page, onDone }: PartProps) {
  const [says, setSays] = useState("");
  const [added, setAdded] = useState(0);
  const add = async (file: ChosenFile) => {
    setSays("");
    const before = page.pieces;
    await callSignedIn<Piece[]>(`${pathOf(page.id)}/pieces`, { file, rows: [] }).then(
      (pieces) => {
        setAdded(pieces.length - before);
        onDone();
      },
      (error: Error) => setSays(error.message),
    );
  };
  return (
    <>
      <FileField label={t("job-page-add")} accept=".xlsx,.csv" onFile={(file) => void add(file)} />
      {says && <Notice kind="bad">{says}</Notice>}
      {added > 0 && <Notice>{t("job-page-added", { count: added })}</Notice>}
    </>
  );
}

function Changes({ page }: { page: Page }) {
  const changes = page.changes as { plan: string; figures: number; reason: string; at: number; by: string }[];
  return (
    <section>
      <h2>{t("job-page-changes")}</h2>
      <ol class="list">
        {changes.map((one) => (
          <li key={one.figures} class="row">
            <span class="grow">
              {t("job-page-change", { number: one.figures, plan: one.plan })} {one.reason}
              <br />
              <span class="small soft">
                {[day(new Date(one.at * 1000).toISOString()), one.by].filter(Boolean).join(" · ")}
              </span>
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}
