/** Codes that are no tag of a piece: a gauge's sticker, `HTTPS://HOST/G/ID`, and a job's board, `HTTPS://HOST/J/ID`. */
import { strip } from "../core/text";

/** Letters, figures, points and hyphens stand as they are; anything else of an id is written as %XX. */
const LINK = /^https?:\/\/([^/ \t\n\r\f\v]+)\/([gj])\/([0-9a-z.%-]+)$/i;

export interface Sticker {
  readonly host: string;
  readonly id: string;
}

/** Host and id of a code's text, the id in capitals; null where it is none of this kind. */
export function idIn(text: string, kind: "g" | "j"): Sticker | null {
  const [, host = "", letter = "", written = ""] = LINK.exec(strip(text)) ?? [];
  if (letter.toLowerCase() !== kind) return null;
  try {
    return { host: host.toLowerCase(), id: decodeURIComponent(written).toUpperCase() };
  } catch {
    return null;
  }
}

/** The one of these ids that a code means: its capitals do not tell case. */
export function meantBy(written: string, ids: readonly string[]): string | null {
  return ids.find((id) => id === written) ?? ids.find((id) => id.toUpperCase() === written) ?? null;
}
