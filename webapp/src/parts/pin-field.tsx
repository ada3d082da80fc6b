import { useEffect, useRef } from "preact/hooks";
import { t } from "../language";

interface PinFieldProps {
  label: string;
  value: string;
  onType: (text: string) => void;
  /** One that is being chosen, not one that is known. */
  fresh?: boolean;
  /** Where there are real keys, they go here at once. */
  first?: boolean;
}

/** A field for a PIN: for keyboards, for pasting and for password managers. */
export function PinField({ label, value, onType, fresh = false, first = false }: PinFieldProps) {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (first && matchMedia("(hover: hover) and (pointer: fine)").matches) field.current?.focus();
  }, []);
  return (
    <label class="field">
      {label}
      <input
        ref={field}
        class="pin"
        type="password"
        inputMode="numeric"
        autocomplete={fresh ? "new-password" : "current-password"}
        value={value}
        onInput={(event) => onType(event.currentTarget.value)}
      />
    </label>
  );
}

const MOST = 12;
const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];

/** Digits to type a PIN by touch, in the order of a telephone; the last key is the form's own. */
export function PinKeys(given: { value: string; onType: (text: string) => void; doWord: string; disabled: boolean }) {
  const { value, onType, doWord, disabled } = given;
  // On the way down, as on the keypad of readings; a keyboard's press comes as a bare click.
  const key = (label: string, press: () => void, kind = "") => (
    <button
      key={label}
      type="button"
      class={kind}
      onPointerDown={(event) => event.button === 0 && press()}
      onClick={(event) => event.detail === 0 && press()}
    >
      {label}
    </button>
  );
  const add = (digit: string) => () => value.length < MOST && onType(value + digit);
  return (
    <div class="pin-keys">
      {DIGITS.map((digit) => key(digit, add(digit)))}
      {key(t("pin-rub-out"), () => onType(value.slice(0, -1)), "word")}
      {key("0", add("0"))}
      <button type="submit" class="word" disabled={disabled}>
        {doWord}
      </button>
    </div>
  );
}
