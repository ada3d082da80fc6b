/** Lines of values worked out that a reading goes into. */
import { t, word } from "../language";
import type { Fed } from "./fed";
import { Mark } from "./marks";
import { shownValue } from "./notation";
import { shapeOf } from "./reading";
import { reasonText } from "./reasons";

const MOST = 3;

/** The text of one value: what it becomes and its verdict, or why it is none yet. */
export function fedText({ item, station, found }: Fed): string {
  const values = { item: item.name ?? item.code, station, uom: item.uom ?? "" };
  const { value, verdict } = found;
  if (verdict.word === "open") return t(station ? "measure-fed-waits-at" : "measure-fed-waits", values);
  if (value === null) {
    const why = { ...values, reason: reasonText(verdict.reason) };
    return t(station ? "measure-fed-no-value-at" : "measure-fed-no-value", why);
  }
  const said = { ...values, value: shownValue(value, item.uom ?? ""), verdict: word("verdict", verdict.word) };
  return t(station ? "measure-fed-value-at" : "measure-fed-value", said);
}

export function FedLines({ fed }: { fed: readonly Fed[] }) {
  if (fed.length === 0) return null;
  return (
    <ul class="fed" aria-label={t("measure-fed")}>
      {fed.slice(0, MOST).map((one) => (
        <li key={`${one.step.code} ${one.item.code} ${one.station}`}>
          <Mark shape={shapeOf(one.found.verdict.word)} /> <span>{fedText(one)}</span>
        </li>
      ))}
    </ul>
  );
}
