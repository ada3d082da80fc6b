/** The day review: what is wrong, worst first, and what becomes of it; what waits, and who was not heard from. */
import "./day.css";
import "./lists.css";
import "./opened.css";
import "./narrow.css";
import "./fingers.css";
import { type Asked, askedDay } from "./choosing-day";
import { DayPage } from "./day";
import { LISTS } from "./first-lists";
import { ListPage } from "./lists";
import { NcrPage } from "./ncr";
import { SilentPage } from "./silent";
import { SpotPage } from "./spot";

/** parts: of the address after `review`: a page's name, and what it is about. */
export function ReviewScreen({ parts }: { parts: readonly string[] }) {
  const [page, ...rest] = parts;
  const asked: Asked = askedDay(rest);
  const list = LISTS.find((name) => name === rest[0]);
  if (page === "list" && list) return <ListPage key={list} name={list} />;
  if (page === "spot") return <SpotPage asked={asked} />;
  if (page === "ncr") return <NcrPage />;
  if (page === "silent") return <SilentPage asked={asked} />;
  return <DayPage asked={asked} />;
}
