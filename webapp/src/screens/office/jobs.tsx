/** The board: every open job stage by stage; what waits for whom, what is blocked and who can let it go, and reports. */
import { useEffect, useState } from "preact/hooks";
import { locale, t, word } from "../../language";
import { Frame, Notice } from "../../parts/frame";
import { Mark, type Shape } from "../../parts/marks";
import { partyName } from "../../parts/parties";
import { linkTo, me } from "../../state";
import { changes } from "../../store/jobs";
import { type Schemas, useAsked } from "./asking";

type Board = Schemas["Board"];
type Row = Schemas["BoardJob"];
type Stage = Schemas["BoardStage"];

const EVERY = 10_000;
const PARTIES = ["maker", "QC", "AI", "customer"];
const STANDS: readonly (readonly ["flagged" | "blocked" | "complete" | "open" | "released", Shape])[] = [
  ["flagged", "out"],
  ["blocked", "blocked"],
  ["complete", "waiting"],
  ["open", "open"],
  ["released", "in"],
];

export function JobsScreen() {
  const [tick, setTick] = useState(0);
  const [party, setParty] = useState("");
  const { found: board, says } = useAsked<Board>("/board", [tick, changes.value]);
  useEffect(() => {
    const timer = setInterval(() => document.visibilityState === "visible" && setTick((count) => count + 1), EVERY);
    return () => clearInterval(timer);
  }, []);
  const jobs = board?.jobs.filter((job) => !party || job.waiting_for[party] || job.blocked_by[party]) ?? [];
  return (
    <Frame wide>
      <div class="body">
        <h1>{t("jobs")}</h1>
        <nav class="office-actions" aria-label={t("jobs-ways")}>
          {me.value?.roles.includes("planner") && (
            <a class="button" href={linkTo("new-job")}>
              {t("jobs-new")}
            </a>
          )}
          <a class="button" href={linkTo("trace")}>
            {t("trace")}
          </a>
        </nav>
        {says && <Notice kind="bad">{t("office-offline", { says })}</Notice>}
        {board && (
          <>
            <Parties board={board} party={party} onParty={setParty} />
            {board.jobs.length === 0 && <p class="soft">{t("jobs-none-open")}</p>}
            {board.jobs.length > 0 && jobs.length === 0 && (
              <p role="status">{t("jobs-none-wait", { party: partyName(party) })}</p>
            )}
            {groups(jobs).map((group) => (
              <Stages key={group[0]?.plan.code} jobs={group} />
            ))}
            <Waiting jobs={jobs} party={party} />
            <Blocked jobs={jobs} party={party} />
            <Reports jobs={jobs} days={board.report_days} />
          </>
        )}
        <Closed tick={tick} />
      </div>
    </Frame>
  );
}

/** Jobs whose plans have the same stages stand in one table. */
function groups(jobs: readonly Row[]): Row[][] {
  const found = new Map<string, Row[]>();
  for (const job of jobs) {
    const key = job.plan.code + job.stages.map(({ name }) => name).join("\n");
    found.set(key, [...(found.get(key) ?? []), job]);
  }
  return [...found.values()];
}

function Parties({ board, party, onParty }: { board: Board; party: string; onParty: (party: string) => void }) {
  const count = (one: string) => board.jobs.reduce((sum, job) => sum + (job.waiting_for[one] ?? 0), 0);
  return (
    <fieldset class="parties">
      <legend class="small soft">{t("jobs-shown")}</legend>
      <span class="stations">
        <button type="button" class="station" aria-pressed={party === ""} onClick={() => onParty("")}>
          {t("jobs-all")}
        </button>
        {PARTIES.map((one) => (
          <button key={one} type="button" class="station" aria-pressed={party === one} onClick={() => onParty(one)}>
            {t("jobs-waits-for", { party: partyName(one), count: count(one) })}
          </button>
        ))}
      </span>
    </fieldset>
  );
}

