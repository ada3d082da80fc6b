/** One sync loop under a Web Lock: push, photos, pull. Woken by start, a new record, `online`, the foreground, a timer. */

import { signal } from "@preact/signals";
import { ApiError, call, type Person, post } from "../api/client";
import { t } from "../language";
import { database, isNamed, storeTrouble } from "../store/db";
import { changed, changes } from "../store/jobs";
import { type Signer, sign, updateKeys } from "../store/keys";
import { countWaiting } from "../store/outbox";
import { prune } from "../store/retention";
import { lookAtRoom, makeRoom } from "../store/room";
import { sendPhotos } from "./photos";
import { type Pulled, pull } from "./pull";
import { push } from "./push";
import { jittered, times } from "./times";

export { heard } from "../api/client";
export { waiting } from "../store/outbox";

/** What keeps the loop from sending; '' where nothing does. */
export const trouble = signal("");
export const working = signal(false);

let signer: Signer | null = null;
let timer: ReturnType<typeof setTimeout> | undefined;
let pause = 0;
let signedIn = "";
let urgent = false;
let tidied = 0;

/** How often it is looked for what may leave this phone, in milliseconds. */
const TIDY = 3_600_000;

/** Who pulls; null once locked. What is signed goes out all the same. */
export function syncAs(who: Signer | null): void {
  signer = who;
  signedIn = "";
  wake();
}

export function wake(): void {
  clearTimeout(timer);
  timer = setTimeout(() => void turn(), 0);
}

/** Send all that waits at once, what the server would not have before among it. */
export function sendNow(): void {
  urgent = true;
  wake();
}

function later(): void {
  clearTimeout(timer);
  timer = setTimeout(() => void turn(), jittered(pause));
}

async function turn(): Promise<void> {
  const { shortest, longest } = await times();
  let again = false;
  await navigator.locks.request("sync", { ifAvailable: true }, async (lock) => {
    if (!lock) return;
    working.value = true;
    try {
      again = await once();
      trouble.value = "";
      pause = shortest;
    } catch (error) {
      trouble.value = troubleOf(error);
      const asked = error instanceof ApiError ? error.retryAfter * 1000 : 0;
      pause = Math.max(asked, Math.min(longest, Math.max(shortest, pause * 2)));
      if (!(error instanceof ApiError)) console.error(error);
    } finally {
      working.value = false;
      await countWaiting().catch(() => {});
    }
  });
  pause ||= shortest;
  if (again) wake();
  else later();
}

function troubleOf(error: unknown): string {
  if (isNamed(error, "QuotaExceededError")) return t("net-full");
  return error instanceof Error ? error.message : String(error);
}

/** One turn; whether another should follow at once. */
async function once(): Promise<boolean> {
  const asked = urgent;
  urgent = false;
  const pushed = await push(asked);
  const photos = await sendPhotos(asked);
  // An app that is older than its store sends, but does not know what a newer one needs of what it pulls.
  const pulls = signer && storeTrouble.value !== "older";
  const pulled = pulls && signer ? await pullSignedIn(signer) : null;
  if (pushed.restored || pulled?.restored || pulled?.jobs === null) changed();
  else if (pushed.heard || photos || pulled?.came) changed([...pushed.jobs, ...(pulled?.jobs ?? [])]);
  if (storeTrouble.value === "" && Date.now() - tidied > TIDY) await tidy().catch(console.error);
  return pushed.restored || Boolean(pulled?.restored);
}

async function tidy(): Promise<void> {
  tidied = Date.now();
  const left = await prune();
  const gone = await makeRoom();
  if (left.length > 0 || gone > 0) changed();
}

/** Pull; where the session has ended, sign in by the key and pull once more. */
async function pullSignedIn(who: Signer): Promise<Pulled> {
  if (signedIn !== who.kid) await signIn(who);
  try {
    return await pull();
  } catch (error) {
    if (!(error instanceof ApiError) || error.status !== 401) throw error;
    await signIn(who);
    return pull();
  }
}

/** Sign in by the key's signature over the server's nonce. */
export async function signIn(who: Signer): Promise<Person> {
  const { nonce } = await post<{ nonce: string }>("/challenges", {});
  const proof = await sign({ purpose: "sign in", nonce }, who.kid, who.key);
  const person = await post<Person>("/sessions", { proof });
  signedIn = who.kid;
  await keepUp(who, person);
  return person;
}

/** A role given or taken since the key was enrolled holds here as well. */
async function keepUp(who: Signer, person: Person): Promise<void> {
  const { name, roles, stamp } = person;
  if (JSON.stringify([name, roles, stamp]) === JSON.stringify([who.name, who.roles, who.stamp])) return;
  Object.assign(who, { name, roles, stamp });
  await updateKeys(person);
  changed();
}

/** A call that needs a session; signs in first where it has ended. */
export async function callSignedIn<T>(path: string, value?: unknown): Promise<T> {
  const ask = () => (value === undefined ? call<T>(path) : post<T>(path, value));
  try {
    return await ask();
  } catch (error) {
    if (!signer || !(error instanceof ApiError) || error.status !== 401) throw error;
    await signIn(signer);
    return ask();
  }
}

export function startSync(): void {
  addEventListener("online", wake);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && wake());
  changes.subscribe(() => void countWaiting().catch(() => {}));
  void database().then(lookAtRoom, () => {});
  wake();
}
