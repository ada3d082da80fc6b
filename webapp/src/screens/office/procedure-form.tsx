/** The form of a welding procedure: its fields as the shop's written procedure has them; what it leaves open is empty. */
import { useState } from "preact/hooks";
import { EFFICIENCY, FHVO } from "../../core/welding";
import { t } from "../../language";
import { ChoiceField, Form, plainNumber, TextField, Ticks } from "./filling";
import type { Kept } from "./procedures";

const TEXTS = ["id", "revision", "name"] as const;
const PAIRS = ["thickness", "volts", "amps", "travel"] as const;
const NUMBERS = ["preheat_min", "interpass_max", "heat_input_max"] as const;

type Typed = Record<string, string>;

/** A procedure as its form holds it: each end of a range a text of its own. */
export function typedOf(of: Kept | null): Typed {
  const typed: Typed = {};
  for (const name of [...TEXTS, "process", "note", "source"] as const) typed[name] = of?.[name] ?? "";
  for (const name of NUMBERS) typed[name] = of?.[name] ?? "";
  for (const name of PAIRS) {
    const ends = name === "thickness" ? of?.thickness && [of.thickness.from, of.thickness.to] : of?.[name];
    [typed[`${name}_from`], typed[`${name}_to`]] = [ends?.[0] ?? "", ends?.[1] ?? ""];
  }
  typed.fillers = (of?.fillers ?? []).join("\n");
  return typed;
}

/** What the server takes; a range is null where neither of its ends is typed. */
export function bodyOf(typed: Typed, positions: readonly string[], withdrawn: string | null) {
  const text = (name: string) => typed[name] ?? "";
  const number = (name: string) => plainNumber(text(name));
  const ends = (name: string): string[] | null => {
    const [from, to] = [number(`${name}_from`), number(`${name}_to`)];
    return from === null && to === null ? null : [from ?? "", to ?? ""];
  };
  const thickness = ends("thickness");
  return {
    ...Object.fromEntries([...TEXTS, "process", "note", "source"].map((name) => [name, text(name)])),
    ...Object.fromEntries(NUMBERS.map((name) => [name, number(name)])),
    ...Object.fromEntries(["volts", "amps", "travel"].map((name) => [name, ends(name)])),
    thickness: thickness && { from: thickness[0], to: thickness[1] },
    positions,
    fillers: text("fillers")
      .split("\n")
      .filter((line) => line.trim()),
    withdrawn,
  };
}

interface FormProps {
  of: Kept | null;
  known: readonly Kept[];
  onKeep: (body: unknown) => Promise<void>;
  onLeave: () => void;
}

export function ProcedureForm({ of, known, onKeep, onLeave }: FormProps) {
  const [typed, setTyped] = useState(() => typedOf(of));
  const [positions, setPositions] = useState<readonly string[]>(of?.positions ?? []);
  const field = (name: string) => ({
    label: t(`procedure-field-${name.replaceAll("_", "-")}`),
    value: typed[name] ?? "",
    onValue: (text: string) => setTyped({ ...typed, [name]: text }),
  });
  const id = (typed.id ?? "").trim();
  const taken = !of && known.some((one) => one.id === id);
  return (
    <Form
      title={of ? t("procedures-replace-of", { id: of.id }) : t("procedures-new")}
      fault={taken ? t("procedures-there", { id }) : ""}
      onKeep={() => onKeep(bodyOf(typed, positions, of?.withdrawn ?? null))}
      onLeave={onLeave}
    >
      {of && <p>{t("procedures-judged-anew")}</p>}
      <div class="office-fields">
        <TextField {...field("id")} needed fixed={of !== null} />
        <TextField {...field("revision")} />
        <TextField {...field("name")} needed />
        <ChoiceField {...field("process")} needed choices={Object.keys(EFFICIENCY).map((one) => [one, one])} />
      </div>
      <Ticks
        label={t("office-needed", { label: t("procedure-field-positions") })}
        chosen={positions}
        onChosen={setPositions}
        choices={FHVO.map((one) => [one, one])}
      />
      <div class="office-ranges">
        {PAIRS.map((name) => (
          <div key={name} class="pair">
            <TextField {...field(`${name}_from`)} />
            <TextField {...field(`${name}_to`)} />
          </div>
        ))}
      </div>
      <div class="office-fields">
        {NUMBERS.map((name) => (
          <TextField key={name} {...field(name)} />
        ))}
        <TextField {...field("note")} />
        <TextField {...field("source")} />
      </div>
      <Fillers {...field("fillers")} />
    </Form>
  );
}

interface FillersProps {
  label: string;
  value: string;
  onValue: (text: string) => void;
}

function Fillers({ label, value, onValue }: FillersProps) {
  return (
    <label class="field">
      {label}
      <textarea rows={2} value={value} onInput={(event) => onValue(event.currentTarget.value)} />
    </label>
  );
}