function Stages({ jobs }: { jobs: readonly Row[] }) {
  return (
    <table class="board">
      <caption>{t("jobs-by-plan", { plan: jobs[0]?.plan.code ?? "" })}</caption>
      <thead>
        <tr>
          <th scope="col">{t("jobs-job")}</th>
          {jobs[0]?.stages.map((stage) => (
            <th key={stage.number} scope="col">
              {stage.number} {stage.name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {jobs.map((job) => (
          <tr key={job.job}>
            <th scope="row">
              <a href={linkTo("jobs", job.job)}>{job.job}</a>
              <span class="small soft">
                {job.title}
                <br />
                {t("jobs-pieces-plan", { count: job.pieces, plan: job.plan.code, revision: job.plan.revision })}
              </span>
            </th>
            {job.stages.map((stage) => (
              <td key={stage.number} data-stage={`${stage.number} ${stage.name}`}>
                <Counts stage={stage} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** How many pieces stand where in a stage: by shape, number and word. */
function Counts({ stage }: { stage: Stage }) {
  if (stage.asked === 0) return <span class="small soft">{t("jobs-nothing-asked")}</span>;
  return (
    <ul class="stands">
      {STANDS.filter(([name]) => stage[name] > 0).map(([name, shape]) => (
        <li key={name} class={name === "released" ? "soft" : ""}>
          <Mark shape={shape} /> <b>{stage[name]}</b> {word("board", name)}
        </li>
      ))}
    </ul>
  );
}

interface PlaceProps {
  line: { job: string; piece: string; mark: string; kind: string; step: string; number: string; name: string };
}

function Place({ line }: PlaceProps) {
  return (
    <>
      <td data-cell="">
        <a href={linkTo("jobs", line.job)}>{line.job}</a>
      </td>
      <th scope="row">
        {line.mark} <span class="small soft">{line.kind}</span>
      </th>
      <td data-cell="">
        <a href={linkTo("step", line.job, line.piece, line.step)}>
          {line.number} {line.name}
        </a>
      </td>
    </>
  );
}

interface LinesProps {
  title: string;
  none: string;
  last: readonly string[];
  count: number;
  shown: number;
  children: preact.ComponentChildren;
}

function Lines({ title, none, last, count, shown, children }: LinesProps) {
  return (
    <section>
      <h2>{t("jobs-list-title", { title, count })}</h2>
      {count === 0 ? (
        <p class="soft">{none}</p>
      ) : (
        <table class="lines" aria-label={title}>
          <thead>
            <tr>
              {[t("jobs-job"), t("jobs-piece"), t("jobs-step"), ...last].map((name) => (
                <th key={name} scope="col">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>{children}</tbody>
        </table>
      )}
      {count > shown && <p class="small soft">{t("jobs-more", { count: count - shown })}</p>}
    </section>
  );
}

const MOST = 40;

function Waiting({ jobs, party }: { jobs: readonly Row[]; party: string }) {
  const lines = jobs.flatMap((job) => job.waits).filter((line) => !party || line.party === party);
  const count = jobs.reduce(
    (sum, job) =>
      sum + PARTIES.reduce((own, one) => own + (!party || one === party ? (job.waiting_for[one] ?? 0) : 0), 0),
    0,
  );
  const shown = lines.sort((a, b) => (a.since < b.since ? -1 : 1)).slice(0, MOST);
  return (
    <Lines
      title={t("jobs-waits")}
      none={t("jobs-no-waits")}
      last={[t("jobs-party"), t("jobs-since")]}
      count={count}
      shown={shown.length}
    >
      {shown.map((line) => (
        <tr key={line.piece + line.step}>
          <Place line={line} />
          <td data-cell="">{partyName(line.party)}</td>
          <td data-cell="">{day(line.since)}</td>
        </tr>
      ))}
    </Lines>
  );
}

function Blocked({ jobs, party }: { jobs: readonly Row[]; party: string }) {
  const lines = jobs.flatMap((job) => job.blocked).filter((line) => !party || line.parties.includes(party));
  const count = party ? lines.length : jobs.reduce((sum, job) => sum + job.blocked_count, 0);
  const shown = lines.slice(0, MOST);
  return (
    <Lines
      title={t("jobs-blocked")}
      none={t("jobs-no-blocked")}
      last={[t("jobs-let-go")]}
      count={count}
      shown={shown.length}
    >
      {shown.map((line) => (
        <tr key={line.piece + line.step}>
          <Place line={line} />
          <td data-cell="">
            {line.behind.slice(0, 3).map((one) => (
              <div key={one.piece + one.step}>
                <Mark shape="blocked" />{" "}
                {t("jobs-let-go-by", {
                  party: partyName(one.party),
                  mark: one.mark,
                  number: one.number,
                  step: one.name,
                })}
              </div>
            ))}
            {line.behind.length > 3 && (
              <span class="small soft">{t("jobs-more", { count: line.behind.length - 3 })}</span>
            )}
          </td>
        </tr>
      ))}
    </Lines>
  );
}

function Reports({ jobs, days }: { jobs: readonly Row[]; days: number }) {
  const lines = jobs.flatMap((job) => job.reports).sort((a, b) => (a.since < b.since ? -1 : 1));
  const total = (name: "reports_asked" | "reports_in") => jobs.reduce((sum, job) => sum + job[name], 0);
  return (
    <>
      <Lines
        title={t("jobs-reports")}
        none={t("jobs-no-reports")}
        last={[t("jobs-report"), t("jobs-asked-on")]}
        count={total("reports_asked")}
        shown={Math.min(lines.length, MOST)}
      >
        {lines.slice(0, MOST).map((line) => (
          <tr key={line.piece + line.step + line.what}>
            <Place line={line} />
            <td data-cell="">
              {line.what} {line.number_of_report} <span class="small soft">{line.firm}</span>
            </td>
            <td data-cell="">
              {day(line.since)}{" "}
              {line.overdue && (
                <>
                  <Mark shape="close" /> <b>{t("jobs-overdue", { days })}</b>
                </>
              )}
            </td>
          </tr>
        ))}
      </Lines>
      <p class="small soft">{t("jobs-reports-in", { count: total("reports_in") })}</p>
    </>
  );
}

function Closed({ tick }: { tick: number }) {
  const { found } = useAsked<Schemas["Job"][]>("/jobs", [tick === 0]);
  const closed = found?.filter((job) => !job.open) ?? [];
  if (closed.length === 0) return null;
  return (
    <section>
      <h2>{t("jobs-closed")}</h2>
      <ul class="list">
        {closed.map((job) => (
          <li key={job.id}>
            <a class="row" href={linkTo("jobs", job.id)}>
              <b>{job.id}</b> <span class="grow">{job.title}</span> ›
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** A day as people here write it; '' where none is known. */
export function day(at: string): string {
  const found = new Date(at);
  return Number.isNaN(found.getTime())
    ? ""
    : found.toLocaleString(locale(), { dateStyle: "medium", timeStyle: "short" });
}
