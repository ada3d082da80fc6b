/** What the whole app knows: who has unlocked, where one is, and how the piece was found. */
import { signal } from "@preact/signals";
import type { Payload } from "./core/records";
import type { Signer } from "./store/keys";
import { syncAs } from "./sync/loop";

export const me = signal<Signer | null>(null);
export const foundBy = signal<Payload["found_by"]>("list");
/** Where one is: the parts of the address after #/. */
export const route = signal<string[]>(readRoute());

function readRoute(): string[] {
  const tag = /^\/t\/([^/]+)/i.exec(location.pathname);
  if (tag && !location.hash) return ["tag", decodeURIComponent(tag[1] ?? "")];
  return location.hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
}

addEventListener("hashchange", () => {
  route.value = readRoute();
  scrollTo(0, 0);
});

export function linkTo(...parts: string[]): string {
  return `/#/${parts.map(encodeURIComponent).join("/")}`;
}

export function go(...parts: string[]): void {
  if (location.pathname !== "/") history.replaceState(null, "", "/");
  location.hash = `/${parts.map(encodeURIComponent).join("/")}`;
  route.value = readRoute();
}

export function enter(signer: Signer): void {
  me.value = signer;
  syncAs(signer);
}

export function lock(): void {
  me.value = null;
  syncAs(null);
}
