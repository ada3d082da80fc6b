/** One sync loop under a Web Lock: push, photos, pull. Woken by start, a new record, `online`, the foreground, a timer. */
import { signal } from "@preact/signals";
import { ApiError, call, type Person, post } from "../api/client";
import { withStore } from "../store/db";
import { changed } from "../store/jobs";
import { type Signer, sign } from "../store/keys";
import { sendPhotos } from "./photos";
import { pull } from "./pull";
import { push } from "./push";

const SHORTEST = 4_000;
const LONGEST = 60_000;

export interface Waiting {
  records: number;
  photos: number;
}

/** What is not sent yet. */
export const waiting = signal<Waiting>({ records: 0, photos: 0 });
/** When the server was last heard, in milliseconds; 0 for never since the app started. */
export const heard = signal(0);
/** What keeps the loop from sending; '' where nothing does. */
export const trouble = signal("");
export const working = signal(false);

let signer: Signer | null = null;
let timer: ReturnType<typeof setTimeout> | undefined;
let pause = SHORTEST;
let signedIn = "";

export async function countWaiting(): Promise<void> {
  const [records, photos] = await withStore((db) => Promise.all([db.count("outbox"), db.count("photo_outbox")]));
  waiting.value = { records, photos };
}

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

function later(): void {
  clearTimeout(timer);
  timer = setTimeout(() => void turn(), pause * (0.75 + Math.random() / 2));
}

async function turn(): Promise<void> {
  await navigator.locks.request("sync", { ifAvailable: true }, async (lock) => {
    if (!lock) return;
    working.value = true;
    try {
      await once();
      heard.value = Date.now();
      trouble.value = "";
      pause = SHORTEST;
    } catch (error) {
      trouble.value = error instanceof Error ? error.message : String(error);
      pause = Math.max(error instanceof ApiError ? error.retryAfter * 1000 : 0, Math.min(LONGEST, pause * 2));
      if (!(error instanceof ApiError)) console.error(error);
    } finally {
      working.value = false;
      await countWaiting();
    }
  });
  later();
}

async function once(): Promise<void> {
  const sent = await push();
  const photos = await sendPhotos();
  const pulled = signer ? await pullSignedIn(signer) : false;
  if (sent || photos || pulled) changed();
}

/** Pull; where the session has ended, sign in by the key and pull once more. */
async function pullSignedIn(who: Signer): Promise<boolean> {
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
  return person;
}

/** A call that needs a session; signs in first where it has ended. */
export async function callSignedIn<T>(path: string): Promise<T> {
  try {
    return await call<T>(path);
  } catch (error) {
    if (!signer || !(error instanceof ApiError) || error.status !== 401) throw error;
    await signIn(signer);
    return call<T>(path);
  }
}

export function startSync(): void {
  addEventListener("online", wake);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && wake());
  void countWaiting();
  wake();
}
