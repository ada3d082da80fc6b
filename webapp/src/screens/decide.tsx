/** A disposition: a signed record, made by the supervisor at a flag. */
import { useEffect, useState } from "preact/hooks";
import type { OpenedFlag } from "../api/client";
import type { Disposition } from "../core/records";
import { Notice } from "../parts/frame";
import { partyName } from "../parts/parties";
import { me } from "../state";
import { added, openJob } from "../store/jobs";
import { save } from "../store/records";
import { trouble, wake } from "../sync/loop";

const CHOICES: [string, Disposition, string][] = [
  ["1", "rework", "Rework"],
  ["2", "repair", "Repair"],
  ["3", "use as is", "Use as is"],
  ["4", "scrap", "Scrap"],
];

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
  if (flag.state !== "open") return <p class="soft">This flag is {flag.state}.</p>;
  if (!supervisor) return <p class="soft">A supervisor decides what becomes of it.</p>;
  const decide = async () => {
    const signer = me.value;
    const job = await openJob(flag.job);
    if (!signer || !choice) return;
    if (!job || !flag.record)
      return setSays(`Job ${flag.job} is not on this device yet. Wait until it is fetched, then try again.`);
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
    setSays(trouble.value ? "Saved on this device; it goes out when the server is back." : "Signed and saved.");
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
        {CHOICES.map(([key, value, label]) => (
          <button
            key={value}
            type="button"
            class={choice === value ? "button main" : "button"}
            aria-pressed={choice === value}
            onClick={() => setChoice(value)}
          >
            {label} <span class="key">{key}</span>
          </button>
        ))}
      </div>
      {choice === "use as is" && flag.agree.length > 0 && (
        <p class="small">
          Has effect only when {flag.agree.map(partyName).join(" and ")} agree: the limit binds by {flag.item.binds}.
        </p>
      )}
      {choice && (
        <>
          <label class="field">
            Reason
            <textarea ref={focusOnce} value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
          </label>
          <label class="field">
            NCR number, if there is one
            <input value={ncr} onInput={(event) => setNcr(event.currentTarget.value)} />
          </label>
          <button type="submit" class="button main" disabled={reason.trim().length < 3}>
            Sign: {choice} <span>›</span>
          </button>
        </>
      )}
      {says && <Notice>{says}</Notice>}
    </form>
  );
}
