/** Something written off the piece, such as a heat or lot number, in a large field. */
import { useState } from "preact/hooks";
import type { Why } from "../core/records";
import { t } from "../language";
import { asStamped } from "../parts/stamped";
import { WhyAgain } from "../parts/why-again";
import { NotSavedError } from "../store/records";
import { type EntryProps, mine, record } from "./item";

export function TextEntry({ at, item, onDone }: EntryProps) {
  const [typed, setTyped] = useState("");
  const [why, setWhy] = useState<Why | "">("");
  const before = mine(at, item, "");
  const value = asStamped(typed);
  const keep = async () => {
    try {
      await record(at, item, "text", { value }, before && why ? { replaces: before, why } : {});
    } catch (error) {
      if (error instanceof NotSavedError) return;
      throw error;
    }
    setTyped("");
    setWhy("");
    const asked = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.photoMissing;
    if (!asked) onDone();
  };
  return (
    <form
      class="body bare tight"
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      {item.where && <p>{item.where}</p>}
      <label class="field stamped">
        {t("text-as-stamped")}
        <input
          aria-label={item.name ?? item.code}
          autocapitalize="characters"
          autocomplete="off"
          autocorrect="off"
          spellcheck={false}
          enterkeyhint="done"
          value={typed}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </label>
      <p class="small soft" role="status">
        {value !== typed.trim() && t("text-saved-as", { value })}
      </p>
      {before && value && <WhyAgain at={at} before={before} why={why} onWhy={setWhy} />}
      <button type="submit" class="button main" disabled={!value || Boolean(before && !why)}>
        {before && value && !why ? t("text-choose-why") : t("text-save")} <span aria-hidden="true">›</span>
      </button>
    </form>
  );
}
