/** Unlock: pick a name, type the PIN; or enrol by an invitation. */
import { useState } from "preact/hooks";
import { ApiError, type Person, post } from "../api/client";
import { Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { enter, route } from "../state";
import type { StoredKey } from "../store/db";
import { setSetting, setting } from "../store/db";
import { deviceId, faultOfPin, keepKey, keysHere, makeKey, sign, unlock } from "../store/keys";

export function Unlock() {
  const keys = useLoaded(keysHere, []);
  const invitation = route.value[0] === "enrol" ? (route.value[1] ?? "") : "";
  const [enrolling, setEnrolling] = useState(invitation !== "");
  const [chosen, setChosen] = useState<StoredKey | null>(null);
  if (!keys) return null;
  const only = keys.length === 1 ? keys[0] : undefined;
  const key = chosen ?? only ?? null;
  return (
    <main class="screen">
      <div class="body">
        <h1>Seamtag</h1>
        {enrolling || keys.length === 0 ? (
          <Enrol invitation={invitation} />
        ) : key ? (
          <PinPad stored={key} />
        ) : (
          <ul class="list">
            {keys.map((one) => (
              <li key={one.kid}>
                <button type="button" class="row" onClick={() => setChosen(one)}>
                  <span class="grow">
                    <b>{one.name}</b>
                    <br />
                    <span class="small soft">{one.roles.join(", ")}</span>
                  </span>
                  ›
                </button>
              </li>
            ))}
          </ul>
        )}
        {keys.length > 0 && (
          <button type="button" class="button" onClick={() => (enrolling ? setEnrolling(false) : setEnrolling(true))}>
            {enrolling ? "Back to my name" : "I have an invitation"}
          </button>
        )}
      </div>
    </main>
  );
}

const WAITS = [0, 0, 0, 5, 15, 30, 60, 300];

function PinPad({ stored }: { stored: StoredKey }) {
  const [pin, setPin] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const attempt = async () => {
    setBusy(true);
    const name = `wrong ${stored.kid}`;
    const wrong = (await setting<{ count: number; at: number }>(name)) ?? { count: 0, at: 0 };
    const wait = (WAITS[Math.min(wrong.count, WAITS.length - 1)] ?? 0) * 1000 - (Date.now() - wrong.at);
    if (wait > 0) {
      setSays(`Wait ${Math.ceil(wait / 1000)} seconds, then try again.`);
    } else {
      const signer = await unlock(stored, pin);
      await setSetting(name, { count: signer ? 0 : wrong.count + 1, at: Date.now() });
      if (signer) return enter(signer);
      setSays("This is not the PIN. Nothing is lost by a wrong one; unsent records still go out.");
    }
    setPin("");
    setBusy(false);
  };
  return (
    <form
      class="body"
      onSubmit={(event) => {
        event.preventDefault();
        void attempt();
      }}
    >
      <h2>{stored.name}</h2>
      <label class="field">
        PIN
        <input
          type="password"
          inputMode="numeric"
          autocomplete="current-password"
          value={pin}
          onInput={(event) => setPin(event.currentTarget.value)}
        />
      </label>
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || pin.length < 6}>
        {busy ? "Unlocking" : "Unlock"} <span>›</span>
      </button>
    </form>
  );
}

function Enrol({ invitation }: { invitation: string }) {
  const [code, setCode] = useState(invitation);
  const [pin, setPin] = useState("");
  const [again, setAgain] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const enrol = async () => {
    const fault = faultOfPin(pin) || (pin === again ? "" : "The two PINs differ. Type them again.");
    if (fault) return setSays(fault);
    setBusy(true);
    setSays("");
    try {
      const made = await makeKey();
      const claim = { purpose: "enrol", invitation: code, device: await deviceId(), jwk: made.jwk };
      const proof = await sign(claim, made.kid, made.pair.privateKey);
      const { person } = await post<{ person: Person; kid: string }>("/keys", { proof });
      await keepKey(made, pin, person);
      const stored = (await keysHere()).find((one) => one.kid === made.kid);
      const signer = stored && (await unlock(stored, pin));
      if (signer) {
        location.hash = "/";
        enter(signer);
      }
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      const offline = error instanceof ApiError && error.status === 0;
      setSays(offline ? `${message} The first time needs a network; afterwards none is needed.` : message);
      setBusy(false);
    }
  };
  const secret = (label: string, value: string, set: (text: string) => void) => (
    <label class="field">
      {label}
      <input
        type="password"
        inputMode="numeric"
        autocomplete="new-password"
        value={value}
        onInput={(event) => set(event.currentTarget.value)}
      />
    </label>
  );
  return (
    <form
      class="body"
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
      {secret("PIN", pin, setPin)}
      {secret("PIN once more", again, setAgain)}
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || !code}>
        {busy ? "Making your key" : "Enrol this phone"} <span>›</span>
      </button>
    </form>
  );
}
