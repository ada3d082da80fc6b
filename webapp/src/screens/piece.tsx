/** A piece: what it is, the one thing to do next, and its steps with who signed and who is next. */
import type { Piece, Step } from "../core/job";
import type { Blocked } from "../core/progress";
import { type Party, ROLES } from "../core/records";
import { t } from "../language";
import { Frame, Notice } from "../parts/frame";
import { partyName } from "../parts/parties";
import { namesOf } from "../parts/speaking";
import { Stop } from "../parts/stop";
import { useLoaded, usePiece } from "../parts/use";
import { foundBy, linkTo, me } from "../state";
import { type OpenJob, people } from "../store/jobs";
import { nextItem } from "./item";
import { nextOf } from "./job";
import { Ladder } from "./ladder";
import { Notes, PassedOn } from "./notes";
import { TagLine } from "./tagging";

/** So many marks of others stand in one line; a boiler has hundreds of tubes. */
const MOST_MARKS = 6;

export function PieceScreen({ jobId, pieceId }: { jobId: string; pieceId: string }) {
  const job = usePiece(jobId, pieceId);
  const piece = job?.pieces.get(pieceId);
  if (job === undefined) return null;
  if (!job || !piece) {
    return (
      <Frame>
        <div class="body">
          <Notice kind="bad">{t("piece-not-here")}</Notice>
        </div>
      </Frame>
    );
  }
  const { repairs } = job.progress.piece(pieceId);
  const now = nextOf(job, pieceId).step;
  return (
    <Frame title={t("frame-job", { job: job.id })} back={linkTo("job", job.id)}>
      <div class="body">
        <Head job={job} piece={piece} />
        <PassedOn job={job} piece={pieceId} />
        <NextThing job={job} piece={pieceId} code={now} />
        {repairs > 0 && <p>{t("piece-repairs", { count: repairs })}</p>}
        <NotCounted job={job} piece={pieceId} />
        <section>
          <h2 class="unseen">{t("piece-steps")}</h2>
          <Ladder job={job} piece={pieceId} now={now} />
        </section>
        <TagLine job={job} piece={pieceId} />
        <Notes job={job} piece={pieceId} />
        <a class="button" href={linkTo("scan")}>
          {t("piece-another")}
        </a>
      </div>
    </Frame>
  );
}

/** Mark, name, kind and job; what it joins, is part of, is made of and is joined by. */
function Head({ job, piece }: { job: OpenJob; piece: Piece }) {
  const { pieces } = job;
  const others = [...pieces.values()];
  const marks = (ids: readonly string[]) => {
    const named = ids.slice(0, MOST_MARKS).map((id) => pieces.get(id)?.mark ?? id);
    return [...named, ...(ids.length > MOST_MARKS ? ["…"] : [])].join(", ");
  };
  const parts = others.filter((one) => one.part_of?.includes(piece.id)).map((one) => one.id);
  const joints = others.filter((one) => one.joins?.includes(piece.id)).map((one) => one.id);
  const where: [string, readonly string[]][] = [
    ["piece-joins", piece.joins ?? []],
    ["piece-part-of", piece.part_of ?? []],
    ["piece-has-parts", parts],
    ["piece-joined-by", joints],
  ];
  const { kind } = piece;
  const name = piece.name || kind;
  const alike = name.toLowerCase() === kind.toLowerCase();
  return (
    <div>
      <h1>{piece.mark}</h1>
      <p class="item-name">{name}</p>
      <ul class="small about-piece">
        <li class="begins">{alike ? job.title : t("piece-kind", { kind, job: job.title || job.id })}</li>
        {where
          .filter(([, ids]) => ids.length > 0)
          .map(([id, ids]) => (
            <li key={id} class="begins">
              {t(id, { marks: marks(ids), count: ids.length })}
            </li>
          ))}
        <li class="begins soft">{t(`piece-found-${foundBy.value}`)}</li>
      </ul>
    </div>
  );
}

/** The one thing to do next, large; STOP where something is missing before it. */
function NextThing({ job, piece, code }: { job: OpenJob; piece: string; code: string }) {
  const step = job.progress.job.steps.get(code);
  if (!step) {
    const asked = job.progress.piece(piece).steps.size > 0;
    return <p>{t(asked ? "piece-finished" : "piece-no-steps")}</p>;
  }
  const blocked = job.progress.blocked(piece, code);
  if (blocked.length > 0) return <StopHere job={job} blocked={blocked} />;
  return (
    <a class="button main" href={firstTap(job, piece, step)}>
      <span>
        {step.name ?? code}
        <span class="small">{stateText(job, piece, code)}</span>
      </span>
      <span>›</span>
    </a>
  );
}

/** STOP, and under it by name who can release what is nearest. */
function StopHere({ job, blocked }: { job: OpenJob; blocked: readonly Blocked[] }) {
  const names = namesOf(blocked.at(-1)?.parties[0] ?? "", useLoaded(people, []));
  return (
    <div>
      <Stop job={job} blocked={blocked} />
      {names && <p class="small released-by">{t("piece-released-by", { names })}</p>}
    </div>
  );
}

/** Records that are here but do not count: the server would not have them, or was restored and has them no more. */
function NotCounted({ job, piece }: { job: OpenJob; piece: string }) {
  const here = [...job.records.values()].filter((record) => record.piece === piece);
  const [refused = 0, missing = 0] = ["not taken in", "missing"].map(
    (state) => here.filter((record) => record.state === state).length,
  );
  if (!refused && !missing) return null;
  return (
    <Notice kind="care">
      {refused > 0 && <p>{t("piece-not-taken-in", { count: refused })}</p>}
      {missing > 0 && <p>{t("piece-missing", { count: missing })}</p>}
      <a class="button" href={linkTo("unsent")}>
        {t("piece-which")}
      </a>
    </Notice>
  );
}

/** Straight to the first open item; to the step itself where nothing is left but to sign. */
function firstTap(job: OpenJob, piece: string, step: Step): string {
  const item = nextItem({ job, piece, step });
  return item ? linkTo("item", job.id, piece, step.code, item) : linkTo("step", job.id, piece, step.code);
}

/** How far a step is, or whose signature it waits for. */
function stateText(job: OpenJob, piece: string, code: string): string {
  const { state, items, waiting } = job.progress.step(piece, code);
  const [party = ""] = waiting;
  if (state === "complete") {
    const own = ROLES[party as Party]?.some((role) => me.value?.roles.includes(role));
    return own ? t("piece-sign") : t("piece-waits-for", { party: partyName(party) });
  }
  const asked = [...items.values()].filter((item) => item.state !== "not asked");
  const counts = { met: asked.filter((item) => item.state === "met").length, asked: asked.length };
  return t(state === "flagged" ? "piece-flagged" : "piece-done-of", counts);
}
