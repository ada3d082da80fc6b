/** Unlock: pick a name, type the PIN; or enrol by an invitation. */
import { useState } from "preact/hooks";
import { Notice, SentState } from "../parts/frame";
import { lazily } from "../parts/lazily";
import { PinField } from "../parts/pin-field";
import { useLoaded } from "../parts/use";
import { enter, linkTo, route } from "../state";
import type { StoredKey } from "../store/db";
import { shopName } from "../store/jobs";
import { keysHere, patiently, unlock } from "../store/keys";

const Enrol = lazily(() => import("./enrol").then((module) => module.Enrol));

type Way = "pin" | "forgotten" | "enrol";

export function Unlock() {
  const keys = useLoaded(keysHere, []);
  const shop = useLoaded(shopName, []);
  const [wanted, setWay] = useState<Way>(route.value[0] === "enrol" ? "enrol" : "pin");
  const [chosen, setChosen] = useState<StoredKey | null>(null);
  if (!keys) return null;
  const usable = keys.filter((key) => !key.replacedBy);
  const key = chosen ?? (usable.length === 1 ? usable[0] : undefined);
  const way: Way = usable.length === 0 ? "enrol" : wanted;
  return (
    <main class="screen">
      <header class="bar">
        <span>{shop}</span>
        <SentState />
      </header>
      <div class="body">
        <h1>Seamtag</h1>
        {way === "enrol" && <Enrol />}
        {way === "forgotten" && <Forgotten onEnrol={() => setWay("enrol")} />}
        {way === "pin" && !key && <Names keys={usable} onChoose={setChosen} />}
        {way === "pin" && key && <PinPad key={key.kid} stored={key} onForgotten={() => setWay("forgotten")} />}
        {way === "pin" && key && usable.length > 1 && (
          <button type="button" class="button" onClick={() => setChosen(null)}>
            I am somebody else
          </button>
        )}
        {usable.length > 0 && (
          <button type="button" class="button" onClick={() => setWay(way === "pin" ? "enrol" : "pin")}>
            {way === "pin" ? "I have an invitation" : "Back to my name"}
          </button>
        )}
        {way === "pin" && <OldKeys keys={keys} />}
      </div>
    </main>
  );
}

function Names({ keys, onChoose }: { keys: StoredKey[]; onChoose: (key: StoredKey) => void }) {
  return (
    <ul class="list">
      {keys.map((one) => (
        <li key={one.kid}>
          <button type="button" class="row" onClick={() => onChoose(one)}>
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
  );
}

/** Keys whose PIN was forgotten: their records still go out, but nobody signs with them. */
function OldKeys({ keys }: { keys: StoredKey[] }) {
  const old = keys.filter((key) => key.replacedBy);
  if (old.length === 0) return null;
  return (
    <ul class="list" aria-label="Keys no longer usable">
      {old.map((one) => (
        <li key={one.kid} class="row small soft">
          <span class="grow">
            {one.name}: an earlier key, no longer usable. What was signed with it is kept and goes out: {one.seq}{" "}
            {one.seq === 1 ? "record" : "records"}.
          </span>
        </li>
      ))}
    </ul>
  );
}

function PinPad({ stored, onForgotten }: { stored: StoredKey; onForgotten: () => void }) {
  const [pin, setPin] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const attempt = async () => {
    setBusy(true);
    const found = await patiently(stored, () => unlock(stored, pin));
    if (typeof found !== "string") return enter(found);
    setSays(`${found} Nothing is lost by a wrong one; unsent records still go out.`);
    setPin("");
    setBusy(false);
  };
  return (
    <form
      class="body bare"
      onSubmit={(event) => {
        event.preventDefault();
        void attempt();
      }}
    >
      <h2>{stored.name}</h2>
      <PinField label="PIN" value={pin} onType={setPin} />
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || pin.length < 6}>
        {busy ? "Unlocking" : "Unlock"} <span>›</span>
      </button>
      <div class="pair">
        <a class="button" href={linkTo("pin", stored.kid)}>
          Change PIN
        </a>
        <button type="button" class="button" onClick={onForgotten}>
          PIN forgotten
        </button>
      </div>
    </form>
  );
}

function Forgotten({ onEnrol }: { onEnrol: () => void }) {
  return (
    <>
      <h2>PIN forgotten</h2>
      <p>Nobody can bring a PIN back: it never left this phone. So you get a new key.</p>
      <ol class="steps">
        <li>Ask your supervisor or planner for a new invitation.</li>
        <li>Enrol with it on this phone, and choose a new PIN.</li>
      </ol>
      <p>Nothing is erased. What you have signed stays on this phone until it is sent, and goes out by itself.</p>
      <button type="button" class="button main" onClick={onEnrol}>
        I have an invitation <span>›</span>
      </button>
    </>
  );
}
