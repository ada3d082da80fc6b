/** A new PIN in place of the old one. The key itself stays, and so does everything signed with it. */
import { useState } from "preact/hooks";
import { t } from "../language";
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
    <Frame title={t(me.value ? "frame-my-work" : "unlock-do")} back={linkTo("")}>
      <div class="body">
        <h1>{t("pin-change")}</h1>
        {stored ? <Change stored={stored} /> : <Notice kind="bad">{t("pin-whose")}</Notice>}
        {stored && stored.kid === me.value?.kid && (
          <a class="button" href={linkTo("badge")}>
            {t("badge-to")}
          </a>
        )}
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
    const same = fresh === old ? t("pin-same") : "";
    const fault = same || faultOfPin(fresh) || (fresh === again ? "" : t("pin-new-differ"));
    setSays(fault);
    if (fault) return;
    setBusy(true);
    const found = await patiently(stored, () => changePin(stored, old, fresh)).catch(() => t("pin-not-kept"));
    setBusy(false);
    setOld("");
    if (typeof found === "string") return setSays(t("pin-not-changed", { says: found }));
    setDone(true);
  };
  if (done) {
    return (
      <>
        <Notice>{t(stored.badge ? "pin-changed-badge" : "pin-changed")}</Notice>
        <a class="button main" href={linkTo("")}>
          {t("pin-done")} <span>›</span>
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
      <p>{t("pin-change-says", { name: stored.name })}</p>
      <PinField label={t("pin-old")} value={old} onType={setOld} first />
      <PinField label={t("pin-new")} value={fresh} onType={setFresh} fresh />
      <PinField label={t("pin-new-again")} value={again} onType={setAgain} fresh />
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || old.length < 6 || !fresh || !again}>
        {t(busy ? "pin-changing" : "pin-change")} <span>›</span>
      </button>
    </form>
  );
}
