/** Trends: whether a measurement wanders, whose or which gauge's it is, and whether the tolerance can be held. */
import "./trends.css";
import { ItemPage } from "./item";
import { ListPage } from "./list";
import { SharesPage } from "./shares";
import { StudyPage } from "./study";

/** parts: of the address after `trends`: a page's name; or plan, step and item; or step and item of any plan. */
export function TrendsScreen({ parts }: { parts: readonly string[] }) {
  const named = parts.filter(Boolean);
  const [first = "", second = "", third = ""] = named;
  if (named.length === 3) return <ItemPage key={named.join(" ")} plan={first} step={second} item={third} />;
  if (named.length === 2) return <ItemPage key={named.join(" ")} plan="" step={first} item={second} />;
  if (first === "shares") return <SharesPage />;
  return first === "gauge-study" ? <StudyPage /> : <ListPage />;
}
