/** Whether a welder is qualified for the pass at hand, in one line; a warning where not, or where that ends soon. */
import { Decimal } from "../core/numbers";
import { lacking, lastProof, mostOf, type Pass, proofsOf, type Qualification } from "../core/qualifications";
import { lapsesOn } from "../core/welding";
import { t, word } from "../language";
import { calendarDay } from "./customs";
import { Notice } from "./frame";
import { shownValue } from "./notation";
import { reasonText } from "./reasons";
import { daysUntil } from "./spot";

/** So many days before a lapse it is told. */
const SOON = 30;

/** Today by this phone, as 2026-11-25. */
export function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

interface QualifiedProps {
  name: string;
  held: readonly Qualification[];
  pass: Pass;
}

/** Nothing stands in the way of logging: what is not covered is flagged, and a supervisor sees it. */
export function Qualified({ name, held, pass }: QualifiedProps) {
  const lacks = lacking(held, pass);
  if (lacks) {
    return (
      <Notice kind="care">
        <b>{t("weld-not-qualified", { name, reason: reasonText(lacks) })}</b> {t("weld-not-qualified-next")}
      </Notice>
    );
  }
  const covering = best(held, pass);
  if (!covering) return null;
  const { process } = pass;
  const lapses = lapsesOn(lastProof(proofsOf(held.filter((one) => one.process === process)), pass.welds, pass.day));
  const left = daysUntil(lapses, pass.day);
  if (left <= SOON) {
    return (
      <Notice kind="care">{t("weld-lapses-soon", { name, process, lapses: calendarDay(lapses), count: left })}</Notice>
    );
  }
  const most = mostOf(covering);
  const values = { process, test: word("weld-test", covering.test), until: calendarDay(lapses) };
  return (
    <p class="small qualified">
      {most ? t("weld-qualified-to", { ...values, most: shownValue(most, "in") }) : t("weld-qualified", values)}
    </p>
  );
}

/** Of those that cover the pass by themselves, the one with the greatest thickness. */
function best(held: readonly Qualification[], pass: Pass): Qualification | undefined {
  const most = (one: Qualification) => mostOf(one) ?? new Decimal(Number.POSITIVE_INFINITY);
  const covering = held.filter((one) => one.process === pass.process && coversAlone(one, pass));
  return covering.sort((a, b) => most(b).cmp(most(a)))[0];
}

function coversAlone(one: Qualification, pass: Pass): boolean {
  // By thickness and position alone: the process is kept up by all of them together.
  return one.tested <= pass.day && lacking([{ ...one, continued: pass.day }], pass) === "";
}
