/** Who welds, and by which procedure: each picked from those that are known. */
import type { Procedure } from "../core/procedures";
import { t } from "../language";
import type { Person } from "../store/jobs";

interface WelderPickerProps {
  welders: readonly Person[];
  chosen: string;
  onPick: (person: Person) => void;
}

export function WelderPicker({ welders, chosen, onPick }: WelderPickerProps) {
  return (
    <fieldset class="picker">
      <legend>{t("weld-who")}</legend>
      <ul class="list">
        {welders.map((one) => (
          <li key={one.id}>
            <button type="button" class="row" aria-pressed={one.id === chosen} onClick={() => onPick(one)}>
              <b class="pick-id">{one.stamp || "–"}</b>
              <span class="grow">{one.name}</span>
            </button>
          </li>
        ))}
      </ul>
    </fieldset>
  );
}

interface ProcedurePickerProps {
  procedures: readonly Procedure[];
  chosen: string;
  onPick: (id: string) => void;
}

export function ProcedurePicker({ procedures, chosen, onPick }: ProcedurePickerProps) {
  return (
    <fieldset class="picker">
      <legend>{t("weld-which-procedure")}</legend>
      <ul class="list">
        {procedures.map((one) => (
          <li key={one.id}>
            <button type="button" class="row" aria-pressed={one.id === chosen} onClick={() => onPick(one.id)}>
              <b class="pick-id">{one.id}</b>
              <span class="grow">
                {one.name}
                <br />
                <span class="small soft">
                  {t("weld-procedure-line", { process: one.process, positions: (one.positions ?? []).join(" ") })}
                </span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </fieldset>
  );
}
