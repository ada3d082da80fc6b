/** The review by keyboard alone: which key does what, and the list of them. */
import { useEffect, useRef, useState } from "preact/hooks";
import { t } from "../../language";
import { asleep } from "../../state";

const KEPT = "seamtag.review-keys";

/** Each thing that keys do, and the keys where they are signs; else they have names of their own in each language. */
const NAMES: readonly (readonly [string, string])[] = [
  ["move", "↑ ↓ · J K"],
  ["ends", ""],
  ["open", ""],
  ["mark", "X"],
  ["alike", "A"],
  ["choose", "1 2 3 4"],
  ["sign", ""],
  ["back", ""],
  ["help", "?"],
];

export interface Actions {
  /** By so many flags; -Infinity and Infinity to the first and the last. */
  move(by: number): void;
  open(): void;
  mark(): void;
  alike(): void;
  choose(key: string): void;
  sign(): void;
  back(): void;
  help(): void;
}

const MOVES: Readonly<Record<string, number>> = {
  ArrowDown: 1,
  ArrowUp: -1,
  j: 1,
  k: -1,
  Home: Number.NEGATIVE_INFINITY,
  End: Number.POSITIVE_INFINITY,
};

/** Whether what is typed belongs to a field. */
function isField(target: EventTarget | null): boolean {
  if (target instanceof HTMLInputElement) return !["checkbox", "radio", "button"].includes(target.type);
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
}

/** Whether the browser itself does something there on Enter or on a blank. */
function isPressed(target: EventTarget | null): boolean {
  return target instanceof Element && Boolean(target.closest("a, button, summary, input, label"));
}

export function keysAct(): boolean {
  return localStorage.getItem(KEPT) !== "off";
}

/** What a key does; null where it is left to the browser. */
function actionOf(event: KeyboardEvent, actions: Actions): (() => void) | null {
  const { key, target } = event;
  const held = event.ctrlKey || event.metaKey;
  // A key that is held down signs once.
  if (key === "Enter" && held) return event.repeat ? () => {} : actions.sign;
  if (held || event.altKey) return null;
  if (key === "Escape") return actions.back;
  if (isField(target)) return null;
  const sign = key.length === 1;
  if (sign && key !== " " && key !== "?" && !keysAct()) return null;
  const by = MOVES[sign ? key.toLowerCase() : key];
  if (by !== undefined) return () => actions.move(by);
  if (key === "Enter" || key === " ") {
    if (isPressed(target)) return null;
    return key === "Enter" ? actions.open : actions.mark;
  }
  if (/^[1-4]$/.test(key)) return () => actions.choose(key);
  return { x: actions.mark, a: actions.alike, "?": actions.help }[key.toLowerCase()] ?? null;
}

/** Act on keys while nothing lies over the page. They never take what is typed into a field. */
export function useKeys(actions: Actions): void {
  const now = useRef(actions);
  now.current = actions;
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (asleep.value || event.defaultPrevented || document.querySelector("dialog[open]")) return;
      const action = actionOf(event, now.current);
      if (!action) return;
      event.preventDefault();
      action();
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  }, []);
}

/** The list of keys. Those that are one sign can be switched off, for whoever speaks to the computer. */
export function KeysHelp({ onClose }: { onClose: () => void }) {
  const frame = useRef<HTMLDialogElement>(null);
  const [acts, setActs] = useState(keysAct());
  const away = asleep.value;
  useEffect(() => (away ? frame.current?.close() : frame.current?.showModal()), [away]);
  const change = (on: boolean) => {
    setActs(on);
    if (on) localStorage.removeItem(KEPT);
    else localStorage.setItem(KEPT, "off");
  };
  return (
    <dialog class="keys-help" ref={frame} aria-labelledby="keys-title" onClose={() => !asleep.value && onClose()}>
      <h2 id="keys-title">{t("review-keys")}</h2>
      <dl>
        {NAMES.map(([what, signs]) => (
          <div key={what}>
            <dt>
              <Keys names={signs || t(`review-keycap-${what}`)} />
            </dt>
            <dd>{t(`review-key-${what}`)}</dd>
          </div>
        ))}
      </dl>
      <label class="check">
        <input type="checkbox" checked={acts} onChange={(event) => change(event.currentTarget.checked)} />
        {t("review-keys-act")}
      </label>
      <button type="button" class="button" onClick={() => frame.current?.close()}>
        {t("review-keys-close")}
      </button>
    </dialog>
  );
}

/** Keys, each in its own frame. */
export function Keys({ names }: { names: string }) {
  return <>{names.split(" ").map((name) => (name === "·" ? " · " : <kbd key={name}>{name}</kbd>))}</>;
}
