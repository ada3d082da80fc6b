/** Enrol: by a one-time invitation, a new key is made on this phone. */
import { useState } from "preact/hooks";
import { ApiError, type Person, post } from "../api/client";
import { t } from "../language";
import { tell } from "../parts/feedback";
import { Notice } from "../parts/frame";
import { type Invitation, readInvitation } from "../parts/invitation";
import { PinField } from "../parts/pin-field";
import { Finder } from "../scan/finder";
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
  if (!signer) throw new Error(t("enrol-not-kept"));
  location.hash = "/";
  enter(signer);
}

/** The invitation may stand in the address: #/enrol/CODE. */
export function Enrol() {
  const [code, setCode] = useState(route.value[0] === "enrol" ? (route.value[1] ?? "") : "");
  const [host, setHost] = useState("");
  const [scanning, setScanning] = useState(false);
  const found = (invitation: Invitation) => {
    setCode(invitation.code);
    setHost(invitation.host);
    setScanning(false);
  };
  const elsewhere = host && host !== location.host.toLowerCase();
  return (
    <div class="body bare">
      <h1>{t("enrol")}</h1>
      {scanning ? (
        <ScanInvitation onFound={found} onLeave={() => setScanning(false)} />
      ) : (
        <>
          <p>{t("enrol-says")}</p>
          <button type="button" class={code ? "button" : "button main"} onClick={() => setScanning(true)}>
            {t(code ? "enrol-scan-another" : "enrol-scan")} {!code && <span>›</span>}
          </button>
          {elsewhere && <Notice kind="care">{t("enrol-elsewhere", { host, here: location.host })}</Notice>}
          <ByCode code={code} onCode={setCode} />
        </>
      )}
    </div>
  );
}

function ScanInvitation(given: { onFound: (invitation: Invitation) => void; onLeave: () => void }) {
  const [unread, setUnread] = useState(false);
  const follow = (text: string) => {
    const invitation = readInvitation(text);
    tell(invitation ? "found" : "bad");
    setUnread(!invitation);
    if (invitation) given.onFound(invitation);
  };
  return (
    <>
      <Finder onText={follow} />
      {unread && <Notice kind="bad">{t("enrol-no-invitation")}</Notice>}
      <button type="button" class="button" onClick={given.onLeave}>
        {t("enrol-stop-scanning")}
      </button>
    </>
  );
}

function ByCode({ code, onCode }: { code: string; onCode: (code: string) => void }) {
  const [pin, setPin] = useState("");
  const [again, setAgain] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const enrol = async () => {
    const fault = faultOfPin(pin) || (pin === again ? "" : t("pin-differ"));
    setSays(fault);
    if (fault) return;
    setBusy(true);
    try {
      await enrolled(code, pin);
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      const offline = error instanceof ApiError && error.status === 0;
      setSays(offline ? t("enrol-needs-network", { says: message }) : message);
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
      <label class="field">
        {t("enrol-invitation")}
        <input
          class="code"
          autocomplete="off"
          autocapitalize="characters"
          spellcheck={false}
          value={code}
          onInput={(event) => onCode(event.currentTarget.value)}
        />
      </label>
      <PinField label={t("pin")} value={pin} onType={setPin} fresh />
      <PinField label={t("pin-again")} value={again} onType={setAgain} fresh />
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || !code}>
        {t(busy ? "enrol-busy" : "enrol-do")} <span>›</span>
      </button>
    </form>
  );
}
