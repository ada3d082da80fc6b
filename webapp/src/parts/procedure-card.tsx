/** A welding procedure on a card: its ranges, and beside each what a spot check read. */
import type { ComponentChildren } from "preact";
import { Decimal } from "../core/numbers";
import { CHECKED, type Procedure } from "../core/procedures";
import { t, word } from "../language";
import { Mark } from "./marks";
import { limitText } from "./notation";
import { asked, mostEnergyText, type Sign, signOf, type Typed } from "./spot";

/** A shape with its word: inside or outside. */
export function SignMark({ sign }: { sign: Sign }) {
  if (!sign) return null;
  return (
    <span class={`range-sign ${sign}`}>
      <span aria-hidden="true">
        <Mark shape={sign} />
      </span>
      {t(`weld-sign-${sign}`)}
    </span>
  );
}

interface CardProps {
  procedure: Procedure;
  typed: Typed;
  onChange?: (() => void) | undefined;
}

export function ProcedureCard({ procedure, typed, onChange }: CardProps) {
  const { id, revision, name, process, positions, thickness, fillers, note } = procedure;
  const between = thickness && { lower: new Decimal(thickness.from), upper: new Decimal(thickness.to), reason: "" };
  return (
    <section class="procedure" aria-label={t("weld-procedure-card", { id })}>
      <div class="procedure-head">
        <p>
          <b class="procedure-id">{id}</b>{" "}
          <span>{revision ? t("weld-process-revision", { process, revision }) : process}</span>
          {name && <span class="small soft procedure-name">{name}</span>}
        </p>
        {onChange && (
          <button type="button" class="station" onClick={onChange}>
            {t("weld-procedure-other")}
          </button>
        )}
      </div>
      <dl class="ranges">
        {positions?.length ? <Cell name={t("weld-positions")}>{positions.join(" ")}</Cell> : null}
        {between && <Cell name={t("weld-thickness")}>{limitText(between, "in")}</Cell>}
        {CHECKED.map(([key]) => {
          const range = asked(procedure, key);
          return range || typed[key] ? (
            <Cell key={key} name={word("weld-value", key)}>
              {range || t("weld-no-range")}
              {typed[key] && <Value typed={typed[key]} sign={signOf(procedure, key, typed[key])} />}
            </Cell>
          ) : null;
        })}
        {mostEnergyText(procedure) && <Cell name={t("weld-heat-input")}>{mostEnergyText(procedure)}</Cell>}
        {fillers?.length ? <Cell name={t("weld-fillers")}>{fillers.join(", ")}</Cell> : null}
      </dl>
      {note && <p class="small">{note}</p>}
      <p class="small soft">{t("weld-procedure-decides")}</p>
    </section>
  );
}

function Cell({ name, children }: { name: string; children: ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function Value({ typed, sign }: { typed: string; sign: Sign }) {
  return (
    <span class="checked">
      {t("weld-read", { value: typed })} <SignMark sign={sign} />
    </span>
  );
}
