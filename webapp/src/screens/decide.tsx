/** A disposition: a signed record, made by the supervisor at a flag. */
import { useEffect, useState } from "preact/hooks";
import type { OpenedFlag } from "../api/client";
import type { Disposition } from "../core/records";
import { locale, t, word } from "../language";
import { Notice } from "../parts/frame";
import { partyName } from "../parts/parties";
import { me } from "../state";
import { added, openJob } from "../store/jobs";
import { save } from "../store/records";
import { trouble, wake } from "../sync/loop";

const CHOICES: [string, Disposition][] = [
  ["1", "rework"],
  ["2", "repair"],
  ["3", "use as is"],
  ["4", "scrap"],
];

/** Names joined as people here join them: 'engineering and the Authorized Inspector'. */
function listed(names: readonly string[]): string {
  return new Intl.ListFormat(locale(), { type: "conjunction" }).format(names);
}

function focusOnce(field: HTMLTextAreaElement | null): void {
  field?.focus();
}

export function Decide({ flag, onDone }: { flag: OpenedFlag; onDone: () => void }) {
  const [choice, setChoice] = useState<Disposition | null>(null);
  const [reason, setReason] = useState("");
  const [ncr, setNcr] = useState("");
  const [says, setSays] = useState("");
  const supervisor = me.value?.roles.includes("supervisor");
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return;
      const found = CHOICES.find(([key]) => key === event.key);
      if (found) setChoice(found[1]);
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  }, []);
  if (flag.state !== "open") return <p class="soft">{t("decide-closed", { state: word("flag", flag.state) })}</p>;
  if (!supervisor) return <p class="soft">{t("decide-supervisor")}</p>;
  const decide = async () => {
    const signer = me.value;
    const job = await openJob(flag.job);
    if (!signer || !choice) return;
    if (!job || !flag.record) return setSays(t("decide-no-job", { job: flag.job }));
    const about = {
      records: [flag.record],
      flag: flag.kind,
      verdict: flag.verdict,
      ...(flag.basis ? { plan: flag.basis.plan } : {}),
    };
    const cycle = choice === "repair" ? { cycle: (flag.repairs ?? 0) + 1 } : {};
    const body = {
      about,
      disposition: choice,
      reason: reason.trim(),
      ...(ncr.trim() ? { ncr: ncr.trim() } : {}),
      ...cycle,
    };
    await added(
      await save(signer, job, { type: "disposition", piece: flag.piece.id, found_by: "list", body, under: [] }),
    );
    setSays(t(trouble.value ? "decide-saved-here" : "decide-saved"));
    wake();
    setTimeout(onDone, 300);
  };
  return (
    <form
      class="body"
      onSubmit={(event) => {
        event.preventDefault();
        void decide();
      }}
    >
      <div class="pair">
        {CHOICES.map(([key, value]) => (
          <button
            key={value}
            type="button"
            class={choice === value ? "button main" : "button"}
            aria-pressed={choice === value}
            onClick={() => setChoice(value)}
          >
            <span class="begins">{word("disposition", value)}</span> <span class="key">{key}</span>
          </button>
        ))}
      </div>
      {choice === "use as is" && flag.agree.length > 0 && (
        <p class="small">
          {t("decide-agree", { parties: listed(flag.agree.map(partyName)), binds: word("binds", flag.item.binds) })}
        </p>
      )}
      {choice && (
        <>
          <label class="field">
            {t("decide-reason")}
            <textarea ref={focusOnce} value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
          </label>
          <label class="field">
            {t("decide-ncr")}
            <input value={ncr} onInput={(event) => setNcr(event.currentTarget.value)} />
          </label>
          <button type="submit" class="button main" disabled={reason.trim().length < 3}>
            {t("decide-sign", { disposition: word("disposition", choice) })} <span>›</span>
          </button>
        </>
      )}
      {says && <Notice>{says}</Notice>}
    </form>
  );
}
