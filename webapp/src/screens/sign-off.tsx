/** The sign-off: what it covers in plain words, what is still open, the sentence that is signed, and the PIN. */
import { useState } from "preact/hooks";
import { type Party, type Point, speakingRoles } from "../core/records";
import { t, word } from "../language";
import { tell } from "../parts/feedback";
import { Notice } from "../parts/frame";
import { partyName } from "../parts/parties";
import { PinField } from "../parts/pin-field";
import { useLoaded } from "../parts/use";
import { foundBy, me } from "../state";
import type { StoredKey } from "../store/db";
import { added } from "../store/jobs";
import { keysHere, patiently, unlock } from "../store/keys";
import { NotSavedError, save } from "../store/records";
import { wake } from "../sync/loop";
import { Covered } from "./covered";
import { InInk, InkPages } from "./in-ink";
import type { At } from "./step";

/** Who come from outside the shop: they may be called, sign on the shop's phone, or sign in ink. */
const OUTSIDE: readonly string[] = ["AI", "customer"];

/** So many open items are named; of more, only how many they are. */
const MOST_NAMED = 3;

export function SignOff({ at }: { at: At }) {
  const [other, setOther] = useState<StoredKey | null>(null);
  const [choosing, setChoosing] = useState(false);
  const [signedBy, setSignedBy] = useState("");
  const keys = useLoaded(keysHere, []);
  const signing = at.job.progress.piece(at.piece).signing(at.step.code);
  const next: Point | undefined = signing.outstanding()[0];
  const own = keys?.find((key) => key.kid === me.value?.kid);
  if (!keys || !me.value) return null;
  const thanks = signedBy && <Notice>{t("sign-signed-by", { name: signedBy, me: me.value.name })}</Notice>;
  if (!next) {
    return (
      <>
        {thanks}
        <InkPages at={at} />
        <Notice>{t("sign-released")}</Notice>
      </>
    );
  }
  const key = other ?? own;
  const way = key ? wayOf(at, next, key.roles) : "";
  const close = () => {
    setOther(null);
    setChoosing(false);
  };
  return (
    <section class="sign" aria-label={t("sign")}>
      {thanks}
      <InkPages at={at} />
      <NextToSign at={at} next={next} />
      {key && way && isReady(at, next) && (
        <SignForm
          key={`${key.kid} ${next.party} ${next.point}`}
          at={at}
          next={next}
          stored={key}
          absent={way === "absent"}
          onSigned={() => {
            setSignedBy(other ? other.name : "");
            close();
          }}
        />
      )}
      {other && !way && (
        <Notice kind="bad">{t("sign-has-no-role", { name: other.name, party: partyName(next.party) })}</Notice>
      )}
      {choosing && !other && <Names keys={keys} onChoose={setOther} />}
      {isReady(at, next) && (
        <button type="button" class="button" onClick={() => (other || choosing ? close() : setChoosing(true))}>
          {other || choosing ? t("sign-back-to-me", { name: me.value.name }) : t("sign-somebody-else")}
        </button>
      )}
      {isReady(at, next) && OUTSIDE.includes(next.party) && <InInk at={at} party={next.party as Party} />}
    </section>
  );
}

type Way = "" | "present" | "absent";

/** How somebody with these roles may sign next: for the party itself, or as QC for one who did not come after notice. */
function wayOf(at: At, next: Point, roles: readonly string[]): Way {
  if (holds(at, next, roles, "present")) return "present";
  const called = at.job.progress.piece(at.piece).signing(at.step.code).callsTo(next.party).length > 0;
  const outside = next.point === "W" && OUTSIDE.includes(next.party) && called;
  return outside && holds(at, next, roles, "not attended after notice") ? "absent" : "";
}

function holds(
  at: At,
  next: Point,
  roles: readonly string[],
  attendance: "present" | "not attended after notice",
): boolean {
  const body = { party: next.party as Party, covers: [], attendance };
  const wanted = speakingRoles({ type: "sign-off", body } as unknown as Parameters<typeof speakingRoles>[0], at.step);
  return wanted?.some((role) => roles.includes(role)) ?? false;
}

/** The maker may always say that the work is done; everybody else signs over what is complete. */
function isReady(at: At, next: Point): boolean {
  return next.point === "sign" || at.job.progress.step(at.piece, at.step.code).state === "complete";
}

