/** A photo made small enough to send, upright, without what the camera wrote beside the picture. */
import { t } from "../language";
import { sha256 } from "./bytes";
import type { StoredPhoto } from "./db";
import { type Drawn, drawnSmall } from "./shrinking";

export class PhotoError extends Error {}

export interface Shrunk {
  photo: StoredPhoto;
  width: number;
  height: number;
}

/** One photo at a time: two of 12 million pixels at once are more than a small phone can hold. */
let last: Promise<unknown> = Promise.resolve();

/**
 * The picture of a file, drawn anew and small, away from the thread that answers the finger.
 *
 * Throws PhotoError, which says what to do, where the file is no picture that this phone can read.
 */
export function shrink(file: Blob): Promise<Shrunk> {
  const mine = last.then(() => shrinkNow(file));
  last = mine.catch(() => {});
  return mine;
}

async function shrinkNow(file: Blob): Promise<Shrunk> {
  const drawn = (await drawnByWorker(file)) ?? (await drawnSmall(file));
  if (!drawn) throw new PhotoError(t("photo-no-picture"));
  const { bytes, width, height } = drawn;
  return { photo: { sha256: await sha256(bytes), media_type: "image/jpeg", bytes, reason: "" }, width, height };
}

/** Null where there is no worker or it came to nothing: then it is tried here, slower, before anything is said. */
function drawnByWorker(file: Blob): Promise<Drawn | null> {
  return new Promise((done) => {
    let worker: Worker;
    try {
      worker = new Worker(new URL("./photo-worker.ts", import.meta.url), { type: "module" });
    } catch {
      return done(null);
    }
    const end = (drawn: Drawn | null) => {
      worker.terminate();
      done(drawn);
    };
    worker.onmessage = (event: MessageEvent<Drawn | null>) => end(event.data);
    worker.onerror = () => end(null);
    worker.postMessage(file);
  });
}
