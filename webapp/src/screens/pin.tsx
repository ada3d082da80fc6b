/** A new PIN in place of the old one. The key itself stays, and so does everything signed with it. */
import { useState } from "preact/hooks";
import { Frame, Notice } from "../parts/frame";
import { PinField } from "../parts/pin-field";
import { useLoaded } from "../parts/use";
import { linkTo, me, route } from "../state";
import type { StoredKey } from "../store/db";
import { changePin, faultOfPin, keysHere, patiently } from "../store/keys";

/** Of the key that the address names; of whoever has unlocked where it names none. */
export function PinScreen() {
  const keys = useLoaded(keysHere, []);
  const wanted = route.value[1] || me.value?.kid;
  const stored = keys?.find((key) => key.kid === wanted && !key.replacedBy);
  if (!keys) return null;
  return (
    <Frame title={me.value ? "My work" : "Unlock"} back={linkTo("")}>
      <div class="body">
        <h1>Change the PIN</h1>
        {stored ? <Change stored={stored} /> : <Notice kind="bad">Go back and choose your name first.</Notice>}
      </div>
    </Frame>
  );
}

function Change({ stored }: { stored: StoredKey }) {
  const [old, setOld] = useState("");
  const [fresh, setFresh] = useState("");
  const [again, setAgain] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const [done, setDone] = useState(false);
  const change = async () => {
    const same = fresh === old ? "The new PIN is the old one. Choose another." : "";
    const fault = same || faultOfPin(fresh) || (fresh === again ? "" : "The two new PINs differ. Type them again.");
    setSays(fault);
    if (fault) return;
    setBusy(true);
    const found = await patiently(stored, () => changePin(stored, old, fresh)).catch(
      () => "The new PIN could not be kept. The old one still holds.",
    );
    setBusy(false);
    setOld("");
    if (typeof found === "string") return setSays(`${found} The PIN was not changed.`);
    setDone(true);
  };
  if (done) {
    return (
      <>
        <Notice>The PIN is changed. From now on only the new one opens your key on this phone.</Notice>
        <a class="button main" href={linkTo("")}>
          Done <span>›</span>
        </a>
      </>
    );
  }
  return (
    <form
      class="body bare"
      onSubmit={(event) => {
        event.preventDefault();
        void change();
      }}
    >
      <p>
        {stored.name}. What you have signed stays as it is. The PIN never leaves this phone, so on another phone yours
        stays the old one.
      </p>
      <PinField label="Old PIN" value={old} onType={setOld} />
      <PinField label="New PIN, six digits or more" value={fresh} onType={setFresh} fresh />
      <PinField label="New PIN once more" value={again} onType={setAgain} fresh />
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || old.length < 6 || !fresh || !again}>
        {busy ? "Changing" : "Change the PIN"} <span>›</span>
      </button>
    </form>
  );
}
