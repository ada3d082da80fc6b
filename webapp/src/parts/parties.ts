/** Parties in plain words. */
import { ROLES } from "../core/records";

const NAMES: Record<string, string> = {
  maker: "the maker",
  QC: "QC",
  AI: "the Authorized Inspector",
  customer: "the customer",
  engineering: "engineering",
};

export function partyName(party: string): string {
  return NAMES[party] ?? party;
}

/** The party a person's roles speak for at a point; '' where for none. */
export function partyOf(roles: readonly string[]): string {
  const parties = ["AI", "QC", "maker", "customer"] as const;
  return parties.find((party) => ROLES[party].some((role) => roles.includes(role))) ?? "";
}
