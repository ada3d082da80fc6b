/** The sections of My work: each there only where something is in it, the most pressing first. */
import type { ComponentChildren } from "preact";
import { t, word } from "../language";
import { clockTime } from "../parts/customs";
import { Mark, type Shape } from "../parts/marks";
import { partyName } from "../parts/parties";
import { StoredPhoto } from "../parts/stored-photo";
import { useLoaded } from "../parts/use";
import { linkTo, me } from "../state";
import { changes, jobList, type OpenJob, openJob, people } from "../store/jobs";
import { quiet } from "../store/turns";
import { AgreeLine } from "./agree";
import { type Called, floorInSlices, type PassedOnNote, type Rework, type Turn, type Where } from "./floor-work";

const MOST_SHOWN = 12;

/** One job after the other, and the phone answers in between: a full one takes seconds, and somebody may want to scan. */
async function openJobs(isWanted: () => boolean): Promise<OpenJob[]> {
  const found: OpenJob[] = [];
  await quiet();
  for (const { id, open } of await jobList()) {
    if (!isWanted()) return [];
    const job = open ? await openJob(id, "quiet") : null;
    if (job) found.push(job);
    await quiet();
  }
  return found;
}

export function FloorSections() {
  const who = me.value;
  const floor = useLoaded(
    async (isWanted) => (who ? floorInSlices(await openJobs(isWanted), who, isWanted) : undefined),
    [changes.value, who?.person, who?.roles.join()],
  );
  if (!floor || !who) return <p class="soft">{t("work-looking")}</p>;
  const outside = !who.roles.some((role) => role === "inspector" || role === "supervisor");
  const nothing = Object.values(floor).every((lines: readonly unknown[]) => lines.length === 0);
  return (
    <>
      {nothing && <p class="soft">{t("work-nothing")}</p>}
      <Section name={t("work-rework")} lines={floor.rework} line={(one) => <ReworkLine key={one.key} rework={one} />} />
      <Section
        name={t("work-notes")}
        lines={floor.notes}
        line={(one) => <NoteLine key={one.id} note={one} />}
        kind="passed-on"
      />
      <Section
        name={t(outside ? "work-called-to" : "work-calls")}
        lines={floor.calls}
        line={(one) => <CallLine key={`${one.piece} ${one.step} ${one.party}`} call={one} />}
      />
      <Section
        name={t("work-asked")}
        lines={floor.asked}
        line={(one) => <AgreeLine key={one.disposition.id} asked={one} />}
      />
      <Section
        name={t("work-begun")}
        lines={floor.begun}
        line={(one) => <TurnLine key={`${one.piece} ${one.step}`} turn={one} mine />}
      />
      <Section
        name={t("work-ready")}
        lines={floor.ready}
        line={(one) => <TurnLine key={`${one.piece} ${one.step}`} turn={one} mine={false} />}
      />
    </>
  );
}

interface SectionProps<T> {
  name: string;
  lines: readonly T[];
  line: (one: T) => ComponentChildren;
  kind?: string;
}

function Section<T>({ name, lines, line, kind = "" }: SectionProps<T>) {
  if (lines.length === 0) return null;
  return (
    <section>
      <h2>{name}</h2>
      <ul class={`list ${kind}`}>{lines.slice(0, MOST_SHOWN).map(line)}</ul>
      {lines.length > MOST_SHOWN && (
        <p class="small soft and-more">{t("work-more", { count: lines.length - MOST_SHOWN })}</p>
      )}
    </section>
  );
}

/** A line's first row: which piece, what it is called, of which job. */
function Named({ of }: { of: Where }) {
  return (
    <>
      <b>{of.mark}</b> {of.name} <span class="small soft in-job">{t("work-in-job", { job: of.job })}</span>
    </>
  );
}

interface LineProps {
  to: string;
  of: Where;
  shape?: Shape;
  children: ComponentChildren;
  after?: ComponentChildren;
}

function Line({ to, of, shape, children, after }: LineProps) {
  return (
    <li>
      <a class="row" href={to}>
        {shape && <Mark shape={shape} />}
        <span class="grow">
          <Named of={of} />
          <br />
          <span class="small">{children}</span>
        </span>
        {after ?? "›"}
      </a>
    </li>
  );
}

function ReworkLine({ rework }: { rework: Rework }) {
  const { job, piece, step, stepName, item, itemName, station, ncr, reason, photo, mark } = rework;
  const to = item ? linkTo("item", job, piece, step, item) : linkTo("step", job, piece, step);
  const disposition = word("disposition", rework.disposition);
  const place = { step: stepName, item: itemName, station };
  const where = item ? t(station ? "work-rework-where-station" : "work-rework-where", place) : stepName;
  const picture = photo && <StoredPhoto sha256={photo} says={t("work-rework-photo", { mark })} />;
  return (
    <Line to={to} of={rework} shape="out" after={picture || undefined}>
      {where}
      <br />
      <b class="begins">{t(ncr ? "work-rework-what-ncr" : "work-rework-what", { disposition, ncr, reason })}</b>
    </Line>
  );
}

function NoteLine({ note }: { note: PassedOnNote }) {
  const names = useLoaded(people, []);
  const name = names?.get(note.by)?.name ?? note.by;
  return (
    <Line to={linkTo("piece", note.job, note.piece)} of={note}>
      <span class="said">{note.text}</span>
      <br />
      <span class="soft">{t("work-notes-by", { name, at: clockTime(note.at) })}</span>
    </Line>
  );
}

function CallLine({ call }: { call: Called }) {
  const values = { party: partyName(call.party), when: clockTime(call.when) };
  const says = call.answer || "open";
  const answer = call.answer ? word("answer", call.answer) : t("work-call-not-answered");
  return (
    <Line to={linkTo("step", call.job, call.piece, call.step)} of={call} shape={call.answer ? "waiting" : "open"}>
      {call.stepName}
      <br />
      <b class="begins">{call.when ? t(`work-call-${says}`, values) : t("work-call-no-time", { ...values, answer })}</b>
    </Line>
  );
}

const SHAPES: Readonly<Record<string, Shape>> = { complete: "waiting", flagged: "out", started: "started" };

function TurnLine({ turn, mine }: { turn: Turn; mine: boolean }) {
  const { job, piece, step, stepName, met, asked, state } = turn;
  const flagged = state === "flagged" ? "work-begun-flagged" : "work-begun-what";
  const id = mine ? flagged : `work-ready-${state}`;
  return (
    <Line to={linkTo("step", job, piece, step)} of={turn} shape={SHAPES[state] ?? "open"}>
      {t(id, { step: stepName, met, asked })}
    </Line>
  );
}
