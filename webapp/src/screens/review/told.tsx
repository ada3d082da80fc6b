/** What is said above the flags: what was signed just now, what came meanwhile, and that there are none. */
import { t } from "../../language";
import { Notice } from "../../parts/frame";
import { trouble } from "../../sync/loop";
import type { Flag } from "./asking";
import type { Signing } from "./signing";

/** What was signed, the word that was, and where: marks of pieces. */
export type Signed = Signing & { readonly word: string; readonly marks: string };

interface ToldProps {
  signing: Signed | null;
  /** Flags that came while the list was looked at. */
  came: readonly Flag[];
  /** Whether a flag that was asked for is no longer there. */
  lost: boolean;
  /** Back to a flag that was signed. */
  onBack: (id: string) => void;
}

export function Told({ signing, came, lost, onBack }: ToldProps) {
  const marks = [...new Set(came.map(({ piece }) => piece.mark))].join(", ");
  const says = [came.length > 0 && t("review-came", { count: came.length, marks }), lost && t("review-gone")];
  const more = says.filter(Boolean).join(" ");
  const done = signing && signing.done.length > 0;
  const only = signing?.done.length === 1 ? signing.done[0] : undefined;
  return (
    <div class="told-now">
      <p role="status">
        {done && <b>{signedText(signing)}</b>}
        {done && more && " "}
        {more}
      </p>
      {only && !trouble.value && (
        <button type="button" class="link" onClick={() => onBack(only)}>
          {t("review-signed-back", { marks: signing?.marks ?? "" })}
        </button>
      )}
      {signing?.failed.map(({ id, place, why }) => (
        <Notice key={id} kind="bad">
          {t("review-not-signed", { place, why })}
        </Notice>
      ))}
    </div>
  );
}

function signedText({ word, marks, done }: Signed): string {
  const values = { disposition: word, marks, count: done.length };
  return t(trouble.value ? "review-signed-here" : "review-signed", values);
}

export function Nothing({ state, filtered }: { state: string; filtered: boolean }) {
  if (filtered) return <p class="nothing">{t("review-none-left")}</p>;
  if (state !== "open") return <p class="nothing">{t("review-no-flags")}</p>;
  return (
    <div class="nothing">
      <p>
        <b>{t("review-all-decided")}</b>
      </p>
      <p class="soft">{t("review-all-decided-next")}</p>
    </div>
  );
}
