/** Whose turn it is: what somebody waits for goes first; what is only made ready waits for quiet moments. */

/** So many milliseconds at a time, between which the screen is drawn and answers. */
const SLICE = 24;
/** So long at most what is made ready stands back, where the browser is never quite idle. */
const PATIENCE = 250;

let waitedFor = 0;

/** Work that somebody waits for: until it is done, nothing is made ready beside it. */
export async function first<T>(work: () => Promise<T>): Promise<T> {
  waitedFor += 1;
  try {
    return await work();
  } finally {
    waitedFor -= 1;
  }
}

export function isWaitedFor(): boolean {
  return waitedFor > 0;
}

/** Until the browser has nothing more pressing to do, and nobody waits. */
export async function quiet(): Promise<void> {
  do await idle();
  while (waitedFor > 0);
}

function idle(): Promise<unknown> {
  return new Promise((done) =>
    "requestIdleCallback" in globalThis ? requestIdleCallback(done, { timeout: PATIENCE }) : setTimeout(done, 20),
  );
}

/** Until the screen has had its turn. */
export function drawn(): Promise<void> {
  return new Promise((done) => setTimeout(done));
}

/** Do something for each of many in slices, while it is wanted; pause: what is waited for in between. Whether all are done. */
export async function inSlices<T>(
  all: Iterable<T>,
  each: (one: T) => void,
  pause: () => Promise<unknown>,
  isWanted: () => boolean = () => true,
): Promise<boolean> {
  let since = performance.now();
  for (const one of all) {
    if (!isWanted()) return false;
    each(one);
    if (performance.now() - since < SLICE) continue;
    await pause();
    since = performance.now();
  }
  return true;
}
