/** One flag opened: all that is needed to decide about it. */
import { ApiError } from "../../api/client";
import { Decimal } from "../../core/numbers";
import { t, word } from "../../language";
import { calendarDay, clockTime } from "../../parts/customs";
import { Notice } from "../../parts/frame";
import { LimitBar } from "../../parts/limit-bar";
import { Mark } from "../../parts/marks";
import { beside, shownValue } from "../../parts/notation";
import { reasonText } from "../../parts/reasons";
import { useLoaded } from "../../parts/use";
import { linkTo } from "../../state";
import { type Flag, type OpenedFlag, openFlag } from "./asking";
import { limitFact } from "./facts";
import { History, Others } from "./history";
import { Photos } from "./shots";
import { Trend } from "./trend";
import { isFinding, limitsOf, pastText, shapeOf } from "./words";

/** The flag with all that the server has of it; null where it is no longer there, undefined until it is known. */
export function useOpened(id: string | undefined, number: number | null): OpenedFlag | null | undefined {
  const found = useLoaded(
    async () => ({ id, flag: id && number !== null ? await askFor(id, number) : undefined }),
    [id, number],
  );
  return found?.id === id ? found?.flag : undefined;
}

async function askFor(id: string, number: number): Promise<OpenedFlag | null | undefined> {
  return openFlag(id, number).catch((error: unknown) =>
    error instanceof ApiError && error.status === 404 ? null : undefined,
  );
}

interface OpenedProps {
  /** As the list has it: enough to begin with. */
  flag: Flag;
  opened: OpenedFlag | null | undefined;
  children: preact.ComponentChildren;
}

export function Opened({ flag, opened, children }: OpenedProps) {
  const whole = opened ?? flag;
  // What was decided is read before what it was decided about.
  const settled = whole.state !== "open";
  return (
    <>
      <header>
        <h2 tabIndex={-1} data-opened={flag.id}>
          {titleOf(flag)}
        </h2>
        <p class="kind">
          <span aria-hidden="true">
            <Mark shape={shapeOf(flag.kind)} />
          </span>
          <span>
            <b class="begins">{word("kind", flag.kind)}</b>
            {flag.reason && <> · {reasonText(flag.reason)}</>}
          </span>
        </p>
      </header>
      {settled && children}
      {opened === null && <Notice kind="care">{t("review-gone")}</Notice>}
      {whole.value && <ValueLine flag={whole} />}
      {opened && <Photos flag={opened} />}
      {!settled && children}
      <Facts flag={whole} />
      {opened && (
        <>
          <Trend flag={opened} />
          <History flag={opened} />
          <Others flag={opened} />
        </>
      )}
    </>
  );
}

/** `S-1, root opening, 12`. */
function titleOf({ piece, item, step, station }: Flag): string {
  const what = (item.name || step.name).replace(/^\p{Lu}(?=\p{Ll})/u, (letter) => letter.toLowerCase());
  return [piece.mark, what, station].filter(Boolean).join(", ");
}

function ValueLine({ flag }: { flag: Flag & Partial<OpenedFlag> }) {
  const value = new Decimal(flag.value ?? "0");
  const shown = shownValue(value, flag.uom);
  const past = pastText(flag);
  return (
    <div class="value-line">
      <p class="reading">
        {shown}
        <span class="uom">
          {flag.uom}
          <small>{beside(value, flag.uom, shown)}</small>
        </span>
      </p>
      <div>
        <LimitBar limits={limitsOf(flag)} value={value} uom={flag.uom} />
        {past && <p class="small">{past}</p>}
      </div>
    </div>
  );
}

function Facts({ flag }: { flag: Flag & Partial<OpenedFlag> }) {
  const { gauge, material = [], procedures = [] } = flag;
  const bound = isFinding(flag.kind) || flag.limits;
  const facts: [string, string][] = [
    [t("review-fact-recorded"), t("review-fact-by", { person: flag.by, time: clockTime(flag.at) })],
    [t("review-fact-step"), `${flag.step.number} ${flag.step.name}`],
    [t("review-fact-limit"), bound && flag.item.code ? limitFact(flag.item) : ""],
    [t("review-fact-gauge"), gauge ? gaugeFact(gauge) : ""],
    ...material.map(({ name, value, station }): [string, string] => [name, `${value} ${station}`.trim()]),
    [t("review-fact-procedures"), procedures.join(", ")],
  ];
  return (
    <section>
      <h3>{t("review-facts")}</h3>
      <dl class="flag-facts">
        {facts.map(
          ([name, says]) =>
            says && (
              <div key={name + says}>
                <dt>{name}</dt>
                <dd>{says}</dd>
              </div>
            ),
        )}
      </dl>
      <a class="to-step" href={linkTo("step", flag.job, flag.piece.id, flag.step.code)}>
        {t("review-to-step", { mark: flag.piece.mark, step: flag.step.number })} ›
      </a>
    </section>
  );
}

function gaugeFact({ name, due, uncertainty }: NonNullable<OpenedFlag["gauge"]>): string {
  const told = { name, due: due ? calendarDay(due) : "", uncertainty: uncertainty ?? "" };
  if (due) return t(uncertainty ? "review-gauge-due-u" : "review-gauge-due", told);
  return uncertainty ? t("review-gauge-u", told) : name;
}
