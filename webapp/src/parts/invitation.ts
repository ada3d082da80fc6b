/** What an invitation's symbol or address says. */
import { ALPHABET, forgivenSymbols } from "../core/tagcode";

const SYMBOLS = 12;
const ADDRESS = /^https?:\/\/([^/\s]+)\/#\/enrol\/([^/?#\s]+)$/i;

/** The code in four groups of three, as it is printed; null where it cannot be one. */
function codeOf(text: string): string | null {
  const symbols = forgivenSymbols(text);
  const fits = symbols.length === SYMBOLS && [...symbols].every((symbol) => ALPHABET.includes(symbol));
  return fits ? (symbols.match(/.{3}/g) ?? []).join("-") : null;
}

/** host is '' where only the code was given. */
export interface Invitation {
  readonly host: string;
  readonly code: string;
}

/** What was scanned, the whole address or the bare code; null where it is no invitation. */
export function readInvitation(text: string): Invitation | null {
  const address = ADDRESS.exec(text.trim());
  const code = codeOf(address?.[2] ?? text);
  return code ? { host: address?.[1]?.toLowerCase() ?? "", code } : null;
}
