/** Words begun at flags and not signed yet: kept while the same person works here, and never shown to another. */
import { signal } from "@preact/signals";
import type { Disposition } from "../../core/records";
import { me } from "../../state";
import type { Word } from "./signing";

/** A word that may not be chosen yet. */
export type Draft = Omit<Word, "what"> & { readonly what: Disposition | null };

export const EMPTY: Draft = { what: null, reason: "", ncr: "", extent: "", again: [] };

const drafts = new Map<string, Draft>();
let owner = "";

/** Ids of flags at which something was written and not signed. */
export const begun = signal<ReadonlySet<string>>(new Set());

function tell(): void {
  const same = drafts.size === begun.value.size && [...drafts.keys()].every((id) => begun.value.has(id));
  if (!same) begun.value = new Set(drafts.keys());
}

me.subscribe((signer) => {
  const person = signer?.person ?? "";
  if (person === owner) return;
  owner = person;
  drafts.clear();
  tell();
});

function isEmpty({ reason, ncr, extent, again }: Draft): boolean {
  return !reason.trim() && !ncr.trim() && !extent.trim() && again.length === 0;
}

/** What was begun at the first of these flags at which anything was. */
export function draftOf(ids: readonly string[]): Draft | undefined {
  return ids.map((id) => drafts.get(id)).find(Boolean);
}

/** Keep what is written for these flags now in place of what it was; where another reason was begun, that one stays. */
export function keep(ids: readonly string[], was: Draft, now: Draft): void {
  for (const id of ids) {
    const kept = drafts.get(id);
    if (kept && kept !== was && kept !== now) continue;
    if (isEmpty(now)) drafts.delete(id);
    else drafts.set(id, now);
  }
  tell();
}

export function forget(ids: readonly string[]): void {
  for (const id of ids) drafts.delete(id);
  tell();
}
