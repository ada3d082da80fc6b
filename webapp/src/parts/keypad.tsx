/** A keypad for gloves: digits, point, blank, fraction bar and the fractions of a rule; or the keys of a place. */
import { t } from "../language";

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
  /** The keys of a place such as hole 14-7, in place of a number's; what letters are typed with. */
  onLetters?: () => void;
}

/** What a fraction key makes of what is typed: `5` and `1/64` give `5/64`; `1 5` and `1/64` give `1 5/64`. */
export function withFraction(typed: string, fraction: string): string {
  const under = fraction.slice(fraction.indexOf("/"));
  if (/(^|\s)\d+$/.test(typed)) return `${typed}${under}`;
  return typed.includes("/") ? typed.replace(/\/\d*$/, under) : typed;
}

/** A key acts on the way down, so that the verdict is there before the finger is up; a keyboard's press is a bare click. */
function key(label: string, press: () => void, name = label, kind = "") {
  return (
    <button
      key={name}
      type="button"
      class={kind}
      aria-label={name}
      onPointerDown={(event) => event.button === 0 && press()}
      onClick={(event) => event.detail === 0 && press()}
    >
      {label}
    </button>
  );
}

export function Keypad({ typed, onType, onSave, canSave, saveWord, point = ".", onLetters, ...keys }: KeypadProps) {
  return (
    <div class="keypad">
      {onLetters ? <KeysOfPlace typed={typed} onType={onType} /> : <Keys typed={typed} onType={onType} {...keys} />}
      {DIGITS.map((digit) => key(digit, () => onType(typed + digit)))}
      {onLetters
        ? key(t("keypad-letters"), onLetters, t("keypad-letters-name"))
        : key(point, () => onType(`${typed}${point}`), t("keypad-point"))}
      {key("0", () => onType(`${typed}0`))}
      <button type="button" class="do" disabled={!canSave} onClick={onSave}>
        {saveWord ?? t("measure-save")}
      </button>
    </div>
  );
}

type Typing = Pick<KeypadProps, "typed" | "onType">;

function rubOut({ typed, onType }: Typing) {
  return key("⌫", () => onType(typed.slice(0, -1)), t("keypad-rub-out"));
}

function Keys({ typed, onType, inches, brief = false }: Typing & Pick<KeypadProps, "inches" | "brief">) {
  if (!inches) {
    return (
      <>
        {key("−", () => onType(typed.startsWith("-") ? typed.slice(1) : `-${typed}`), t("keypad-minus"))}
        {key("C", () => onType(""), t("keypad-clear"))}
        {rubOut({ typed, onType })}
      </>
    );
  }
  return (
    <>
      {!brief &&
        FRACTIONS.map((one) => {
          const under = one.slice(2);
          return key(`/${under}`, () => onType(withFraction(typed, one)), t("keypad-over", { under }), "fraction");
        })}
      {key("/", () => onType(`${typed}/`), t("keypad-fraction-bar"))}
      {key("␣", () => onType(`${typed} `), t("keypad-blank"))}
      {rubOut({ typed, onType })}
    </>
  );
}

function KeysOfPlace({ typed, onType }: Typing) {
  return (
    <>
      {key("-", () => onType(`${typed}-`), t("keypad-dash"))}
      {key("C", () => onType(""), t("keypad-clear"))}
      {rubOut({ typed, onType })}
    </>
  );
}
