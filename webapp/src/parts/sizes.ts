/** A size in bytes, as people here write it. */
import { locale } from "../language";

export function sizeText(bytes: number): string {
  const large = bytes >= 1_000_000;
  const unit = { style: "unit", unit: large ? "megabyte" : "kilobyte", maximumFractionDigits: large ? 1 : 0 } as const;
  return (large ? bytes / 1_000_000 : Math.ceil(bytes / 1000)).toLocaleString(locale(), unit);
}
