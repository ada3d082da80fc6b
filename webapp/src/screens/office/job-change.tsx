/** Moving a job to another plan revision, figures or drawings: what it would undo is shown before it is done. */
import { useState } from "preact/hooks";
import { t, word } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { Mark } from "../../parts/marks";
import { partyName } from "../../parts/parties";
import { useLoaded } from "../../parts/use";
import { go, linkTo, me } from "../../state";
import { callSignedIn, wake } from "../../sync/loop";
import { type Asked, type Revision, type Schemas, useAsked } from "./asking";
import { drawingsOf, drawingsText, FiguresForm } from "./figures-form";
import { day } from "./jobs";

type Page = Schemas["JobPage"];
type Preview = Schemas["Preview"];

export function JobChange({ id }: { id: string }) {
  const { found: page, says } = useAsked<Page>(`/jobs/${encodeURIComponent(id)}`, []);
  const { found: plans } = useAsked<Revision[]>("/plans", []);
  return (
    <Frame wide title={t("frame-job", { job: id })} back={linkTo("jobs", id)}>
      <div class="body">
        <div>
          <h1>{t("job-change")}</h1>
          <p class="soft">{t("job-change-means", { job: id })}</p>
        </div>
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {page && plans && <Change page={page} plans={plans} />}
      </div>
    </Frame>
  );
}

function Change({ page, plans }: { page: Page; plans: readonly Revision[] }) {
  const now = Object.fromEntries(page.figures.map(({ name, typed }) => [name, typed]));
  const [plan, setPlan] = useState(page.plan?.hash ?? "");
  const [figures, setFigures] = useState<Record<string, string>>(now);
  const [drawings, setDrawings] = useState(drawingsText(page.drawings));
  const asked = useLoaded(
    () =>
      callSignedIn<{ source: { figures?: Record<string, Asked> } }>(`/plans/${plan}`).then(
        ({ source }) => source.figures ?? {},
        () => ({}),
      ),
    [plan],
  );
  const known = asked ?? {};
  const typed = Object.fromEntries(
    Object.entries(figures).filter(([name, text]) => name in known && text.trim() !== (now[name] ?? "")),
  );
  const change = { plan: plan === page.plan?.hash ? "" : plan, figures: typed, drawings: drawingsOf(drawings) };
  return (
    <>
      <div class="desk-pair">
        <label class="field">
          {t("job-change-plan")}
          <select value={plan} onChange={(event) => setPlan(event.currentTarget.value)}>
            {plans.map((one) => (
              <option key={one.hash} value={one.hash}>
                {t("jobs-plan-named", { code: one.code, revision: one.revision, title: one.title })}
              </option>
            ))}
          </select>
        </label>
        <label class="field">
          {t("new-job-drawings-how")}
          <textarea value={drawings} onInput={(event) => setDrawings(event.currentTarget.value)} />
        </label>
      </div>
      <section>
        <h2>{t("new-job-figures")}</h2>
        <FiguresForm asked={known} typed={figures} before={now} onType={setFigures} />
      </section>
      <Doing id={page.id} change={change} />
    </>
  );
}

/** The preview, then the change itself with its reason. */
function Doing({ id, change }: { id: string; change: object }) {
  const [preview, setPreview] = useState<{ answer: Preview; of: string } | null>(null);
  const [reason, setReason] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const now = JSON.stringify(change);
  const path = `/jobs/${encodeURIComponent(id)}/basis`;
  const may = me.value?.roles.some((role) => role === "planner" || role === "engineer");
  const attempt = async (work: () => Promise<void>) => {
    setBusy(true);
    setSays("");
    await work().catch((error: Error) => setSays(error.message));
    setBusy(false);
  };
  const look = () =>
    attempt(async () => {
      setPreview(null);
      setPreview({ answer: await callSignedIn<Preview>(`${path}/preview`, change), of: now });
    });
  const make = () =>
    attempt(async () => {
      await callSignedIn(path, { ...change, reason });
      wake();
      go("jobs", id);
    });
  const current = preview?.of === now;
  return (
    <section class="choices desk">
      <button type="button" class="button" disabled={busy} onClick={() => void look()}>
        {t("job-change-look")}
      </button>
      {busy && <p role="status">{t("job-change-working")}</p>}
      {says && <Notice kind="bad">{says}</Notice>}
      {preview && !current && <Notice kind="care">{t("found-stale")}</Notice>}
      {preview && <Undone preview={preview.answer} />}
      {preview && may && (
        <>
          <label class="field">
            {t("job-change-reason")}
            <textarea value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
          </label>
          <button
            type="button"
            class="button main"
            disabled={!current || !reason.trim() || busy}
            onClick={() => void make()}
          >
            {t("job-change-make", { job: id })} <span>›</span>
          </button>
        </>
      )}
    </section>
  );
}

