/** My work: scan, what waits for me, and the jobs. */

import type { StepState } from "../core/progress";
import { SentState } from "../parts/frame";
import { Mark, type Shape } from "../parts/marks";
import { partyOf } from "../parts/parties";
import { useLoaded } from "../parts/use";
import { go, linkTo, lock, me } from "../state";
import { changes, jobList, type OpenJob, openJob, shopName } from "../store/jobs";
import { AgreeLine, agreeingParties, askedOf } from "./agree";

interface Task {
  job: string;
  piece: string;
  mark: string;
  name: string;
  step: string;
  what: string;
  shape: Shape;
  rank: number;
}

const MOST_SHOWN = 12;

/** What a step is to a party: to sign, to look at again, next in turn, or begun; null where it is not theirs. */
function share(state: StepState, party: string): { rank: number; word: string; shape: Shape } | null {
  const next = state.waiting[0];
  if (state.state === "complete" && next === party) return { rank: 0, word: "ready to sign", shape: "waiting" };
  const shop = party === "QC" || party === "maker";
  if (state.state === "flagged" && shop) return { rank: 1, word: "not as it should be", shape: "out" };
  if (state.state === "started" && next === party) return { rank: 2, word: "begun", shape: "started" };
  return state.state === "open" && next === party && party === "maker"
    ? { rank: 3, word: "next", shape: "open" }
    : null;
}

/** Steps of a job that wait for a party, leaving out what is stopped. */
export function tasksOf(job: OpenJob, party: string): Task[] {
  const found: Task[] = [];
  const { progress } = job;
  for (const piece of progress.job.pieces.values()) {
    for (const [code, state] of progress.piece(piece.id).steps) {
      const step = progress.job.steps.get(code);
      const mine = step && state.state !== "released" ? share(state, party) : null;
      if (!step || !mine || progress.blocked(piece.id, code).length > 0) continue;
      const place = { job: job.id, piece: piece.id, mark: piece.mark, name: piece.name ?? piece.kind, step: code };
      found.push({ ...place, what: `${step.number} ${step.name} · ${mine.word}`, shape: mine.shape, rank: mine.rank });
    }
  }
  return found;
}

async function tasks(party: string): Promise<Task[]> {
  const jobs = await Promise.all((await jobList()).map((job) => openJob(job.id)));
  return jobs.flatMap((job) => (job ? tasksOf(job, party) : [])).sort((a, b) => a.rank - b.rank);
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
        <SentState />
      </header>
      <div class="body">
        <a class="row plain" href={linkTo("pin")}>
          <span class="grow">
            <h1>{who?.name}</h1>
            <span class="soft">{who?.roles.join(", ")}</span>
          </span>
          <span class="small soft">Change PIN ›</span>
        </a>
        <button type="button" class="button main" onClick={() => go("scan")}>
          Scan a tag <span>›</span>
        </button>
        {desk && (
          <a class="button" href={linkTo("review")}>
            Day review
          </a>
        )}
        <PassedOnHere />
        <AsksForAWord />
        <section>
          <h2>Waits for me</h2>
          {waitingForMe?.length === 0 && <p class="soft">Nothing at the moment. Scan a tag to begin a step.</p>}
          <ul class="list">
            {waitingForMe?.slice(0, MOST_SHOWN).map((task) => (
              <li key={`${task.piece} ${task.step}`}>
                <a class="row" href={linkTo("step", task.job, task.piece, task.step)}>
                  <Mark shape={task.shape} />
                  <span class="grow">
                    <b>{task.mark}</b> {task.name} <span class="small soft">job {task.job}</span>
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
            <p class="soft">No job is on this phone yet. They are fetched while there is a network.</p>
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

/** Notes that the last shift left on top, on any piece. */
function PassedOnHere() {
  const notes = useLoaded(async () => {
    const jobs = await Promise.all((await jobList()).map((job) => openJob(job.id)));
    return jobs.flatMap((job) =>
      job ? [...job.progress.job.pieces.values()].flatMap((piece) => passedOnOf(job, piece.id, piece.mark)) : [],
    );
  }, [changes.value]);
  if (!notes || notes.length === 0) return null;
  return (
    <section>
      <h2>From the last shift</h2>
      <ul class="list passed-on">
        {notes.map((note) => (
          <li key={note.id}>
            <a class="row" href={linkTo("piece", note.job, note.piece)}>
              <span class="grow">
                <b>{note.mark}</b> {note.text}
              </span>
              ›
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function passedOnOf(job: OpenJob, piece: string, mark: string) {
  const notes = job.progress.piece(piece).passedOn;
  return notes.map((note) => ({ id: note.id, job: job.id, piece, mark, text: note.body.text }));
}

/** What is to be used as it is once this person's party agrees. */
function AsksForAWord() {
  const parties = agreeingParties(me.value?.roles ?? []);
  const asked = useLoaded(async () => {
    if (parties.length === 0) return [];
    const jobs = await Promise.all((await jobList()).map((job) => openJob(job.id)));
    return jobs.flatMap((job) => (job ? askedOf(job, parties) : []));
  }, [changes.value, parties.join()]);
  if (!asked || asked.length === 0) return null;
  return (
    <section>
      <h2>Asks for your word</h2>
      <ul class="list">
        {asked.map((one) => (
          <AgreeLine key={one.disposition.id} asked={one} />
        ))}
      </ul>
    </section>
  );
}
