/** The code on a QR tag: six symbols of Crockford's base 32 and a check symbol by ISO/IEC 7064 MOD 37-2. */

import { BLANK, strip } from "./text";

export const ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
/** The character set of MOD 37-2; the check symbol may fall on any of these. */
export const VALUES = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*";
export const UNWANTED = "ILOU*";
export const SYMBOLS = 6;

const LINK = /^https?:\/\/([^/ \t\n\r\f\v]+)\/t\/([0-9a-z*]+)\/?$/i;
const LOOSE = new RegExp(`[${BLANK}-]`, "g");

/** The check symbol of a string. Source: ISO/IEC 7064, pure system MOD 37-2 (radix 2). */
export function checkSymbol(symbols: string): string {
  let total = 0;
  for (const symbol of symbols) {
    const value = VALUES.indexOf(symbol);
    if (value < 0) throw new RangeError(`'${symbol}' is no symbol of a code`);
    total = ((total + value) * 2) % 37;
  }
  return VALUES.charAt((1 - total + 37) % 37);
}

/** Whether a text is a code: seven symbols of the alphabet, of which the last fits the others. */
export function isCode(code: string): boolean {
  return (
    code.length === SYMBOLS + 1 &&
    [...code].every((symbol) => ALPHABET.includes(symbol)) &&
    checkSymbol(code.slice(0, SYMBOLS)) === code[SYMBOLS]
  );
}

/** The code of a number below 32**6; null where its check symbol would be one that is easily misread. */
export function codeOf(number: number): string | null {
  let symbols = "";
  let rest = number;
  for (let place = 0; place < SYMBOLS; place += 1) {
    symbols = ALPHABET.charAt(rest % 32) + symbols;
    rest = Math.floor(rest / 32);
  }
  const check = checkSymbol(symbols);
  return UNWANTED.includes(check) ? null : symbols + check;
}

/** The symbols that were meant by what was typed: O is 0, I and L are 1, case, blanks and dashes do not matter. */
export function forgivenSymbols(typed: string): string {
  return typed.replace(LOOSE, "").toUpperCase().replaceAll("O", "0").replace(/[IL]/g, "1");
}

/** The tag's code that was meant by what was typed; null where the check symbol does not fit. */
export function forgiven(typed: string): string | null {
  const plain = forgivenSymbols(typed);
  return isCode(plain) ? plain : null;
}

/** Host and code of a scanned link `HTTPS://HOST/T/CODE`; null where it is none of ours or its check fails. */
export function readLink(text: string): readonly [host: string, code: string] | null {
  const link = LINK.exec(strip(text));
  if (!link?.[1] || !link[2]) return null;
  const code = forgiven(link[2]);
  return code ? [link[1].toLowerCase(), code] : null;
}

/** In capitals, so that a QR symbol can use its alphanumeric mode. */
export function linkOf(host: string, code: string): string {
  return `HTTPS://${host.toUpperCase()}/T/${code}`;
}
