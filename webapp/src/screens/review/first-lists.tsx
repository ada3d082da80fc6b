/** The four lists the review begins with: how long each is, its first lines, and the way to the whole. */
import { listed, t } from "../../language";
import { Mark } from "../../parts/marks";
import { partyName } from "../../parts/parties";
import { linkTo } from "../../state";
import type { Line, Lists, Review } from "./asking";
import { wordOf } from "./decided";
import { daysSince } from "./words";

export type ListName = keyof Lists;
export const LISTS: readonly ListName[] = ["ready_for_ai", "blocked", "reports", "rework"];

export function listTitle(name: ListName): string {
  return t(`review-list-${name}`);
}

export function isOverdue({ state, since }: Line, days: number): boolean {
  return state === "asked for" && daysSince(since) > days;
}

/** What a line tells beside its piece and step. days: after which a report is overdue. */
export function tellOf(name: ListName, line: Line, days: number): string {
  const age = daysSince(line.since);
  if (name === "blocked") return blockedBy(line);
  if (name === "reports") {
    if (line.state !== "asked for") return t("review-report-back", { what: line.what ?? "" });
    const values = { what: line.what ?? "", days: age, late: age - days };
    return t(isOverdue(line, days) ? "review-report-overdue" : "review-report-asked", values);
  }
  if (name === "rework") return decidedHow(line, age);
  return t("review-ready-since", { days: age });
}

/** By whom, and what it stands behind: `the Authorized Inspector: FT 4.7`. */
function blockedBy({ behind = [], parties = [] }: Line): string {
  const first = behind[0];
  if (!first) return parties.map(partyName).join(", ");
  const values = { party: partyName(first.party), mark: first.mark, number: first.number, count: behind.length - 1 };
  return t(behind.length > 1 ? "review-behind-more" : "review-behind", values);
}

/** What was decided, and when; where others have still to agree, who. */
function decidedHow({ disposition = "", flag = "", ncr = "", parties = [] }: Line, days: number): string {
  const said = wordOf({ flag, disposition });
  const what = ncr ? t("review-rework-ncr", { disposition: said, ncr }) : said;
  return parties.length > 0
    ? t("review-rework-waits", { what, parties: listed(parties.map(partyName)) })
    : t("review-rework-since", { what, days });
}

/** That flags are open at the steps of lines: nobody is called to these before they are decided. */
export function OpenFlags({ lines }: { lines: readonly Line[] }) {
  const count = lines.reduce((sum, { flags = 0 }) => sum + flags, 0);
  if (count === 0) return null;
  return (
    <b class="open-flags">
      <span aria-hidden="true">
        <Mark shape="close" />
      </span>{" "}
      {t("review-open-flags", { count })}
    </b>
  );
}

const SHOWN = 2;

export function FirstLists({ review }: { review: Review }) {
  return (
    <div class="first-lists">
      {LISTS.map((name) => {
        const { count, lines } = review.lists[name];
        return (
          <section key={name} data-list={name}>
            <h2>
              <a href={linkTo("review", "list", name)}>
                <b>{count}</b> {listTitle(name)}
              </a>
            </h2>
            <ul>
              {lines.slice(0, SHOWN).map((line) => (
                <li key={[line.job, line.piece, line.step, line.since, line.what].join(" ")}>
                  <a class="tile-line" href={linkTo("step", line.job, line.piece, line.step)}>
                    <b>{line.mark}</b> <span class="tile-step">{line.number}</span>{" "}
                    <span class={isOverdue(line, review.report_days) ? "late" : "soft"}>
                      {tellOf(name, line, review.report_days)}
                    </span>{" "}
                    <OpenFlags lines={[line]} />
                  </a>
                </li>
              ))}
              {count > SHOWN && (
                <li>
                  <a class="tile-line" href={linkTo("review", "list", name)}>
                    <b>{t("review-more", { count: count - SHOWN })} ›</b>{" "}
                    {lines.length === count && <OpenFlags lines={lines.slice(SHOWN)} />}
                  </a>
                </li>
              )}
            </ul>
          </section>
        );
      })}
    </div>
  );
}
