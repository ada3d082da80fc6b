/** Text as Python reads it, so that both sides strip, cut and sort alike. */

/**
 * What Python's `str.isspace` and `\s` take for blank. JavaScript's own `\s` lacks U+001C to U+001F and U+0085 and
 * takes U+FEFF besides.
 */
export const BLANK = "\\t-\\r\\x1c-\\x20\\x85\\xa0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000";

const OUTER = new RegExp(`^[${BLANK}]+|[${BLANK}]+$`, "g");

/** The text without blanks before and after it. */
export function strip(text: string): string {
  return text.replace(OUTER, "");
}

/** The first characters of a text, counted in whole characters and not in halves of them. */
export function beginning(text: string, length: number): string {
  return [...text].slice(0, length).join("");
}

/** The order of two texts by the numbers of their characters, for `sort`. */
export function inOrder(a: string, b: string): number {
  const shorter = Math.min(a.length, b.length);
  for (let place = 0; place < shorter; place += 1) {
    const difference = rank(a.charCodeAt(place)) - rank(b.charCodeAt(place));
    if (difference !== 0) return difference;
  }
  return a.length - b.length;
}

/** A half of a character beyond U+FFFF comes after every whole one. */
function rank(unit: number): number {
  return unit >= 0xd800 && unit <= 0xdfff ? unit + 0x10000 : unit;
}
