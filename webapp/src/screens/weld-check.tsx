/** A spot check of the arc: what a clamp meter and a thermometer read, each beside its range while it is typed. */
import { useEffect, useState } from "preact/hooks";
import { CHECKED, type Checked, type Procedure } from "../core/procedures";
import { t, word } from "../language";
import { comma } from "../parts/customs";
import { tell } from "../parts/feedback";
import { Keypad } from "../parts/keypad";
import { SignMark } from "../parts/procedure-card";
import { asked, energyOf, mostEnergyText, readValue, signOf, type Typed, UOMS } from "../parts/spot";

const ORDER: readonly Checked[] = CHECKED.map(([key]) => key);

interface SpotCheckProps {
  procedure: Procedure | undefined;
  typed: Typed;
  onType: (typed: Typed) => void;
  onDone: () => void;
}

export function SpotCheck({ procedure, typed, onType, onDone }: SpotCheckProps) {
  const [now, setNow] = useState<Checked>("volts");
  const last = ORDER.at(-1) === now;
  const sign = signOf(procedure, now, typed[now]);
  useEffect(() => scrollTo(0, 0), []);
  // Told where a value is finished and the next is begun: while it is typed every number is small at first.
  const leave = (next?: Checked) => {
    if (sign) tell(sign === "in" ? "good" : "bad");
    if (next) setNow(next);
    else onDone();
  };
  return (
    <section class="spot" aria-labelledby="spot-title">
      <div class="procedure-head">
        <h2 id="spot-title">{procedure ? t("weld-check-by", { procedure: procedure.id }) : t("weld-check")}</h2>
        <button type="button" class="station" onClick={() => leave()}>
          {t("weld-check-done")}
        </button>
      </div>
      <div class="spot-values">
        {ORDER.map((key) => (
          <SpotValue
            key={key}
            name={key}
            procedure={procedure}
            typed={typed[key] ?? ""}
            chosen={key === now}
            onChoose={() => leave(key)}
          />
        ))}
        <Energy procedure={procedure} typed={typed} />
      </div>
      <p class="unseen" role="status">
        {sign && t("weld-said", { value: word("weld-value", now), sign: t(`weld-sign-${sign}`) })}
      </p>
      <div class="pad">
        <Keypad
          typed={typed[now] ?? ""}
          onType={(text) => onType({ ...typed, [now]: text })}
          onSave={() => leave(ORDER[ORDER.indexOf(now) + 1])}
          canSave
          inches={false}
          point={comma() ? "," : "."}
          saveWord={t(last ? "weld-check-done" : "weld-check-next")}
        />
      </div>
    </section>
  );
}

interface SpotValueProps {
  name: Checked;
  procedure: Procedure | undefined;
  typed: string;
  chosen: boolean;
  onChoose: () => void;
}

/** One value: chosen by a tap, then the keys write it. */
function SpotValue({ name, procedure, typed, chosen, onChoose }: SpotValueProps) {
  const { fault } = readValue(typed);
  const sign = fault ? "" : signOf(procedure, name, typed);
  return (
    <button type="button" class={`spot-value ${sign}`} aria-pressed={chosen} onClick={onChoose}>
      <span class="spot-name">
        <span>{word("weld-value", name)}</span>
        {fault ? <span>{t("weld-sign-none")}</span> : <SignMark sign={sign} />}
      </span>
      <span class="spot-typed">
        {typed || "–"} <span class="small soft">{UOMS.get(name)}</span>
      </span>
      <span class="small soft">{asked(procedure, name) || (procedure ? t("weld-no-range") : "")}</span>
    </button>
  );
}

function Energy({ procedure, typed }: { procedure: Procedure | undefined; typed: Typed }) {
  const found = energyOf(typed, procedure);
  return (
    <output class={`spot-value energy ${found?.sign ?? ""}`}>
      <span class="spot-name">
        <span>{t("weld-energy")}</span> <SignMark sign={found?.sign ?? ""} />
      </span>
      <span class="spot-typed">
        {found?.text ?? "–"} <span class="small soft">kJ/in</span>
      </span>
      <span class="small soft">{mostEnergyText(procedure) || t("weld-energy-bare")}</span>
      {mostEnergyText(procedure) && <span class="small soft">{t("weld-energy-bare")}</span>}
    </output>
  );
}
