/** A keypad for gloves: digits, point, blank, fraction bar, and the fractions of a rule. */

const FRACTIONS = ["1/8", "1/16", "1/64"];
const DIGITS = ["7", "8", "9", "4", "5", "6", "1", "2", "3"];

interface KeypadProps {
  typed: string;
  onType: (text: string) => void;
  onSave: () => void;
  canSave: boolean;
  inches: boolean;
  saveWord?: string;
  /** The decimal mark people here write. */
  point?: string;
  /** Without the fraction keys, where something else needs their room. */
  brief?: boolean;
}

/** What a fraction key makes of what is typed: `5` and `1/64` give `5/64`; `1 5` and `1/64` give `1 5/64`. */
export function withFraction(typed: string, fraction: string): string {
  const under = fraction.slice(fraction.indexOf("/"));
  if (/(^|\s)\d+$/.test(typed)) return `${typed}${under}`;
  return typed.includes("/") ? typed.replace(/\/\d*$/, under) : typed;
}

export function Keypad({
  typed,
  onType,
  onSave,
  canSave,
  inches,
  saveWord = "Save",
  point = ".",
  brief = false,
}: KeypadProps) {
  // On the way down, so that the verdict is there before the finger is up; a keyboard's press comes as a bare click.
  const key = (label: string, press: () => void, name = label) => (
    <button
      type="button"
      aria-label={name}
      onPointerDown={(event) => event.button === 0 && press()}
      onClick={(event) => event.detail === 0 && press()}
    >
      {label}
    </button>
  );
  return (
    <div class="keypad">
      {inches &&
        !brief &&
        FRACTIONS.map((one) => key(`/${one.slice(2)}`, () => onType(withFraction(typed, one)), `over ${one.slice(2)}`))}
      {inches && key("/", () => onType(`${typed}/`), "fraction bar")}
      {inches && key("␣", () => onType(`${typed} `), "blank")}
      {key("⌫", () => onType(typed.slice(0, -1)), "rub out")}
      {!inches && key("−", () => onType(typed.startsWith("-") ? typed.slice(1) : `-${typed}`), "minus")}
      {!inches && key("C", () => onType(""), "clear")}
      {DIGITS.map((digit) => key(digit, () => onType(typed + digit)))}
      {key(point, () => onType(`${typed}${point}`), "point")}
      {key("0", () => onType(`${typed}0`))}
      <button type="button" class="do" disabled={!canSave} onClick={onSave}>
        {saveWord}
      </button>
    </div>
  );
}
