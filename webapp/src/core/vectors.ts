/** The vectors of tests/vectors, which the Python core answers as well. For tests only. */

import { Decimal } from "./numbers";

const files = import.meta.glob<unknown>("../../../tests/vectors/*.json", { eager: true, import: "default" });

/** The content of a file of vectors, whose form its README tells. */
export function vectors<T>(name: string): T {
  const found = files[`../../../tests/vectors/${name}.json`];
  if (!found) throw new Error(`tests/vectors/${name}.json is not there`);
  return found as T;
}

/** The number of a text; null for null or nothing. */
export function number(text: string | null | undefined): Decimal | null {
  return text === null || text === undefined ? null : new Decimal(text);
}

/** The error that some work throws. Throws an Error of its own where it throws none. */
export function errorOf(work: () => unknown): Error {
  try {
    work();
  } catch (error) {
    if (error instanceof Error) return error;
  }
  throw new Error("nothing was thrown");
}
