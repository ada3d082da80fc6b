/** Calling a party to a point: when, how, what they answered; or that they were not there after notice. */
import { useState } from "preact/hooks";
import type { Judged } from "../core/judging";
import type { Party, Point } from "../core/records";
import { t, word } from "../language";
import { clockTime } from "../parts/customs";
import { partyName, partyOf } from "../parts/parties";
import { useLoaded } from "../parts/use";
import { foundBy, me } from "../state";
import { added, people } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";
import type { At } from "./step";

const CALLED: readonly string[] = ["AI", "customer"];
const WAYS = ["telephone", "message", "in person"] as const;

type Call = Judged<"call">;

/** The points at which somebody from outside is called, with what was said so far. */
export function Calls({ at }: { at: At }) {
  const signing = at.job.progress.piece(at.piece).signing(at.step.code);
  const open = signing.outstanding().filter((point) => CALLED.includes(point.party) && point.point !== "R");
  return (
    <>
      {open.map((point) => (
        <CallTo key={point.party} at={at} point={point} calls={signing.callsTo(point.party)} />
      ))}
    </>
  );
}

function CallTo({ at, point, calls }: { at: At; point: Point; calls: readonly Call[] }) {
  const [asking, setAsking] = useState(false);
  const names = useLoaded(people, []);
  const party = partyOf(me.value?.roles ?? []);
  const called = point.party as Party;
  const said = [...calls].sort((a, b) => (a.id < b.id ? -1 : 1));
  const answered = said.some((call) => call.body.answer);
  return (
    <section class="calls">
      <h2>{t(point.point === "H" ? "call-hold-by" : "call-witness-by", { party: partyName(point.party) })}</h2>
      {said.length === 0 && <p class="soft">{t(point.point === "W" ? "call-not-yet-witness" : "call-not-yet")}</p>}
      <ul class="list">
        {said.map((call) => (
          <li key={call.id} class="row">
            <span class="grow">
              {lineOf(call)}
              <br />
              <span class="small soft">
                {t("call-by", { name: names?.get(call.payload.by)?.name ?? "", at: clockTime(call.payload.at) })}
              </span>
            </span>
          </li>
        ))}
      </ul>
      {asking ? (
        <CallForm at={at} party={called} onDone={() => setAsking(false)} />
      ) : (
        <button type="button" class="button" onClick={() => setAsking(true)}>
          {said.length === 0 ? t("call-party", { party: partyName(point.party) }) : t("call-again")}
        </button>
      )}
      {said.length > 0 && !answered && (
        <div class="pair">
          <button type="button" class="button" onClick={() => void keep(at, called, { answer: "coming" })}>
            {t(party === point.party ? "call-i-come" : "call-they-come")}
          </button>
          <button type="button" class="button" onClick={() => void keep(at, called, { answer: "waived" })}>
            {t(party === point.party ? "call-i-waive" : "call-they-waive")}
          </button>
        </div>
      )}
    </section>
  );
}

/** When and how they were called, or what they answered. */
function lineOf({ body }: Call): string {
  if (body.answer) return t("call-answer", { answer: word("answer", body.answer) });
  const values = { when: body.when ? clockTime(body.when) : "", how: word("way", body.how ?? "") };
  if (!body.when) return body.how ? t("call-called-how", values) : t("call-called");
  return body.how ? t("call-called-for-how", values) : t("call-called-for", values);
}

function CallForm({ at, party, onDone }: { at: At; party: Party; onDone: () => void }) {
  const [when, setWhen] = useState("");
  const [how, setHow] = useState<string>(WAYS[0]);
  const call = async () => {
    await keep(at, party, { when: when.replace("T", " "), how });
    onDone();
  };
  return (
    <form
      class="body"
      onSubmit={(event) => {
        event.preventDefault();
        void call();
      }}
    >
      <label class="field">
        {t("call-for-when")}
        <input type="datetime-local" value={when} onInput={(event) => setWhen(event.currentTarget.value)} />
      </label>
      <fieldset class="stations ways">
        <legend>{t("call-how")}</legend>
        {WAYS.map((one) => (
          <button key={one} type="button" class="station" aria-pressed={one === how} onClick={() => setHow(one)}>
            {word("way", one)}
          </button>
        ))}
      </fieldset>
      <button type="submit" class="button main" disabled={!when}>
        {t("call-record")} <span aria-hidden="true">›</span>
      </button>
    </form>
  );
}

async function keep(
  at: At,
  party: Party,
  more: { when?: string; how?: string; answer?: "coming" | "waived" },
): Promise<void> {
  const signer = me.value;
  if (!signer) return;
  const place = { piece: at.piece, step: at.step.code, found_by: foundBy.value };
  await added(await save(signer, at.job, { type: "call", ...place, body: { party, ...more } }));
  wake();
}
