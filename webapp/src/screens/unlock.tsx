/** Unlock: pick a name, then the PIN or the badge; or enrol by an invitation. */
import { useEffect, useState } from "preact/hooks";
import { t, word } from "../language";
import { tell } from "../parts/feedback";
import { Notice, SentState } from "../parts/frame";
import { lazily } from "../parts/lazily";
import { PinField, PinKeys } from "../parts/pin-field";
import { useLoaded } from "../parts/use";
import { asleep, enter, linkTo, me, route } from "../state";
import type { StoredKey } from "../store/db";
import { shopName } from "../store/jobs";
import { keysHere, patiently, triedWrong, unlock } from "../store/keys";

const Enrol = lazily(() => import("./enrol").then((module) => module.Enrol));
const ScanBadge = lazily(() => import("./badge").then((module) => module.ScanBadge));

type Way = "pin" | "badge" | "forgotten" | "enrol";

export function Unlock() {
  const keys = useLoaded(keysHere, []);
  const shop = useLoaded(shopName, []);
  const [wanted, setWay] = useState<Way>(route.value[0] === "enrol" ? "enrol" : "pin");
  const [chosen, setChosen] = useState<StoredKey | "nobody" | null>(null);
  if (!keys) return null;
  const usable = keys.filter((key) => !key.replacedBy);
  const before = usable.find((key) => key.kid === me.value?.kid);
  const key = chosen === "nobody" ? undefined : (chosen ?? before ?? (usable.length === 1 ? usable[0] : undefined));
  const way: Way = usable.length === 0 ? "enrol" : wanted;
  return (
    <main class="screen">
      <header class="bar">
        <span>{shop || "Seamtag"}</span>
        <SentState />
      </header>
      <div class="body">
        {way === "enrol" && <Enrol />}
        {way === "forgotten" && <Forgotten onEnrol={() => setWay("enrol")} />}
        {way === "badge" && <ScanBadge keys={usable} />}
        {way === "pin" && (key ? <ByPin key={key.kid} stored={key} /> : <Names keys={usable} onChoose={setChosen} />)}
        {way === "pin" && usable.some((one) => one.badge) && (
          <button type="button" class="button" onClick={() => setWay("badge")}>
            {t("unlock-badge")}
          </button>
        )}
        {way === "pin" && key && usable.length > 1 && (
          <button type="button" class="button" onClick={() => setChosen("nobody")}>
            {t("unlock-somebody-else")}
          </button>
        )}
        {usable.length > 0 && (
          <button type="button" class="button" onClick={() => setWay(way === "pin" ? "enrol" : "pin")}>
            {t(way === "pin" ? "unlock-have-invitation" : "unlock-back")}
          </button>
        )}
        {way === "pin" && key && (
          <div class="pair">
            <a class="button" href={linkTo("pin", key.kid)}>
              {t("unlock-change-pin")}
            </a>
            <button type="button" class="button" onClick={() => setWay("forgotten")}>
              {t("unlock-forgotten")}
            </button>
          </div>
        )}
        {way === "pin" && <OldKeys keys={keys} />}
      </div>
    </main>
  );
}

export function rolesOf(roles: readonly string[]): string {
  return roles.map((role) => word("role", role)).join(", ");
}

function Names({ keys, onChoose }: { keys: StoredKey[]; onChoose: (key: StoredKey) => void }) {
  return (
    <section class="body bare">
      <h1>{t("unlock-who")}</h1>
      <ul class="list">
        {keys.map((one) => (
          <li key={one.kid}>
            <button type="button" class="row" onClick={() => onChoose(one)}>
              <span class="grow">
                <b>{one.name}</b>
                <br />
                <span class="small soft">{rolesOf(one.roles)}</span>
              </span>
              ›
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Keys whose PIN was forgotten: their records still go out, but nobody signs with them. */
function OldKeys({ keys }: { keys: StoredKey[] }) {
  const old = keys.filter((key) => key.replacedBy);
  if (old.length === 0) return null;
  return (
    <ul class="list" aria-label={t("unlock-old-keys")}>
      {old.map((one) => (
        <li key={one.kid} class="row small soft">
          <span class="grow">{t("unlock-old-key", { name: one.name, count: one.seq })}</span>
        </li>
      ))}
    </ul>
  );
}

function ByPin({ stored }: { stored: StoredKey }) {
  const [pin, setPin] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const [wait, setWait] = useSeconds(stored);
  const attempt = async () => {
    setBusy(true);
    const found = await patiently(stored, () => unlock(stored, pin)).catch(() => t("unlock-no-store"));
    if (typeof found !== "string") return enter(found);
    tell("bad");
    setSays(t("unlock-not", { says: found }));
    setWait((await triedWrong(stored)).wait);
    setPin("");
    setBusy(false);
  };
  const ready = !busy && wait === 0 && pin.length >= 6;
  return (
    <form
      class="body bare"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) void attempt();
      }}
    >
      <div>
        <h1>{stored.name}</h1>
        <p class="soft">{rolesOf(stored.roles)}</p>
      </div>
      {asleep.value && <Asleep mine={stored.kid === me.value?.kid} />}
      <input
        class="hidden-input"
        autocomplete="username"
        value={stored.name}
        readOnly
        tabIndex={-1}
        aria-hidden="true"
      />
      <PinField label={t("pin")} value={pin} onType={setPin} first />
      {says && <Notice kind="bad">{says}</Notice>}
      {wait > 0 && <p>{t("unlock-next-try", { seconds: wait })}</p>}
      <PinKeys value={pin} onType={setPin} doWord={t(busy ? "unlock-busy" : "unlock-do")} disabled={!ready} />
    </form>
  );
}

function Asleep({ mine }: { mine: boolean }) {
  return <Notice kind={mine ? "" : "care"}>{t(mine ? "unlock-asleep" : "unlock-asleep-other")}</Notice>;
}

/** The seconds that are still to wait, counted down before one's eyes. */
function useSeconds(stored: StoredKey): [number, (seconds: number) => void] {
  const [wait, setWait] = useState(0);
  useEffect(() => {
    void triedWrong(stored).then((tried) => setWait(tried.wait));
  }, [stored]);
  useEffect(() => {
    if (wait <= 0) return;
    const timer = setTimeout(() => setWait(wait - 1), 1000);
    return () => clearTimeout(timer);
  }, [wait]);
  return [wait, setWait];
}

function Forgotten({ onEnrol }: { onEnrol: () => void }) {
  return (
    <>
      <h1>{t("forgotten")}</h1>
      <p>{t("forgotten-why")}</p>
      <ol class="steps">
        <li>{t("forgotten-ask")}</li>
        <li>{t("forgotten-enrol")}</li>
      </ol>
      <p>{t("forgotten-kept")}</p>
      <button type="button" class="button main" onClick={onEnrol}>
        {t("unlock-have-invitation")} <span>›</span>
      </button>
    </>
  );
}
