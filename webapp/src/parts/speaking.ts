/** Who can speak for a party, by name where they are few enough to be named. */
import { type Party, ROLES } from "../core/records";
import { listed, locale } from "../language";
import type { Person } from "../store/jobs";

const MOST_NAMED = 3;

/** The names of those who hold a party's role, joined as people here join them; '' where none or too many do. */
export function namesOf(party: string, people: ReadonlyMap<string, Person> | undefined): string {
  const roles = ROLES[party as Party] ?? [];
  const found = [...(people?.values() ?? [])].filter((one) => one.roles.some((role) => roles.includes(role)));
  if (found.length === 0 || found.length > MOST_NAMED) return "";
  const names = found.map((one) => one.name).sort((a, b) => a.localeCompare(b, locale()));
  return listed(names, "disjunction");
}
