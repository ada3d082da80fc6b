/** The codes of a piece's tags. More than one only where a tag was replaced by one with another code. */
import type { Judged } from "../core/judging";
import type { OpenJob } from "../store/jobs";

/**
 * Whether a code is out of use: the office replaced it, or a record says that its tag was replaced and another code of
 * the piece took its place.
 */
export function isRetired(job: OpenJob, piece: string, code: string): boolean {
  if (job.retired.has(code)) return true;
  const inUse = codesOf(job, piece).filter((one) => !job.retired.has(one));
  return inUse.length > 1 && lastDone(job, piece, code)?.body.what === "replaced";
}

/** The code on a piece's tag; '' where it has none. */
export function codeOf(job: OpenJob, piece: string): string {
  const codes = codesOf(job, piece);
  return codes.find((code) => !isRetired(job, piece, code)) ?? codes[0] ?? "";
}

function codesOf(job: OpenJob, piece: string): string[] {
  return [...job.tags].filter(([, tagged]) => tagged === piece).map(([code]) => code);
}

/** The last that was done with the tag that has this code. */
export function lastDone(job: OpenJob, piece: string, code: string): Judged<"tagging"> | null {
  const own = job.progress.piece(piece);
  const about = own.records
    .filter((record): record is Judged<"tagging"> => record.type === "tagging")
    .filter((record) => record.body.code === code);
  return about.filter((record) => !own.standing.voids.has(record.id)).at(-1) ?? null;
}
