/** What a decision is called, and which decisions are none: of a doubt it is only said that it was seen. */
import type { Disposition } from "../../core/records";
import { FINDINGS } from "../../core/standing";
import type { Decided } from "./asking";
import { saidAbout } from "./words";

/** Whether a doubt was seen and nothing was decided about a finding. */
export function onlySeen({ flag, disposition }: Decided): boolean {
  return disposition === "use as is" && !FINDINGS.includes(flag);
}

/** The word as people read it: of a doubt that it was seen, or is done again. */
export function wordOf({ flag, disposition }: Pick<Decided, "flag" | "disposition">): string {
  return saidAbout(flag, disposition as Disposition);
}
