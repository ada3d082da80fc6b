/** The sign-off: what it covers in plain words, what is still open, the sentence that is signed, and the PIN. */
import { useState } from "preact/hooks";
import type { Point } from "../core/records";
import { Notice } from "../parts/frame";
import { partyName, partyOf } from "../parts/parties";
import { foundBy, me } from "../state";
import { added } from "../store/jobs";
import { keysHere, unlock } from "../store/keys";
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
  if (next.party !== party) {
    return <p class="soft">Next to sign: {partyName(next.party)}.</p>;
  }
  const covers = at.job.progress.covered(at.piece, at.step.code);
  const making = next.point === "sign";
  const mark = at.job.progress.job.pieces.get(at.piece)?.mark ?? "";
  const sentence = making
    ? `The work of step ${at.step.number} at ${mark} is done.`
    : `I release step ${at.step.number} at ${mark}, on the ${covers.length} records listed.`;
  const signIt = async () => {
    setBusy(true);
    setSays("");
    const stored = (await keysHere()).find((key) => key.kid === me.value?.kid);
    const signer = stored ? await unlock(stored, pin) : null;
    setPin("");
    setBusy(false);
    if (!signer) return setSays("This is not the PIN. Nothing was signed.");
    const body = { party: next.party as "QC", covers, attendance: "present" as const, sentence };
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
      <h2>Sign for {partyName(party)}</h2>
      <p>{sentence}</p>
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
