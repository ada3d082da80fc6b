/** Parties in plain words. */
import { ROLES } from "../core/records";
import { word } from "../language";

export function partyName(party: string): string {
  return word("party", party);
}

/** The party a person's roles speak for at a point; '' where for none. */
export function partyOf(roles: readonly string[]): string {
  const parties = ["AI", "QC", "maker", "customer"] as const;
  return parties.find((party) => ROLES[party].some((role) => roles.includes(role))) ?? "";
}
