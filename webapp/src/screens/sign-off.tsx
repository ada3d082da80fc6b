/** The sign-off: what it covers in plain words, what is still open, the sentence that is signed, and the PIN. */
import { useState } from "preact/hooks";
import type { Point } from "../core/records";
import { Notice } from "../parts/frame";
import { partyName, partyOf } from "../parts/parties";
import { useLoaded } from "../parts/use";
import { foundBy, me } from "../state";
import { added, people } from "../store/jobs";
import { keysHere, patiently, unlock } from "../store/keys";
import { save } from "../store/records";
import { wake } from "../sync/loop";
import type { At } from "./step";

export function SignOff({ at }: { at: At }) {
  const [pin, setPin] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const signing = at.job.progress.piece(at.piece).signing(at.step.code);
  const state = at.job.progress.step(at.piece, at.step.code);
  const next: Point | undefined = signing.outstanding()[0];
  const party = partyOf(me.value?.roles ?? []);
  if (!next) return <Notice>Released. What is recorded here from now on is shown to the supervisor.</Notice>;
  const met = state.state === "complete";
  const call = signing.callsTo(next.party).at(-1);
  const absent = next.point === "W" && party === "QC" && next.party !== "QC" && call !== undefined;
  if (next.party !== party && !absent) {
    return <p class="soft">Next to sign: {partyName(next.party)}.</p>;
  }
  const covers = at.job.progress.covered(at.piece, at.step.code);
  const making = next.point === "sign";
  const mark = at.job.progress.job.pieces.get(at.piece)?.mark ?? "";
  const sentence = making
    ? `The work of step ${at.step.number} at ${mark} is done.`
    : absent
      ? `Step ${at.step.number} at ${mark}: ${partyName(next.party)} was called and did not attend. I go on, on the ${covers.length} records listed.`
      : `I release step ${at.step.number} at ${mark}, on the ${covers.length} records listed.`;
  const signIt = async () => {
    setBusy(true);
    setSays("");
    const stored = (await keysHere()).find((key) => key.kid === me.value?.kid);
    const signer = stored ? await patiently(stored, () => unlock(stored, pin)) : "Your key is not on this phone.";
    setPin("");
    setBusy(false);
    if (typeof signer === "string") return setSays(`${signer} Nothing was signed.`);
    const attendance = absent ? ("not attended after notice" as const) : ("present" as const);
    const body = { party: next.party as "QC", covers, attendance, sentence, ...(absent ? { call: call.id } : {}) };
    await added(
      await save(signer, at.job, {
        type: "sign-off",
        piece: at.piece,
        step: at.step.code,
        found_by: foundBy.value,
        body,
      }),
    );
    wake();
  };
  if (!making && !met) {
    const open = [...state.items].filter(([, item]) => !["met", "not asked"].includes(item.state)).length;
    return <p class="soft">{open} items are open before you can sign.</p>;
  }
  return (
    <form
      class="body"
      onSubmit={(event) => {
        event.preventDefault();
        void signIt();
      }}
    >
      <h2>{absent ? "Not attended after notice" : `Sign for ${partyName(party)}`}</h2>
      <p>{sentence}</p>
      {!making && <Covered at={at} ids={covers} />}
      <label class="field">
        PIN
        <input
          type="password"
          inputMode="numeric"
          autocomplete="off"
          value={pin}
          onInput={(event) => setPin(event.currentTarget.value)}
        />
      </label>
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || pin.length < 6}>
        {busy ? "Signing" : "Sign"} <span>›</span>
      </button>
    </form>
  );
}

/** What a signature covers, in the words and numbers of the records. */
function Covered({ at, ids }: { at: At; ids: readonly string[] }) {
  const names = useLoaded(people, []);
  const items = new Map(at.step.items.map((item) => [item.code, item]));
  const lines = ids.flatMap((id) => {
    const one = at.job.progress.records.get(id);
    if (!one) return [];
    const item = items.get(one.place.item)?.name ?? one.type;
    return [{ id, item, place: one.place.station, says: saysOf(one.body), by: names?.get(one.payload.by)?.name ?? "" }];
  });
  return (
    <details class="covered">
      <summary>The {lines.length} records it covers</summary>
      <ul class="list">
        {lines.map((line) => (
          <li key={line.id} class="row">
            <span class="grow">
              {line.item}
              {line.place && ` · ${line.place}`}
              <br />
              <span class="small soft">{line.by}</span>
            </span>
            <b>{line.says}</b>
          </li>
        ))}
      </ul>
    </details>
  );
}

function saysOf(body: object): string {
  const { entered, uom, result, value, layer, number, sha256, disposition, reason } = body as Record<string, string>;
  if (entered) return `${entered} ${uom ?? ""}`;
  if (sha256) return "photo";
  return result ?? value ?? layer ?? number ?? disposition ?? reason ?? "";
}
