/** The badge: one's own, added to or taken off the key on this phone; and the way in by it. */
import { useState } from "preact/hooks";
import { locale, t } from "../language";
import { tell } from "../parts/feedback";
import { Frame, Notice } from "../parts/frame";
import { PinField, PinKeys } from "../parts/pin-field";
import { useLoaded } from "../parts/use";
import { Finder } from "../scan/finder";
import { enter, linkTo, me } from "../state";
import { addBadge, secretOf, takeOffBadge, unlockByBadge } from "../store/badges";
import type { StoredKey } from "../store/db";
import { keysHere, patiently } from "../store/keys";

type Secret = NonNullable<ReturnType<typeof secretOf>>;

/** Lets in whose badge is held before the camera. */
export function ScanBadge({ keys }: { keys: readonly StoredKey[] }) {
  const [says, setSays] = useState("");
  const follow = async (text: string) => {
    const secret = secretOf(text);
    const signer = secret && (await unlockByBadge(keys, secret));
    if (signer) {
      tell("found");
      return enter(signer);
    }
    tell("bad");
    setSays(t(secret ? "badge-opens-nothing" : "badge-is-none"));
  };
  return (
    <section class="body bare">
      <h1>{t("unlock-badge")}</h1>
      <Finder onText={(text) => void follow(text)} />
      {says && <Notice kind="bad">{says}</Notice>}
    </section>
  );
}

/** Of whoever has unlocked. */
export function BadgeScreen() {
  const [turn, setTurn] = useState(0);
  const [says, setSays] = useState("");
  const [adding, setAdding] = useState(false);
  const keys = useLoaded(keysHere, [turn]);
  const stored = keys?.find((key) => key.kid === me.value?.kid);
  if (!keys || !stored) return null;
  const done = (what: string) => {
    setSays(what);
    setAdding(false);
    setTurn(turn + 1);
  };
  return (
    <Frame back={linkTo("")}>
      <div class="body">
        <h1>{t("badge")}</h1>
        {says && !adding && <Notice>{says}</Notice>}
        {adding ? (
          <Adding keys={keys} stored={stored} onDone={() => done(t("badge-added"))} onLeave={() => setAdding(false)} />
        ) : (
          <Standing stored={stored} onAdd={() => setAdding(true)} onTakenOff={() => done(t("badge-taken-off"))} />
        )}
      </div>
    </Frame>
  );
}

/** Whether there is one, and what can be done about it. */
function Standing(given: { stored: StoredKey; onAdd: () => void; onTakenOff: () => void }) {
  const { badge } = given.stored;
  const takeOff = async () => {
    await takeOffBadge(given.stored);
    given.onTakenOff();
  };
  return (
    <>
      <p>{badge ? t("badge-since", { date: dateOf(badge.since) }) : t("badge-none-here")}</p>
      <ul class="points">
        <li>{t("badge-possession")}</li>
        <li>{t("badge-still-pin")}</li>
        <li>{t("badge-lost")}</li>
      </ul>
      {!badge && (
        <button type="button" class="button main" onClick={given.onAdd}>
          {t("badge-scan")} <span>›</span>
        </button>
      )}
      {badge && (
        <button type="button" class="button" onClick={given.onAdd}>
          {t("badge-another")}
        </button>
      )}
      {badge && (
        <button type="button" class="button" onClick={() => void takeOff()}>
          {t("badge-take-off")}
        </button>
      )}
    </>
  );
}

function dateOf(milliseconds: number): string {
  return new Date(milliseconds).toLocaleDateString(locale(), { dateStyle: "medium" });
}

/** First the badge, then the PIN, once. */
function Adding(given: { keys: readonly StoredKey[]; stored: StoredKey; onDone: () => void; onLeave: () => void }) {
  const { keys, stored, onDone, onLeave } = given;
  const [secret, setSecret] = useState<Secret | null>(null);
  const [says, setSays] = useState("");
  const follow = async (text: string) => {
    const found = secretOf(text);
    const others = keys.filter((key) => key.person !== stored.person);
    const taken = found && (await unlockByBadge(others, found));
    const fault = found ? (taken ? t("badge-of-another", { name: taken.name }) : "") : t("badge-is-none");
    tell(fault ? "bad" : "found");
    setSays(fault);
    if (!fault) setSecret(found);
  };
  return (
    <>
      {secret ? (
        <AskPin stored={stored} secret={secret} onDone={onDone} />
      ) : (
        <Finder onText={(text) => void follow(text)} />
      )}
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="button" class="button" onClick={onLeave}>
        {t("badge-leave")}
      </button>
    </>
  );
}

function AskPin({ stored, secret, onDone }: { stored: StoredKey; secret: Secret; onDone: () => void }) {
  const [pin, setPin] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const add = async () => {
    setBusy(true);
    const found = await patiently(stored, () => addBadge(stored, pin, secret)).catch(() => t("badge-not-kept"));
    setBusy(false);
    setPin("");
    if (typeof found !== "string") return onDone();
    tell("bad");
    setSays(found);
  };
  return (
    <form
      class="body bare"
      onSubmit={(event) => {
        event.preventDefault();
        if (!busy && pin.length >= 6) void add();
      }}
    >
      <p>{t("badge-ask-pin", { name: stored.name })}</p>
      <PinField label={t("pin")} value={pin} onType={setPin} first />
      {says && <Notice kind="bad">{says}</Notice>}
      <PinKeys value={pin} onType={setPin} doWord={t("badge-add")} disabled={busy || pin.length < 6} />
    </form>
  );
}
