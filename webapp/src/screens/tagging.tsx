/** Where a piece's tag is: put on, taken off for heat or blast, back on, gone inside, replaced. */
import { useState } from "preact/hooks";
import type { Tagging } from "../core/records";
import { t, word } from "../language";
import { codeOf, lastDone } from "../scan/codes";
import { foundBy, me } from "../state";
import { added, type OpenJob } from "../store/jobs";
import { save } from "../store/records";
import { wake } from "../sync/loop";

/** What can be done with a tag, and for what where that is asked. */
interface Deed {
  readonly what: Tagging;
  readonly why?: "heat" | "blast";
  readonly says: string;
}

const PUT_ON: Deed = { what: "put on", says: "tagging-do-put-on" };
const OFF: readonly Deed[] = [
  { what: "taken off", why: "heat", says: "tagging-do-taken-off-heat" },
  { what: "taken off", why: "blast", says: "tagging-do-taken-off-blast" },
];
const BACK_ON: Deed = { what: "back on", says: "tagging-do-back-on" };
const INSIDE: Deed = { what: "gone inside", says: "tagging-do-gone-inside" };
const REPLACED: Deed = { what: "replaced", says: "tagging-do-replaced" };

const NEXT: Readonly<Record<string, readonly Deed[]>> = {
  "": [PUT_ON],
  "put on": [...OFF, INSIDE, REPLACED],
  "taken off": [BACK_ON, INSIDE, REPLACED],
  "back on": [...OFF, INSIDE, REPLACED],
  "gone inside": [],
  replaced: [...OFF, INSIDE, REPLACED],
};

export function stateWords(what: string, why: string): string {
  if (what === "") return t("tagging-not-yet");
  if (what === "taken off" && (why === "heat" || why === "blast")) return t(`tagging-off-${why}`);
  return word("tag", what);
}

export function TagLine({ job, piece }: { job: OpenJob; piece: string }) {
  const [asking, setAsking] = useState(false);
  const code = codeOf(job, piece);
  const last = lastDone(job, piece, code);
  const next = NEXT[last?.body.what ?? ""] ?? [];
  const state = stateWords(last?.body.what ?? "", last?.body.why ?? "");
  const keep = async ({ what, why }: Deed) => {
    const signer = me.value;
    if (!signer) return;
    const body = { code, what, ...(why ? { why } : {}) };
    await added(await save(signer, job, { type: "tagging", piece, found_by: foundBy.value, body, under: [] }));
    wake();
    setAsking(false);
  };
  if (!code) return <p class="small soft">{t("tagging-none")}</p>;
  if (asking && next.length > 0) {
    return (
      <fieldset class="choices">
        <legend class="tag-asked">{t("tagging-ask", { code, state })}</legend>
        {next.map((deed) => (
          <button key={deed.says} type="button" class="button" onClick={() => void keep(deed)}>
            {t(deed.says)}
          </button>
        ))}
        <button type="button" class="button" onClick={() => setAsking(false)}>
          {t("tagging-leave")}
        </button>
      </fieldset>
    );
  }
  return (
    <p class="row plain">
      <span class="grow small">
        {t("tagging-code")} <b>{code}</b> · {state}
      </span>
      {next.length > 0 && (
        <button type="button" class="link" onClick={() => setAsking(true)}>
          {t("tagging-change")}
        </button>
      )}
    </p>
  );
}
