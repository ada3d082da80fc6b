/** How a flag stands that is open no more: what was decided about it, and whether that has effect yet. */
import type { Disposition } from "../../core/records";
import { listed, t, word } from "../../language";
import { Notice } from "../../parts/frame";
import { partyName } from "../../parts/parties";
import { useLoaded } from "../../parts/use";
import { callSignedIn } from "../../sync/loop";
import type { Decided, OpenedFlag } from "./asking";
import type { SignedWord } from "./signing";
import { isFinding, saidWord } from "./words";

/** The decision that stands about a flag; null where it cannot be had or is carried out. */
async function decisionOf({ job, disposition }: OpenedFlag): Promise<Decided | null> {
  const path = `/decisions?which=open&job=${encodeURIComponent(job)}`;
  const all = await callSignedIn<Decided[]>(path).catch(() => []);
  return all.find(({ id }) => id === disposition) ?? null;
}

export function Settled({ state, opened }: { state: string; opened: OpenedFlag | undefined }) {
  const waits = opened && state === "decided" ? opened : null;
  const marks = waits?.history.map(({ id }) => id).join(" ");
  const decision = useLoaded(async () => waits && decisionOf(waits), [waits?.disposition, marks]);
  const said = opened?.history.find(({ id }) => id === opened.disposition);
  if (!opened || !said || (waits && decision === undefined)) {
    return <p class="soft">{t("decide-closed", { state: word("flag", state) })}</p>;
  }
  const doubt = !isFinding(opened.kind);
  const disposition = saidWord(said.says as Disposition, doubt);
  if (!waits) {
    const values = { state: word("flag", state), disposition, person: said.by, reason: said.note };
    return <p class="soft">{t("decide-closed-by", values)}</p>;
  }
  const what = decision?.ncr ? t("review-rework-ncr", { disposition, ncr: decision.ncr }) : disposition;
  // Where the server cannot be asked who has agreed, all whom the plan names are.
  const needed = said.says === "use as is" && !doubt ? opened.agree : [];
  const lacking = decision ? decision.lacking : needed;
  return (
    <>
      <Notice kind="care">{standsHow(what, decision, lacking)}</Notice>
      <p class="small">{t("decide-said", { person: said.by, reason: said.note })}</p>
    </>
  );
}

function standsHow(what: string, decision: Decided | null | undefined, lacking: readonly string[]): string {
  const parties = listed(lacking.map(partyName));
  if (lacking.length > 0) return t("decide-waits", { what, parties, count: lacking.length });
  return t(decision?.state === "to do" ? "decide-to-do" : "decide-decided", { what });
}

/** A word that was signed on this device, and that the server's answer does not know of yet. */
export function SignedHere({ word: { what }, doubt }: { word: SignedWord; doubt: boolean }) {
  return <Notice kind="care">{t("decide-signed-here", { disposition: saidWord(what, doubt) })}</Notice>;
}
