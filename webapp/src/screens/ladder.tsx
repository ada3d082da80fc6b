/** The steps of a piece in plan order: each with its state, who signed and who is next, and its records when asked. */
import { useState } from "preact/hooks";
import type { StepState } from "../core/progress";
import { type Bodies, inInk } from "../core/records";
import type { Signing } from "../core/signing";
import { t, word } from "../language";
import { Mark, type Shape } from "../parts/marks";
import { namesOf } from "../parts/speaking";
import { useLoaded } from "../parts/use";
import { linkTo } from "../state";
import { type OpenJob, type Person, people } from "../store/jobs";
import { StepRecords } from "./step-records";

type Names = ReadonlyMap<string, Person> | undefined;

const SHAPES: Readonly<Record<string, Shape>> = {
  released: "in",
  complete: "waiting",
  flagged: "out",
  started: "started",
  open: "open",
};

export function Ladder({ job, piece, now }: { job: OpenJob; piece: string; now: string }) {
  const names = useLoaded(people, []);
  return (
    <ol class="list ladder">
      {[...job.progress.piece(piece).steps].map(([code, state]) => (
        <Rung key={code} job={job} piece={piece} code={code} state={state} now={code === now} names={names} />
      ))}
    </ol>
  );
}

interface RungProps {
  job: OpenJob;
  piece: string;
  code: string;
  state: StepState;
  now: boolean;
  names: Names;
}

function Rung({ job, piece, code, state, now, names }: RungProps) {
  const [open, setOpen] = useState(false);
  const step = job.progress.job.steps.get(code);
  const signing = job.progress.piece(piece).signing(code);
  const stopped = state.state !== "released" && job.progress.blocked(piece, code).length > 0;
  const name = step?.name ?? code;
  const count = signing.here.length;
  return (
    <li class={now ? "now" : ""}>
      <div class="row">
        <a class="grow" href={linkTo("step", job.id, piece, code)}>
          <Mark shape={stopped ? "blocked" : (SHAPES[state.state] ?? "open")} />
          <span>
            <b>{step?.number}</b> {now ? <b>{name}</b> : name}
            <br />
            <span class="small begins">{stopped ? t("piece-step-stopped") : word("state", state.state)}</span>
          </span>
        </a>
        {count > 0 && (
          <button type="button" class="link small" aria-expanded={open} onClick={() => setOpen(!open)}>
            {t("piece-records", { count })}
          </button>
        )}
      </div>
      <Signers signing={signing} next={stopped ? "" : (state.waiting[0] ?? "")} names={names} />
      {open && <StepRecords job={job} piece={piece} code={code} names={names} />}
    </li>
  );
}

/** Each party of the step in its order: who signed, who is next, who comes later. */
function Signers({ signing, next, names }: { signing: Signing; next: string; names: Names }) {
  if (signing.points.length === 0) return null;
  return (
    <ul class="signers">
      {signing.points.map(({ party, point }) => {
        const signed = signing.valid(party).at(-1);
        const values = { party: word("party-short", party), point: word("point", point) };
        if (signed) {
          const name = names?.get(signed.payload.by)?.name ?? signed.payload.by;
          return (
            <li key={party} class="signed">
              <Mark shape="in" /> {t(howSigned(signed.body), { ...values, name })}
            </li>
          );
        }
        if (party !== next) {
          return (
            <li key={party} class="soft">
              <Mark shape="open" /> {t("piece-later", values)}
            </li>
          );
        }
        const who = namesOf(party, names);
        return (
          <li key={party} class="next">
            <Mark shape="waiting" /> {t(who ? "piece-next-named" : "piece-next", { ...values, names: who })}
          </li>
        );
      })}
    </ul>
  );
}

/** The message of who signed: they came, did not after notice, or signed in ink and another entered it. */
function howSigned(body: Bodies["sign-off"]): string {
  if (body.attendance === "not attended after notice") return "piece-signed-absent";
  return inInk(body) ? "piece-signed-ink" : "piece-signed";
}
