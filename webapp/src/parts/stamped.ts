/** What is written off a piece, as it is stamped there. */

/** What was typed, tidy: no blanks at the ends or doubled, and words that hold a figure in capitals, as they are stamped. */
export function asStamped(typed: string): string {
  const words = typed.trim().split(/\s+/);
  return words.map((word) => (/\d/.test(word) ? word.toUpperCase() : word)).join(" ");
}
