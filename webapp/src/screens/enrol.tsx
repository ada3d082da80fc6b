/** Enrol: by a one-time invitation, a new key is made on this phone. */
import { useState } from "preact/hooks";
import { ApiError, type Person, post } from "../api/client";
import { Notice } from "../parts/frame";
import { PinField } from "../parts/pin-field";
import { enter, route } from "../state";
import { deviceId, faultOfPin, keepKey, keysHere, makeKey, sign, unlock } from "../store/keys";
import { askToKeep } from "../store/room";

/** Make a key, have the server enrol it, and keep it; the person is let in. */
async function enrolled(code: string, pin: string): Promise<void> {
  const made = await makeKey();
  const claim = { purpose: "enrol", invitation: code, device: await deviceId(), jwk: made.jwk };
  const proof = await sign(claim, made.kid, made.pair.privateKey);
  const { person } = await post<{ person: Person; kid: string }>("/keys", { proof });
  await keepKey(made, pin, person);
  void askToKeep();
  const stored = (await keysHere()).find((one) => one.kid === made.kid);
  const signer = stored && (await unlock(stored, pin));
  if (!signer) throw new Error("The key could not be kept on this phone. Ask for a new invitation, and try again.");
  location.hash = "/";
  enter(signer);
}

/** The invitation may stand in the address: #/enrol/CODE. */
export function Enrol() {
  const [code, setCode] = useState(route.value[0] === "enrol" ? (route.value[1] ?? "") : "");
  const [pin, setPin] = useState("");
  const [again, setAgain] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const enrol = async () => {
    const fault = faultOfPin(pin) || (pin === again ? "" : "The two PINs differ. Type them again.");
    setSays(fault);
    if (fault) return;
    setBusy(true);
    try {
      await enrolled(code, pin);
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      const offline = error instanceof ApiError && error.status === 0;
      setSays(offline ? `${message} The first time needs a network; afterwards none is needed.` : message);
      setBusy(false);
    }
  };
  return (
    <form
      class="body bare"
      onSubmit={(event) => {
        event.preventDefault();
        void enrol();
      }}
    >
      <p>
        Type the invitation you were given, and choose a PIN of six digits or more. The PIN stays on this phone: the
        server never learns it.
      </p>
      <label class="field">
        Invitation
        <input
          autocomplete="off"
          autocapitalize="characters"
          value={code}
          onInput={(event) => setCode(event.currentTarget.value)}
        />
      </label>
      <PinField label="PIN" value={pin} onType={setPin} fresh />
      <PinField label="PIN once more" value={again} onType={setAgain} fresh />
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || !code}>
        {busy ? "Making your key" : "Enrol this phone"} <span>›</span>
      </button>
    </form>
  );
}
