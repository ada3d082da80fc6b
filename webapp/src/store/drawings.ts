/** Drawings of a job: they come by its feed; the picture is fetched when it is first looked at, and kept. */
import type { components } from "../api/schema";
import { callSignedIn } from "../sync/loop";
import { withStore } from "./db";

export type Drawing = components["schemas"]["Drawing"];
export type Pin = components["schemas"]["Pin"];

const CACHE = "drawings";
/** What every key of a drawing's row begins with: its kind and its scope. */
const keyOf = (scope: string) => `drawing ${scope}`;

/** The drawings of a job that this phone has heard of, by sheet: 2 stands before 10. */
export async function drawingsOf(job: string): Promise<Drawing[]> {
  const found = await rows(`${keyOf(`job:${job}`)} `);
  return found.sort((a, b) => a.sheet.length - b.sheet.length || (a.sheet < b.sheet ? -1 : 1));
}

async function rows(prefix: string): Promise<Drawing[]> {
  const range = IDBKeyRange.bound(prefix, `${prefix}\uffff`);
  return (await withStore((db) => db.getAll("master", range))).map(({ body }) => body as Drawing);
}

/** Where the picture of a drawing is to be had: large, since its small type has to be read. */
export const pictureAt = (drawing: Drawing) => `/api/v1/photos/${drawing.sha256}?size=large`;

const addresses = new Map<string, string>();

/** An address of a drawing's picture on this phone; '' where it is not here and cannot be fetched now. */
export async function pictureOf(drawing: Drawing): Promise<string> {
  const known = addresses.get(drawing.sha256);
  if (known) return known;
  const picture = await kept(drawing).catch(() => null);
  if (!picture) return "";
  const address = URL.createObjectURL(picture);
  addresses.set(drawing.sha256, address);
  return address;
}

async function kept(drawing: Drawing): Promise<Blob | null> {
  const cache = await caches.open(CACHE);
  const here = await cache.match(pictureAt(drawing));
  if (here) return here.blob();
  const answer = await fetched(pictureAt(drawing));
  // A page that asks to sign in to a network is no picture.
  if (!answer.ok || !answer.headers.get("Content-Type")?.startsWith("image/")) return null;
  // Where the phone is full the picture is shown all the same, and fetched again the next time.
  await cache.put(pictureAt(drawing), answer.clone()).catch(() => {});
  await forgetOthers(cache);
  return answer.blob();
}

/** Fetch by the session; sign in first where it has ended. */
async function fetched(path: string): Promise<Response> {
  const answer = await fetch(path);
  if (answer.status !== 401) return answer;
  await callSignedIn("/jobs");
  return fetch(path);
}

/** Pictures of sheets that were replaced, or whose job has left this phone, make room. */
async function forgetOthers(cache: Cache): Promise<void> {
  const named = new Set((await rows(keyOf("job:"))).map((one) => new URL(pictureAt(one), location.href).href));
  for (const request of await cache.keys()) if (!named.has(request.url)) await cache.delete(request);
}