function Undone({ preview: { verdicts, releases, again } }: { preview: Preview }) {
  if (verdicts.length + releases.length + again.length === 0) return <Notice>{t("job-change-nothing")}</Notice>;
  const worse = verdicts.filter((line) => line.before !== line.after);
  return (
    <div class="undone" aria-live="polite">
      <p>
        {t("job-change-counts", {
          verdicts: worse.length,
          records: verdicts.length,
          releases: releases.length,
          steps: again.length,
        })}
      </p>
      <Part title={t("job-change-releases")} heads={[t("job-change-signed-by"), t("job-change-why")]} lines={releases}>
        {(line) => (
          <>
            <td data-cell="">
              {partyName(line.party)}, {line.by}, {day(line.at)}
            </td>
            <td data-cell="">
              <Mark shape="out" /> {t("job-change-not-valid", { reason: word("signing", line.reason) })}
            </td>
          </>
        )}
      </Part>
      <Part
        title={t("job-change-verdicts")}
        heads={[t("job-change-record"), t("job-change-before-after")]}
        lines={[...worse, ...verdicts.filter((line) => line.before === line.after)]}
      >
        {(line) => (
          <>
            <td data-cell="">
              {line.item} {line.station} <b>{line.says}</b>
            </td>
            <td data-cell="">
              {line.before === line.after ? (
                t("job-change-same", { verdict: word("verdict", line.before) })
              ) : (
                <>
                  <Mark shape={line.after === "in tolerance" ? "in" : "out"} />{" "}
                  {t("job-change-turns", { before: word("verdict", line.before), after: word("verdict", line.after) })}
                </>
              )}
            </td>
          </>
        )}
      </Part>
      <Part title={t("job-change-again")} heads={[t("job-change-before-after")]} lines={again}>
        {(line) => (
          <td data-cell="">
            {t("job-change-turns", { before: word("state", line.before), after: word("state", line.after) })}
          </td>
        )}
      </Part>
    </div>
  );
}

interface Line {
  piece: string;
  mark: string;
  kind: string;
  step: string;
  number: string;
  name: string;
}

const MOST = 100;

interface UndoneProps<T> {
  title: string;
  heads: readonly string[];
  lines: readonly T[];
  children: (line: T) => preact.ComponentChildren;
}

function Part<T extends Line>({ title, heads, lines, children }: UndoneProps<T>) {
  if (lines.length === 0) return null;
  return (
    <section>
      <h3>{t("jobs-list-title", { title, count: lines.length })}</h3>
      <table class="lines" aria-label={title}>
        <thead>
          <tr>
            {[t("jobs-piece"), t("jobs-step"), ...heads].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.slice(0, MOST).map((line, place) => (
            <tr key={`${line.piece} ${line.step} ${place}`}>
              <th scope="row">
                {line.mark} <span class="small soft">{line.kind}</span>
              </th>
              <td data-cell="">
                {line.number} {line.name}
              </td>
              {children(line)}
            </tr>
          ))}
        </tbody>
      </table>
      {lines.length > MOST && <p class="small soft">{t("jobs-more", { count: lines.length - MOST })}</p>}
    </section>
  );
}
