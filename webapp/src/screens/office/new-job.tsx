/** A new job: plan, figures, drawings and pieces; everything that is wrong is told at once, before it is opened. */
import { useState } from "preact/hooks";
import { t } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { useLoaded } from "../../parts/use";
import { go, linkTo } from "../../state";
import { callSignedIn, wake } from "../../sync/loop";
import { type Asked, type Revision, type Schemas, sent, useAsked } from "./asking";
import { drawingsOf, FiguresForm } from "./figures-form";
import type { ChosenFile } from "./file-field";
import { Found } from "./found";
import { PiecesForm, type TypedRow } from "./pieces-form";

type Checked = Schemas["CheckedJob"];
type Job = Schemas["Job"];

interface PlanSource {
  figures?: Record<string, Asked>;
  piece_figures?: Record<string, Asked>;
  steps?: { kinds: string[] }[];
}

export function NewJobScreen() {
  const { found: plans, says } = useAsked<Revision[]>("/plans", []);
  return (
    <Frame wide title={t("jobs")} back={linkTo("jobs")}>
      <div class="body">
        <h1>{t("new-job")}</h1>
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {plans?.length === 0 && <Notice kind="care">{t("new-job-no-plan")}</Notice>}
        {plans && plans.length > 0 && <Form plans={plans} />}
      </div>
    </Frame>
  );
}

function Form({ plans }: { plans: readonly Revision[] }) {
  const [job, setJob] = useState("");
  const [title, setTitle] = useState("");
  const [plan, setPlan] = useState(plans[0]?.hash ?? "");
  const [figures, setFigures] = useState<Record<string, string>>({});
  const [drawings, setDrawings] = useState("");
  const [file, setFile] = useState<ChosenFile | null>(null);
  const [rows, setRows] = useState<TypedRow[]>([{}]);
  const source = useLoaded(
    () =>
      callSignedIn<{ source: PlanSource }>(`/plans/${plan}`).then(
        ({ source }) => source,
        () => null,
      ),
    [plan],
  );
  const asked = source?.figures ?? {};
  const known = Object.fromEntries(Object.entries(figures).filter(([name]) => name in asked));
  const whole = { job, title, plan, figures: known, drawings: drawingsOf(drawings), file, rows: file ? [] : rows };
  return (
    <form class="new-job" onSubmit={(event) => event.preventDefault()}>
      <div class="job-head">
        <label class="field">
          {t("new-job-number")}
          <input value={job} autocomplete="off" onInput={(event) => setJob(event.currentTarget.value)} />
        </label>
        <label class="field">
          {t("new-job-title")}
          <input value={title} autocomplete="off" onInput={(event) => setTitle(event.currentTarget.value)} />
        </label>
        <label class="field">
          {t("new-job-plan")}
          <select value={plan} onChange={(event) => setPlan(event.currentTarget.value)}>
            {plans.map((one) => (
              <option key={one.hash} value={one.hash}>
                {t("jobs-plan-named", { code: one.code, revision: one.revision, title: one.title })}
              </option>
            ))}
          </select>
        </label>
      </div>
      {source && (
        <>
          <section>
            <h2>{t("new-job-figures")}</h2>
            <TakeOver onTake={(taken) => setFigures(taken)} />
            <FiguresForm asked={asked} typed={figures} onType={setFigures} />
          </section>
          <section class="desk-pair">
            <div>
              <h2>{t("new-job-drawings")}</h2>
              <label class="field">
                {t("new-job-drawings-how")}
                <textarea value={drawings} onInput={(event) => setDrawings(event.currentTarget.value)} />
              </label>
            </div>
          </section>
          <PiecesForm
            plan={plan}
            kinds={[...new Set(source.steps?.flatMap(({ kinds }) => kinds) ?? [])]}
            figures={source.piece_figures ?? {}}
            file={file}
            rows={rows}
            onFile={setFile}
            onRows={setRows}
          />
        </>
      )}
      <Opening whole={whole} name={file?.name ?? t("new-job-typed")} />
    </form>
  );
}

/** The figures of a job that is there, to begin with. */
function TakeOver({ onTake }: { onTake: (figures: Record<string, string>) => void }) {
  const { found: jobs } = useAsked<Job[]>("/jobs", []);
  const take = async (id: string) => {
    const page = await callSignedIn<Schemas["JobPage"]>(`/jobs/${encodeURIComponent(id)}`).catch(() => null);
    if (page) onTake(Object.fromEntries(page.figures.map(({ name, typed }) => [name, typed])));
  };
  if (!jobs?.length) return null;
  return (
    <label class="field short">
      {t("new-job-take-figures")}
      <select onChange={(event) => event.currentTarget.value && void take(event.currentTarget.value)}>
        <option value="">{t("new-job-take-none")}</option>
        {jobs.map(({ id, title }) => (
          <option key={id} value={id}>
            {id} {title}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Check, then open; what was checked must still be what is there. */
function Opening({ whole, name }: { whole: object; name: string }) {
  const [checked, setChecked] = useState<{ answer: Checked; of: string } | null>(null);
  const [part, setPart] = useState<number | null>(null);
  const [says, setSays] = useState("");
  const now = JSON.stringify(whole);
  const sound = checked?.of === now && checked.answer.faults.length === 0;
  const attempt = async (work: () => Promise<void>) => {
    setPart(0);
    setSays("");
    await work().catch((error: Error) => setSays(error.message));
    setPart(null);
  };
  const check = () =>
    attempt(async () => setChecked({ answer: await sent<Checked>("/jobs/check", whole, setPart), of: now }));
  const open = () =>
    attempt(async () => {
      const made = await sent<Job>("/jobs", whole, setPart);
      wake();
      go("jobs", made.id);
    });
  return (
    <section class="choices desk">
      {checked && <Found answer={checked.answer} name={name} stale={checked.of !== now} />}
      {says && <Notice kind="bad">{says}</Notice>}
      {part !== null && (
        <p role="status">
          <progress value={part < 1 ? part : undefined} aria-label={t("new-job-sending")} />{" "}
          {part < 1 ? t("new-job-sending") : t("new-job-working")}
        </p>
      )}
      <div class="pair">
        <button type="button" class="button" disabled={part !== null} onClick={() => void check()}>
          {t("new-job-check")}
        </button>
        <button type="button" class="button main" disabled={!sound || part !== null} onClick={() => void open()}>
          {t("new-job-open")} <span>›</span>
        </button>
      </div>
    </section>
  );
}