/** Who signs next, or what is still open before anybody can. */
function NextToSign({ at, next }: { at: At; next: Point }) {
  if (isReady(at, next)) return <p class="soft">{t("sign-next", { party: partyName(next.party) })}</p>;
  const { items } = at.job.progress.step(at.piece, at.step.code);
  const open = at.step.items.filter((item) => !["met", "not asked"].includes(items.get(item.code)?.state ?? ""));
  const names = open.map((item) => item.name ?? item.code);
  const values = { count: open.length, party: partyName(next.party), items: names.slice(0, MOST_NAMED).join(", ") };
  return <p class="soft">{t(open.length > MOST_NAMED ? "sign-items-open-many" : "sign-items-open", values)}</p>;
}

/** The names of the keys on this phone, but for mine. */
function Names({ keys, onChoose }: { keys: readonly StoredKey[]; onChoose: (key: StoredKey) => void }) {
  const others = keys.filter((key) => !key.replacedBy && key.person !== me.value?.person);
  if (others.length === 0) return <Notice>{t("sign-nobody-else")}</Notice>;
  return (
    <ul class="list" aria-label={t("sign-who")}>
      {others.map((one) => (
        <li key={one.kid}>
          <button type="button" class="row" onClick={() => onChoose(one)}>
            <span class="grow">
              <b>{one.name}</b>
              <br />
              <span class="small soft">{one.roles.map((role) => word("role", role)).join(", ")}</span>
            </span>
            <span aria-hidden="true">›</span>
          </button>
        </li>
      ))}
    </ul>
  );
}

interface SignFormProps {
  at: At;
  next: Point;
  stored: StoredKey;
  absent: boolean;
  onSigned: () => void;
}

/** One sign-off by the key of the person whose PIN it is; who has unlocked the app stays who they are. */
function SignForm({ at, next, stored, absent, onSigned }: SignFormProps) {
  const [pin, setPin] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const covers = at.job.progress.covered(at.piece, at.step.code);
  const making = next.point === "sign";
  const sentence = sentenceOf(at, next, absent, covers.length);
  const call = at.job.progress.piece(at.piece).signing(at.step.code).callsTo(next.party).at(-1);
  const signIt = async () => {
    setBusy(true);
    setSays("");
    const signer = await patiently(stored, () => unlock(stored, pin));
    setPin("");
    if (typeof signer === "string") {
      setSays(t("sign-nothing-signed", { why: signer }));
      return setBusy(false);
    }
    const attendance = absent ? ("not attended after notice" as const) : ("present" as const);
    const named = absent && call ? { call: call.id } : {};
    const body = { party: next.party as Party, covers, attendance, sentence, ...named };
    const place = { piece: at.piece, step: at.step.code, found_by: foundBy.value };
    try {
      await added(await save(signer, at.job, { type: "sign-off", ...place, body }));
    } catch (error) {
      setBusy(false);
      if (error instanceof NotSavedError) return;
      throw error;
    }
    tell("good");
    wake();
    onSigned();
  };
  return (
    <form
      class="body bare"
      onSubmit={(event) => {
        event.preventDefault();
        void signIt();
      }}
    >
      <h2>{absent ? t("sign-absent") : t("sign-for", { party: partyName(next.party) })}</h2>
      <p class="soft">{t("sign-signs", { name: stored.name })}</p>
      {!making && <Covered at={at} ids={covers} />}
      <blockquote class="sentence">{sentence}</blockquote>
      <PinField label={t("sign-pin", { name: stored.name })} value={pin} onType={setPin} />
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || pin.length < 6}>
        {busy ? t("sign-busy") : t("sign-do")} <span aria-hidden="true">›</span>
      </button>
    </form>
  );
}

/** What is signed, word for word. */
function sentenceOf(at: At, next: Point, absent: boolean, count: number): string {
  const mark = at.job.progress.job.pieces.get(at.piece)?.mark ?? at.piece;
  const values = { number: at.step.number, mark, count };
  if (next.point === "sign") return t("sign-sentence-made", values);
  return absent
    ? t("sign-sentence-absent", { ...values, party: partyName(next.party) })
    : t("sign-sentence-released", values);
}
