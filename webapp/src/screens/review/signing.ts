/** Dispositions signed on this browser: one record a flag, whatever was said of several at once. */
import { signal } from "@preact/signals";
import type { Bodies, Disposition } from "../../core/records";
import { FINDINGS } from "../../core/standing";
import { t } from "../../language";
import { withStore } from "../../store/db";
import { added, type OpenJob, openJob } from "../../store/jobs";
import type { Signer } from "../../store/keys";
import { save } from "../../store/records";
import { wake } from "../../sync/loop";
import type { Flag } from "./asking";
import { isFinding, placeText } from "./words";

/** What is said of one flag or of several. again: codes of steps to inspect again. */
export interface Word {
  readonly what: Disposition;
  readonly reason: string;
  readonly ncr: string;
  readonly extent: string;
  readonly again: readonly string[];
}

/** What must be known of a flag before a word on it is signed. */
export interface Known {
  readonly flag: Flag;
  /** Null where this device does not carry the job. */
  readonly job: OpenJob | null;
  /** Whether the plan wants another than its recorder to decide, and the recorder is the one who is here. */
  readonly own: boolean;
  /** Who must agree to 'use as is'. */
  readonly agree: readonly string[];
  /** The number that a repair would have. */
  readonly cycle: number;
  /** Marks of all that the piece is part of. */
  readonly wholes: readonly string[];
}

export async function knownOf(flag: Flag, person: string): Promise<Known> {
  const job = await openJob(flag.job);
  if (!job) return { flag, job, own: false, agree: [], cycle: 1, wholes: [] };
  const { plan, pieces } = job.progress.job;
  return {
    flag,
    job,
    own: isOwn(job, flag, person),
    agree: FINDINGS.includes(flag.kind) ? (plan.agree?.[flag.item.binds || "shop"] ?? []) : [],
    cycle: job.progress.piece(flag.piece.id).nextRepair(flag.record),
    wholes: job.progress.job.wholes(flag.piece.id).map((id) => pieces.get(id)?.mark ?? id),
  };
}

function isOwn(job: OpenJob, flag: Flag, person: string): boolean {
  const place = { piece: flag.piece.id, step: "", item: "", station: "", ...placeOf(job, flag) };
  const { standing } = job.progress.piece(flag.piece.id);
  return standing.isOwn(person, [flag.record], place, job.progress.job.basis.plan);
}

/** A word about a value worked out names the place of that value, since its record is only one of the readings. */
export function placeOf(job: OpenJob, flag: Flag): { step?: string; item?: string; station?: string } {
  const { step, item, station } = flag;
  const derived = isFinding(flag.kind) && job.progress.job.item(step.code, item.code)?.kind === "derived";
  return derived ? { step: step.code, item: item.code, ...(station ? { station } : {}) } : {};
}

function bodyOf({ flag, job, cycle }: Known, said: Word): Bodies["disposition"] {
  const plan = job?.progress.job.basis.plan;
  const about = {
    records: [flag.record],
    flag: flag.kind,
    ...(flag.verdict ? { verdict: flag.verdict } : {}),
    ...(plan ? { plan } : {}),
  };
  const asksNew = said.what === "rework" || said.what === "repair";
  return {
    about,
    disposition: said.what,
    reason: said.reason.trim(),
    ...(said.ncr.trim() ? { ncr: said.ncr.trim() } : {}),
    ...(said.extent.trim() ? { extent: said.extent.trim() } : {}),
    ...(asksNew && said.again.length > 0 ? { again: said.again } : {}),
    ...(said.what === "repair" ? { cycle } : {}),
  };
}

export interface SignedWord {
  readonly record: string;
  readonly what: Disposition;
  readonly arrived: boolean;
}

/** Flags with a word signed here that the server's list does not know of yet, and the record that holds it. */
export const signed = signal<ReadonlyMap<string, SignedWord>>(new Map());

/** The id of the record made. */
async function signOne(signer: Signer, known: Known, said: Word): Promise<string> {
  const { flag, job, own } = known;
  if (!job) throw new Error(t("decide-no-job", { job: flag.job }));
  if (own) throw new Error(t("decide-own"));
  const where = { piece: flag.piece.id, found_by: "list" as const, under: [], ...placeOf(job, flag) };
  const record = await save(signer, job, { type: "disposition", ...where, body: bodyOf(known, said) });
  await added(record);
  return record.id;
}

export interface Signing {
  readonly done: readonly string[];
  /** What could not be signed: where, and why. */
  readonly failed: readonly { readonly id: string; readonly place: string; readonly why: string }[];
}

/** Sign a word on each flag. What fails keeps its place and says why; the rest is signed all the same. */
export async function signAll(
  signer: Signer,
  flags: readonly Flag[],
  said: Word,
  onEach: (count: number) => void,
): Promise<Signing> {
  const [done, failed]: [string[], { id: string; place: string; why: string }[]] = [[], []];
  // Before the first is signed: of one repair at two places of a piece, both are of the same cycle.
  const all = await Promise.all(flags.map((flag) => knownOf(flag, signer.person)));
  const made: [string, SignedWord][] = [];
  for (const known of all) {
    const { id } = known.flag;
    try {
      made.push([id, { record: await signOne(signer, known, said), what: said.what, arrived: false }]);
      done.push(id);
    } catch (error) {
      failed.push({ id, place: placeText(known.flag), why: error instanceof Error ? error.message : String(error) });
    }
    onEach(done.length + failed.length);
  }
  // All at once: no line goes from under whoever is about to press the next key.
  signed.value = new Map([...signed.value, ...made]);
  wake();
  return { done, failed };
}

/**
 * Forget words that the server has by now. They are kept for one more answer of its after that, since the one that is
 * here may be older than they are; what it did not take in is forgotten at once, and its flag is open again.
 */
export async function forgetArrived(): Promise<void> {
  const all = [...signed.value];
  if (all.length === 0) return;
  const records = await withStore((db) => Promise.all(all.map(([, { record }]) => db.get("records", record))));
  const next = new Map(signed.value);
  for (const [place, [id, one]] of all.entries()) {
    const state = records[place]?.state ?? "received";
    if (state === "saved") continue;
    if (one.arrived || state !== "received") next.delete(id);
    else next.set(id, { ...one, arrived: true });
  }
  signed.value = next;
}
