/** For how long this phone can hold out with what is unsent on it: told to the server with each pull. */
import { withStore } from "./db";
import { isShort, lookAtRoom, room, roomLeft } from "./room";

const DAY = 86_400_000;
/** Safari erases what a page stored once it was not used for seven days of use; an app on the home screen is spared. */
export const SAFARI_KEEPS = 7 * DAY;
/** What a busy inspector takes in a day, by and large. */
const PHOTOS_A_DAY = 60;

/** Whether the app runs from the home screen. */
export function isInstalled(): boolean {
  const own = (navigator as { standalone?: boolean }).standalone === true;
  return own || matchMedia("(display-mode: standalone)").matches;
}

/** Whether this is a tab of an iPhone or iPad, whose store is erased when it lies unused. */
export function isIosTab(agent: string = navigator.userAgent, touch: number = navigator.maxTouchPoints): boolean {
  const ios = /iPhone|iPad|iPod/.test(agent) || (/Macintosh/.test(agent) && touch > 1);
  return ios && !isInstalled();
}

/** In seconds, at least 1, the shorter of what the browser keeps and what the room lasts; 0 where nobody can tell. */
export function holdsOut(): number {
  const left = roomLeft();
  const lasting = isShort() ? 1 : left ? (left.photos / PHOTOS_A_DAY) * DAY : Number.POSITIVE_INFINITY;
  const least = Math.min(lasting, isIosTab() ? SAFARI_KEEPS : Number.POSITIVE_INFINITY);
  return Number.isFinite(least) ? Math.max(1, Math.min(Math.round(least / 1000), 2 ** 29)) : 0;
}

/** What the server is told of this phone: how many records wait, for how many seconds the oldest has, and how long the
 * phone holds out. */
export async function tidings(): Promise<{ waiting: number; oldest: number; holds: number }> {
  if (room.value === null) await lookAtRoom();
  const { waiting, first } = await withStore(async (db) => {
    const tx = db.transaction("outbox");
    const cursor = await tx.store.index("order").openKeyCursor();
    return { waiting: await tx.store.count(), first: cursor?.key };
  });
  const oldest = first === undefined ? 0 : Math.max(1, Math.round((Date.now() - first) / 1000));
  return { waiting, oldest: Math.min(oldest, 2 ** 29), holds: holdsOut() };
}
