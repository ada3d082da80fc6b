/** One sign-off: what it covers in plain words, the sentence that is signed, and the PIN of who signs it. */
import { useState } from "preact/hooks";
import type { Party, Point } from "../core/records";
import { t } from "../language";
import { tell } from "../parts/feedback";
import { Notice } from "../parts/frame";
import { partyName } from "../parts/parties";
import { PinField } from "../parts/pin-field";
import { foundBy } from "../state";
import type { StoredKey } from "../store/db";
import { added } from "../store/jobs";
import { patiently, unlock } from "../store/keys";
import { NotSavedError, save } from "../store/records";
import { wake } from "../sync/loop";
import { Covered } from "./covered";
import type { At } from "./step";

/** A page signed in ink: the record and the hash of its photo, and who signed it. */
export interface InkPage {
  id: string;
  sha256: string;
  name: string;
}

/** The party itself signs, QC for one who did not come after notice, or QC over a page that the party signed in ink. */
export type Way = "present" | "absent" | InkPage;

interface SignFormProps {
  at: At;
  next: Point;
  stored: StoredKey;
  way: Way;
  onSigned: () => void;
}

/** By the key of the person whose PIN it is; who has unlocked the app stays who they are. */
export function SignForm({ at, next, stored, way, onSigned }: SignFormProps) {
  const [pin, setPin] = useState("");
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const body = bodyOf(at, next, way);
  const signIt = async () => {
    setBusy(true);
    setSays("");
    const signer = await patiently(stored, () => unlock(stored, pin));
    setPin("");
    if (typeof signer === "string") {
      setSays(t("sign-nothing-signed", { why: signer }));
      return setBusy(false);
    }
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
      <h2>{titleOf(next, way)}</h2>
      <p class="soft">{t("sign-signs", { name: stored.name })}</p>
      {next.point !== "sign" && <Covered at={at} ids={body.covers} />}
      <blockquote class="sentence">{body.sentence}</blockquote>
      <PinField label={t("sign-pin", { name: stored.name })} value={pin} onType={setPin} />
      {says && <Notice kind="bad">{says}</Notice>}
      <button type="submit" class="button main" disabled={busy || pin.length < 6}>
        {busy ? t("sign-busy") : t("sign-do")} <span aria-hidden="true">›</span>
      </button>
    </form>
  );
}

function titleOf(next: Point, way: Way): string {
  if (way === "absent") return t("sign-absent");
  return t(way === "present" ? "sign-for" : "ink-enter", { party: partyName(next.party) });
}

/** What the sign-off says. One in ink covers the photo of its page as well. */
function bodyOf(at: At, next: Point, way: Way) {
  const covered = at.job.progress.covered(at.piece, at.step.code);
  const covers = typeof way === "string" ? covered : [...covered, way.id];
  const call = at.job.progress.piece(at.piece).signing(at.step.code).callsTo(next.party).at(-1);
  return {
    party: next.party as Party,
    covers,
    attendance: way === "absent" ? ("not attended after notice" as const) : ("present" as const),
    sentence: sentenceOf(at, next, way, covers.length),
    ...(way === "absent" && call ? { call: call.id } : {}),
    ...(typeof way === "string" ? {} : { page: way.sha256 }),
  };
}

/** What is signed, word for word. */
function sentenceOf(at: At, next: Point, way: Way, count: number): string {
  const mark = at.job.progress.job.pieces.get(at.piece)?.mark ?? at.piece;
  const values = { number: at.step.number, mark, count, party: partyName(next.party) };
  if (next.point === "sign") return t("sign-sentence-made", values);
  if (typeof way !== "string") return t("ink-sentence", { ...values, name: way.name });
  return t(way === "absent" ? "sign-sentence-absent" : "sign-sentence-released", values);
}
