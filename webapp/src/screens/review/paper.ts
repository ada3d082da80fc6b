/** The paper that lies in the printers where this browser is at home. */
import { locale } from "../../language";

/** Countries and territories that print on letter paper, as the Unicode locale data has them (paper size US-Letter). */
const LETTER = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE".split(" ");

/** own: the browser's languages, the first preferred. */
export function paperOf(own: readonly string[] = navigator.languages): "letter" | "a4" {
  try {
    return LETTER.includes(new Intl.Locale(own[0] ?? locale()).maximize().region ?? "") ? "letter" : "a4";
  } catch {
    return "a4"; // the browser calls its language by a name that is none
  }
}

/** The address of the list of rework, to be printed. */
export function reworkSheet(): string {
  return `/api/v1/review/rework.pdf?paper=${paperOf()}`;
}
