/** The sign-off of a step: who signs next and what is still open, on whose key, and what was signed in ink. */
import { useState } from "preact/hooks";
import { OUTSIDE, type Party, type Point, speakingRoles } from "../core/records";
import { t, word } from "../language";
import { Notice } from "../parts/frame";
import { partyName } from "../parts/parties";
import { useLoaded } from "../parts/use";
import { me } from "../state";
import type { StoredKey } from "../store/db";
import { keysHere } from "../store/keys";
import { InInk, InkPages, mayEnter } from "./in-ink";
import { SignForm } from "./sign-form";
import type { At } from "./step";

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
  const inInk = isReady(at, next) && OUTSIDE.includes(next.party);
  const close = () => {
    setOther(null);
    setChoosing(false);
  };
  const signed = () => {
    setSignedBy(other ? other.name : "");
    close();
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
          way={way}
          onSigned={signed}
        />
      )}
      {other && !way && !(inInk && mayEnter(other)) && (
        <Notice kind="bad">{t("sign-has-no-role", { name: other.name, party: partyName(next.party) })}</Notice>
      )}
      {choosing && !other && <Names keys={keys} onChoose={setOther} />}
      {isReady(at, next) && (
        <button type="button" class="button" onClick={() => (other || choosing ? close() : setChoosing(true))}>
          {other || choosing ? t("sign-back-to-me", { name: me.value.name }) : t("sign-somebody-else")}
        </button>
      )}
      {inInk && <InInk key={next.party} at={at} next={next} stored={key} onSigned={signed} />}
    </section>
  );
}

/** How somebody with these roles may sign next: for the party itself, or as QC for one who did not come after notice. */
function wayOf(at: At, next: Point, roles: readonly string[]): "" | "present" | "absent" {
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
