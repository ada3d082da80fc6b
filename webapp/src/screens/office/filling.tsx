/** Parts of the office's forms: fields, days, choices, and what the server says of what was typed. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { t } from "../../language";
import { comma } from "../../parts/customs";
import { Notice } from "../../parts/frame";

interface FieldProps {
  label: string;
  value: string;
  onValue: (text: string) => void;
  needed?: boolean;
  fixed?: boolean;
  day?: boolean;
  list?: readonly string[];
}

export function TextField({ label, value, onValue, needed, fixed, day, list }: FieldProps) {
  const options = list && `known-${label.replaceAll(/\W/g, "-")}`;
  return (
    <label class="field">
      {needed ? t("office-needed", { label }) : label}
      <input
        type={day ? "date" : "text"}
        value={value}
        required={needed ?? false}
        readOnly={fixed ?? false}
        list={options}
        autocomplete="off"
        onInput={(event) => onValue(event.currentTarget.value)}
      />
      {options && (
        <datalist id={options}>
          {list.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      )}
    </label>
  );
}

interface ChoiceProps {
  label: string;
  value: string;
  onValue: (value: string) => void;
  /** Values with their words. */
  choices: readonly (readonly [value: string, shown: string])[];
  needed?: boolean;
}

export function ChoiceField({ label, value, onValue, choices, needed }: ChoiceProps) {
  return (
    <label class="field">
      {needed ? t("office-needed", { label }) : label}
      <select value={value} required={needed ?? false} onChange={(event) => onValue(event.currentTarget.value)}>
        <option value="">{needed ? t("office-choose") : t("office-none")}</option>
        {choices.map(([one, shown]) => (
          <option key={one} value={one}>
            {shown}
          </option>
        ))}
      </select>
    </label>
  );
}

interface TicksProps {
  label: string;
  chosen: readonly string[];
  onChosen: (chosen: string[]) => void;
  choices: readonly (readonly [value: string, shown: string])[];
  /** What somebody else has to tick. */
  locked?: readonly string[];
}

export function Ticks({ label, chosen, onChosen, choices, locked = [] }: TicksProps) {
  return (
    <fieldset class="ticks">
      <legend>{label}</legend>
      {choices.map(([one, shown]) => (
        <label key={one} class="check">
          <input
            type="checkbox"
            checked={chosen.includes(one)}
            disabled={locked.includes(one)}
            onChange={(event) =>
              onChosen(event.currentTarget.checked ? [...chosen, one] : chosen.filter((other) => other !== one))
            }
          />
          {shown}
        </label>
      ))}
    </fieldset>
  );
}

interface FormProps {
  title: string;
  children: ComponentChildren;
  /** What is still wrong, before the server is asked; '' for nothing. */
  fault?: string;
  onKeep: () => Promise<void>;
  onLeave: () => void;
  keep?: string;
}

/**
 * A form in the page, with the focus in its first field, and back where it was when it is done; what the server refuses
 * stands above its buttons.
 */
export function Form({ title, children, fault = "", onKeep, onLeave, keep }: FormProps) {
  const [busy, setBusy] = useState(false);
  const [says, setSays] = useState("");
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    const opener = document.activeElement;
    form.current?.querySelector<HTMLElement>("input:not([readonly]), select")?.focus();
    form.current?.scrollIntoView({ block: "nearest" });
    return () => opener instanceof HTMLElement && opener.focus();
  }, []);
  const send = async () => {
    if (fault) return setSays(fault);
    setBusy(true);
    setSays("");
    await onKeep().catch((error: Error) => setSays(error.message));
    setBusy(false);
  };
  return (
    <form
      class="office-form"
      ref={form}
      aria-label={title}
      onSubmit={(event) => {
        event.preventDefault();
        void send();
      }}
    >
      <div>
        <h2>{title}</h2>
        <p class="small soft">{t("office-needed-means")}</p>
      </div>
      {children}
      {says && <Notice kind="bad">{says}</Notice>}
      <div class="office-actions">
        <button type="submit" class="button main" disabled={busy}>
          {keep ?? t("office-keep")} <span>›</span>
        </button>
        <button type="button" class="button" onClick={onLeave}>
          {t("office-leave")}
        </button>
      </div>
    </form>
  );
}

/** A number as the server reads it, typed with the decimal mark people here write; null for nothing. */
export function plainNumber(typed: string): string | null {
  const found = typed.trim();
  return found === "" ? null : comma() ? found.replace(",", ".") : found;
}
