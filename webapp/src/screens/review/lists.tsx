/** One of the four lists in whole, of all jobs or of one. */
import { useState } from "preact/hooks";
import { t, word } from "../../language";
import { partyName } from "../../parts/parties";
import { linkTo } from "../../state";
import { type Line, type Review, useDay, useHead, useLive } from "./asking";
import { isOverdue, type ListName, listTitle, OpenFlags, tellOf } from "./first-lists";
import { reworkSheet } from "./paper";
import { ReviewPage, type Row, Table } from "./table";
import { daysSince } from "./words";

const MOST = 500;

export function ListPage({ name }: { name: ListName }) {
  const head = useHead();
  const [job, setJob] = useState("");
  const { found, fault } = useLive<Line[]>(`/review/lists/${name}`, head);
  const review = useDay({ day: "", shift: 0 }, head).found;
  const lines = found ?? (fault ? wholeIn(review, name) : undefined);
  const days = review?.report_days ?? Number.POSITIVE_INFINITY;
  const jobs = [...new Set(lines?.map((line) => line.job))].sort();
  const shown = lines?.filter((line) => !job || line.job === job) ?? [];
  return (
    <ReviewPage
      title={lines ? t("review-list-title", { title: listTitle(name), count: lines.length }) : listTitle(name)}
      says={t(`review-says-${name}`)}
      fault={fault}
      here={lines !== undefined}
    >
      {name === "rework" && (
        <p>
          {t("review-rework-sheet")} <a href={reworkSheet()}>PDF</a>
        </p>
      )}
      {jobs.length > 1 && (
        <div class="filters">
          <label>
            {t("review-by-job")}
            <select value={job} onChange={(event) => setJob(event.currentTarget.value)}>
              <option value="">{t("review-all")}</option>
              {jobs.map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
          </label>
        </div>
      )}
      {shown.length === 0 ? (
        <p class="nothing">{t(`review-none-${name}`)}</p>
      ) : (
        <Table name={listTitle(name)} columns={columnsOf(name)} rows={shown.map((line) => rowOf(name, line, days))} />
      )}
      {(lines?.length ?? 0) >= MOST && <p class="small soft">{t("review-first-only", { listed: MOST })}</p>}
    </ReviewPage>
  );
}

/** A list as the day has it, where that is the whole of it. */
function wholeIn(review: Review | undefined, name: ListName): readonly Line[] | undefined {
  const first = review?.lists[name];
  return first && first.lines.length === first.count ? first.lines : undefined;
}

function columnsOf(name: ListName): string[] {
  const more = {
    ready_for_ai: [t("review-since")],
    blocked: [t("review-behind-what"), t("review-since")],
    reports: [t("review-report-what"), t("review-how-it-stands")],
    rework: [t("review-item"), t("review-how-it-stands")],
  }[name];
  return [t("review-piece"), t("review-job"), t("review-fact-step"), ...more];
}

function rowOf(name: ListName, line: Line, days: number): Row {
  const late = isOverdue(line, days);
  const since = t("review-days", { days: daysSince(line.since) });
  const more = {
    ready_for_ai: () => [since],
    blocked: () => [<Behind key="behind" line={line} />, since],
    reports: () => [
      [line.what, line.station, line.number_of_report].filter(Boolean).join(" "),
      [tellOf(name, line, days), line.result ? word("result", line.result) : ""].filter(Boolean).join(" · "),
    ],
    rework: () => [line.what, tellOf(name, line, days)],
  }[name]();
  return {
    key: [line.job, line.piece, line.step, line.since, line.what, line.station].join(" "),
    late,
    cells: [
      <>
        {line.mark} <span class="soft">{line.kind}</span> <OpenFlags lines={[line]} />
      </>,
      line.job,
      <a key="step" href={linkTo("step", line.job, line.piece, line.step)}>
        {line.number} {line.name}
      </a>,
      ...more,
    ],
  };
}

/** Each step it stands behind, and who lets it go there. */
function Behind({ line }: { line: Line }) {
  return (
    <ul>
      {line.behind?.map((one) => (
        <li key={one.piece + one.step}>
          <b class="begins">{partyName(one.party)}</b>{" "}
          {t("review-behind-step", { mark: one.mark, number: one.number, step: one.name })}
        </li>
      ))}
    </ul>
  );
}
