/** How this phone looks and speaks up: set by hand, kept on the phone, and put on the page before anything is shown. */
import { signal } from "@preact/signals";

export interface Settings {
  /** Keys and buttons for thick gloves. */
  gloves: boolean;
  /** Black on white, heavier: for the sun. */
  outdoor: boolean;
  sound: boolean;
  vibration: boolean;
  /** What is pressed most lies to the left. */
  left: boolean;
}

const KEPT = "seamtag.settings";
const AT_FIRST: Settings = { gloves: false, outdoor: false, sound: true, vibration: true, left: false };

export const settings = signal<Settings>(kept());

function kept(): Settings {
  try {
    const found = JSON.parse(localStorage.getItem(KEPT) ?? "{}") as Partial<Record<keyof Settings, unknown>>;
    const known = Object.entries(found).filter(([name, value]) => name in AT_FIRST && typeof value === "boolean");
    return { ...AT_FIRST, ...Object.fromEntries(known) };
  } catch {
    return AT_FIRST;
  }
}

/** The look as attributes of the page, which style.css answers. */
export function showSettings(): void {
  const { gloves, outdoor, left } = settings.value;
  for (const [name, on] of Object.entries({ gloves, outdoor, left })) {
    document.documentElement.toggleAttribute(`data-${name}`, on);
  }
}

export function choose(name: keyof Settings, value: boolean): void {
  settings.value = { ...settings.value, [name]: value };
  localStorage.setItem(KEPT, JSON.stringify(settings.value));
  showSettings();
}
