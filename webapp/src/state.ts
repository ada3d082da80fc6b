/** What the whole app knows: who has unlocked, where one is, and how the piece was found. */
import { signal } from "@preact/signals";
import type { Payload } from "./core/records";
import type { Signer } from "./store/keys";
import { syncAs } from "./sync/loop";

export const me = signal<Signer | null>(null);
/**
 * Locked by itself: the screen waits out of sight with what is half typed on it, until the same person unlocks. They
 * stay in `me` meanwhile, so that a photo which the camera app hands back now is saved as theirs.
 */
export const asleep = signal(false);
export const foundBy = signal<Payload["found_by"]>("list");
/** What a link in a printed code opens, by its letter. */
const OPENED_BY: Record<string, string> = { t: "tag", g: "gauge", j: "board" };
/** Where one is: the parts of the address after #/. */
export const route = signal<string[]>(readRoute());

function readRoute(): string[] {
  const [, letter = "", code = ""] = /^\/([tgj])\/([^/]+)/i.exec(location.pathname) ?? [];
  if (code && !location.hash) return [OPENED_BY[letter.toLowerCase()] ?? "", decodeURIComponent(code)];
  return location.hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
}

/** A route that is the same stays the same: screens are not drawn again for it. */
function follow(): void {
  const found = readRoute();
  if (found.join("\0") !== route.value.join("\0")) route.value = found;
}

addEventListener("hashchange", () => {
  follow();
  scrollTo(0, 0);
});

export function linkTo(...parts: string[]): string {
  return `/#/${parts.map(encodeURIComponent).join("/")}`;
}

export function go(...parts: string[]): void {
  if (location.pathname !== "/") history.replaceState(null, "", "/");
  location.hash = `/${parts.map(encodeURIComponent).join("/")}`;
  follow();
}

/**
 * Another address for the same screen: in place of the one before, or over it, so that Back leads to that. Nothing is
 * scrolled.
 */
export function stand(parts: readonly string[], over = false): void {
  if (over) history.pushState({ over: true }, "", linkTo(...parts));
  else history.replaceState(history.state, "", linkTo(...parts));
  follow();
}

/** Whether Back leads to what this address was put over. */
export function standsOver(): boolean {
  return Boolean((history.state as { over?: boolean } | null)?.over);
}

export function enter(signer: Signer): void {
  me.value = signer;
  asleep.value = false;
  syncAs(signer);
}

export function lock(): void {
  me.value = null;
  asleep.value = false;
  syncAs(null);
}

/** Lock, and keep the screen as it is. */
export function fallAsleep(): void {
  asleep.value = true;
  syncAs(null);
}
