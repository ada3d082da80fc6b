/** What a code leads to, scanned or typed, by what this phone knows. */
import { ALPHABET, forgiven, forgivenSymbols, readLink, SYMBOLS } from "../core/tagcode";
import { findTag, gauges, jobList, openPiece } from "../store/jobs";
import { codeOf, isRetired } from "./codes";
import { idIn, meantBy } from "./stickers";

/** A message of the catalogue with its values. */
export interface Says {
  readonly id: string;
  readonly values?: Record<string, string | number>;
}

export type Led =
  | { readonly to: "piece"; readonly job: string; readonly piece: string }
  | { readonly to: "board"; readonly job: string }
  /** A tag that was replaced: its piece is known, and opened only on a word. */
  | { readonly to: "replaced"; readonly job: string; readonly piece: string; readonly says: Says }
  /** Nothing is wrong, and nothing to open. */
  | { readonly to: "told"; readonly says: Says }
  | { readonly to: "nothing"; readonly says: Says };

const nothing = (id: string, values?: Says["values"]): Led => ({
  to: "nothing",
  says: values ? { id, values } : { id },
});

/** Where the code of a tag leads. */
export async function byCode(code: string): Promise<Led> {
  const found = await findTag(code);
  if (!found) return nothing("scan-unknown", { code });
  const job = await openPiece(found.job, found.piece);
  if (!job || !isRetired(job, found.piece, code)) return { to: "piece", ...found };
  const mark = job.pieces.get(found.piece)?.mark ?? found.piece;
  const values = { code, mark, job: job.id, now: codeOf(job, found.piece) };
  return { to: "replaced", ...found, says: { id: "scan-replaced", values } };
}

/** Where a scanned text leads. host: this shop's, as the app was opened from it. */
export async function byText(text: string, host: string): Promise<Led> {
  const link = readLink(text);
  if (link) {
    const ours = link[0] === host || (await findTag(link[1])) !== null;
    return ours ? byCode(link[1]) : nothing("scan-other-shop", { host: link[0] });
  }
  const board = idIn(text, "j");
  if (board) return byBoard(board.id, board.host, host);
  const gauge = idIn(text, "g");
  return gauge ? byGauge(gauge.id) : nothing("scan-no-tag");
}

/** Where a job's board leads. Shops number their jobs alike, so another host's board opens nothing. */
export async function byBoard(written: string, from: string, host: string): Promise<Led> {
  if (from !== host) return nothing("scan-other-board", { host: from });
  const jobs = await jobList();
  const job = meantBy(
    written,
    jobs.map(({ id }) => id),
  );
  return job ? { to: "board", job } : nothing("scan-no-job", { job: written });
}

/** A gauge's sticker opens nothing by itself: it is scanned where the gauge is asked for. */
export async function byGauge(written: string): Promise<Led> {
  const all = await gauges();
  const id = meantBy(
    written,
    all.map((gauge) => gauge.id),
  );
  const gauge = all.find((one) => one.id === id);
  if (!gauge) return nothing("scan-no-gauge", { gauge: written });
  return { to: "told", says: { id: "scan-gauge", values: { gauge: gauge.id, name: gauge.name } } };
}

/** Why what was typed is no code: how many symbols it has, which of them none can have, or that they do not fit. */
export function whyNoCode(typed: string): Says {
  const plain = forgivenSymbols(typed);
  const odd = [...plain].filter((symbol) => !ALPHABET.includes(symbol));
  const values = { typed: typed.trim(), count: [...plain].length, asked: SYMBOLS + 1 };
  if (odd.length > 0) return { id: "scan-odd-symbol", values: { ...values, symbol: [...new Set(odd)].join(" ") } };
  if (values.count !== values.asked) return { id: "scan-wrong-length", values };
  return { id: "scan-no-fit", values };
}

/** Where a typed code leads. */
export async function byTyped(typed: string): Promise<Led> {
  const code = forgiven(typed);
  return code ? byCode(code) : { to: "nothing", says: whyNoCode(typed) };
}
