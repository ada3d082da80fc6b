/** STOP: what is missing before work may go on here, and who can release it. */
import type { Blocked } from "../core/progress";
import { t } from "../language";
import type { OpenJob } from "../store/jobs";
import { StopSign } from "./marks";
import { partyName } from "./parties";

const MOST = 4;

export function Stop({ job, blocked }: { job: OpenJob; blocked: readonly Blocked[] }) {
  const nearest = blocked.at(-1);
  const party = nearest?.parties[0];
  return (
    <section class="stop" aria-label={t("stop")}>
      <StopSign />
      <div>
        <h2>{party ? t("stop-wait-for", { party: partyName(party) }) : t("stop-work-before")}</h2>
        <ul>
          {blocked.slice(-MOST).map(({ piece, step, parties }) => (
            <li key={`${piece} ${step}`}>
              <b>{job.progress.job.pieces.get(piece)?.mark}</b>{" "}
              {job.progress.job.steps.get(step)?.name ?? t("stop-scrapped")}
              {parties.length > 0 && `: ${parties.map(partyName).join(t("stop-then"))}`}
            </li>
          ))}
        </ul>
        {blocked.length > MOST && <p>{t("stop-more", { count: blocked.length - MOST })}</p>}
      </div>
    </section>
  );
}
