/** The app locks itself when nobody has touched it for a while; nothing on the screen is lost by that. */
import { asleep, fallAsleep, lock, me } from "./state";

/** So long without touch or key, in milliseconds. */
const UNTOUCHED = 600_000;
const LOOK = 5_000;
const TOUCHES = ["pointerdown", "keydown", "wheel", "input"] as const;

let touched = 0;

function note(): void {
  touched = Date.now();
}

/** Lock where it is time. A clock that was put back begins the wait anew. */
function look(): void {
  const gone = Date.now() - touched;
  if (gone < 0) note();
  else if (gone >= UNTOUCHED && me.value && !asleep.value) fallAsleep();
}

/** The touch that wakes a phone may come before any timer has run: then it locks, and does no more. */
function touch(event: Event): void {
  const before = asleep.value;
  look();
  if (asleep.value && !before) event.stopPropagation();
  else note();
}

export function startLocking(): void {
  note();
  me.subscribe(note);
  for (const kind of TOUCHES) addEventListener(kind, touch, { capture: true, passive: true });
  // Keys that the screen out of sight listens for do nothing to it. Begun first, this is asked before any screen.
  addEventListener("keydown", (event) => asleep.value && event.stopImmediatePropagation());
  document.addEventListener("visibilitychange", look);
  // Whoever goes elsewhere from the locked app has left the screen that waited.
  addEventListener("hashchange", () => asleep.value && lock());
  setInterval(look, LOOK);
}
