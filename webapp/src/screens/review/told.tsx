/** What is said above the flags: what was signed just now, what came meanwhile, and that there are none. */
import { t } from "../../language";
import { Notice } from "../../parts/frame";
import { trouble } from "../../sync/loop";
import type { Flag } from "./asking";
import type { Signing } from "./signing";

/** What was signed, and the word that was. */
export type Signed = Signing & { readonly word: string };

interface ToldProps {
  signing: Signed | null;
  /** Flags that came while the list was looked at. */
  came: readonly Flag[];
}

export function Told({ signing, came }: ToldProps) {
  const marks = [...new Set(came.map(({ piece }) => piece.mark))].join(", ");
  return (
    <div class="told-now">
      <p role="status">
        {signing && signing.done.length > 0 && (
          <>
            <b class="signed-word">{t("review-signed", { disposition: signing.word, count: signing.done.length })}</b>{" "}
            {t(trouble.value ? "decide-saved-here" : "decide-saved")}{" "}
          </>
        )}
        {came.length > 0 && t("review-came", { count: came.length, marks })}
      </p>
      {signing?.failed.map(({ id, place, why }) => (
        <Notice key={id} kind="bad">
          {t("review-not-signed", { place, why })}
        </Notice>
      ))}
    </div>
  );
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
