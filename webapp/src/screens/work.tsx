/** My work: scan, what waits for me, and the jobs. */

import { unsentText } from "../parts/frame";
import { Mark } from "../parts/marks";
import { partyOf } from "../parts/parties";
import { useLoaded } from "../parts/use";
import { go, linkTo, lock, me } from "../state";
import { changes, jobList, type OpenJob, openJob, shopName } from "../store/jobs";
import { heard, trouble } from "../sync/loop";

interface Task {
  job: string;
  piece: string;
  mark: string;
  kind: string;
  step: string;
  what: string;
  urgent: boolean;
}

const MOST_SHOWN = 12;

/** Steps of a job that wait for a party: to be signed, or to be worked on because somebody asked for it again. */
export function tasksOf(job: OpenJob, party: string): Task[] {
  const found: Task[] = [];
  const { progress } = job;
  for (const piece of progress.job.pieces.values()) {
    const own = progress.piece(piece.id);
    for (const [code, state] of own.steps) {
      const step = progress.job.steps.get(code);
      if (!step || state.state === "released" || progress.blocked(piece.id, code).length > 0) continue;
      const place = { job: job.id, piece: piece.id, mark: piece.mark, kind: piece.kind, step: code };
      const named = `${step.number} ${step.name ?? ""}`;
      if (state.state === "flagged") found.push({ ...place, what: `${named} · out of tolerance`, urgent: true });
      else if (state.state === "complete" && state.waiting[0] === party)
        found.push({ ...place, what: `${named} · ready to sign`, urgent: false });
      else if (state.state === "started") found.push({ ...place, what: `${named} · begun`, urgent: false });
    }
  }
  return found;
}

async function tasks(party: string): Promise<Task[]> {
  const jobs = await Promise.all((await jobList()).map((job) => openJob(job.id)));
  const found = jobs.flatMap((job) => (job ? tasksOf(job, party) : []));
  return found.sort((a, b) => Number(b.urgent) - Number(a.urgent));
}

export function Work() {
  const who = me.value;
  const party = partyOf(who?.roles ?? []);
  const shop = useLoaded(shopName, [changes.value]);
  const jobs = useLoaded(jobList, [changes.value]);
  const waitingForMe = useLoaded(() => tasks(party), [changes.value, party]);
  const desk = who?.roles.some((role) =>
    ["supervisor", "planner", "engineer", "foreman", "authorized inspector"].includes(role),
  );
  return (
    <main class="screen">
      <header class="bar">
        <span>{shop}</span>
        <a href={linkTo("unsent")}>
          <b>{unsentText()}</b>
          {trouble.value ? " · no server" : heard.value ? "" : " · not heard yet"}
        </a>
      </header>
      <div class="body">
        <h1>{who?.name}</h1>
        <button type="button" class="button main" onClick={() => go("scan")}>
          Scan a tag <span>›</span>
        </button>
        {desk && (
          <a class="button" href={linkTo("review")}>
            Day review
          </a>
        )}
        <section>
          <h2>Waits for me</h2>
          {waitingForMe?.length === 0 && <p class="soft">Nothing at the moment. Scan a tag to begin a step.</p>}
          <ul class="list">
            {waitingForMe?.slice(0, MOST_SHOWN).map((task) => (
              <li key={`${task.piece} ${task.step}`}>
                <a class="row" href={linkTo("step", task.job, task.piece, task.step)}>
                  <Mark shape={task.urgent ? "out" : task.what.endsWith("sign") ? "waiting" : "started"} />
                  <span class="grow">
                    <b>{task.mark}</b> <span class="small soft">job {task.job}</span>
                    <br />
                    <span class="small">{task.what}</span>
                  </span>
                  ›
                </a>
              </li>
            ))}
          </ul>
          {waitingForMe && waitingForMe.length > MOST_SHOWN && (
            <p class="small soft">and {waitingForMe.length - MOST_SHOWN} more, by job</p>
          )}
        </section>
        <section>
          <h2>Jobs</h2>
          {jobs?.length === 0 && (
            <p class="soft">No job is on this phone yet. It comes with the first contact to the server.</p>
          )}
          <ul class="list">
            {jobs?.map((job) => (
              <li key={job.id}>
                <a class="row" href={linkTo("job", job.id)}>
                  <span class="grow">
                    <b>{job.id}</b>
                    <br />
                    <span class="small soft">{job.title}</span>
                  </span>
                  ›
                </a>
              </li>
            ))}
          </ul>
        </section>
        <button type="button" class="button" onClick={lock}>
          Lock
        </button>
      </div>
    </main>
  );
}
