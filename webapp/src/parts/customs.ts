/** How numbers, days and times are written here. */
import { locale } from "../language";

const commas = new Map<string, boolean>();

/** Whether people here write decimals with a comma. */
export function comma(): boolean {
  const here = locale();
  const known = commas.get(here);
  if (known !== undefined) return known;
  const found = new Intl.NumberFormat(here).format(1.5).includes(",");
  commas.set(here, found);
  return found;
}

/** A number's text with the decimal mark people here write. */
export function localized(text: string): string {
  return comma() ? text.replace(".", ",") : text;
}

/** A day such as 2027-03-12, which has no time zone; as it is where it is none. */
export function calendarDay(day: string): string {
  const date = new Date(`${day}T00:00:00`);
  if (Number.isNaN(date.getTime())) return day;
  return date.toLocaleDateString(locale(), { year: "numeric", month: "short", day: "numeric" });
}

/** A time as it was recorded, by the clock of the one who recorded it: without that clock's offset. */
export function clockTime(at: string): string {
  const date = new Date(at.slice(0, 16).replace(" ", "T"));
  if (Number.isNaN(date.getTime())) return at;
  return date.toLocaleString(locale(), { month: "short", day: "numeric", hour: "2-digit", minute: "2-digit" });
}
