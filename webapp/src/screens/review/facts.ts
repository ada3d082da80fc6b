/** What is told of a flag's limit. */
import { t, word } from "../../language";
import type { Flag } from "./asking";

/** What it binds by, and its source where that says more. */
export function limitFact(item: Pick<Flag["item"], "binds" | "source">): string {
  const binds = item.binds || "shop";
  const what = word("binds", binds);
  const source = item.source?.trim() ?? "";
  const same = [binds, what].some((one) => one.toLowerCase() === source.toLowerCase());
  return source && !same ? t("review-binds-source", { what, source }) : t("review-binds", { what });
}
