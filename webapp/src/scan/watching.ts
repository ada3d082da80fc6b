/** Looking through the camera until one stops: what is in sight, told once each time it comes into sight. */
import { close, openCamera, type Trouble, troubleOf } from "./camera";
import { decoder, pictureOf, type Seen } from "./decoder";

/** Between two looks, in milliseconds. */
const PAUSE = 120;
/** For so long nothing may be found before it is said. */
export const PATIENCE = 10_000;
/** A text that was out of sight for so long is new when it is seen again. */
const OUT_OF_SIGHT = 1500;
/** What the frame drawn over the picture leaves out at each side: symbols inside it go before those beside it. */
const EDGE = 0.12;

export interface Watcher {
  opened(stream: MediaStream): void;
  trouble(what: Trouble): void;
  /** A text that came into sight. */
  found(text: string): void;
  /** One text is in sight, new or not. */
  one(): void;
  /** Two different texts are in sight, and neither is the one that is meant. */
  several(): void;
  /** Nothing was found for as long as one is patient. */
  nothing(): void;
}

/** How much of a video's width and height is shown: it fills its box, and what stands over is cut off. */
function shownPart(video: HTMLVideoElement): readonly [wide: number, high: number] {
  const ratio = video.clientWidth / video.clientHeight / (video.videoWidth / video.videoHeight);
  return ratio < 1 ? [ratio, 1] : [1, 1 / ratio];
}

/** The texts that may be meant: those of symbols inside the frame, where there are any. */
export function meant(seen: readonly Seen[], [wide, high]: readonly [number, number]): string[] {
  const half = 0.5 - EDGE;
  const inside = ({ across, down }: Seen) => Math.abs(across - 0.5) < wide * half && Math.abs(down - 0.5) < high * half;
  const within = seen.filter(inside);
  return [...new Set((within.length > 0 ? within : seen).map(({ text }) => text))];
}

/** What is new among what is in sight; a text stays known until it was out of sight for a while. */
export class InSight {
  private readonly last = new Map<string, number>();

  /** Whether a text that is seen now was not in sight before. */
  isNew(text: string, now: number): boolean {
    const before = this.last.get(text) ?? Number.NEGATIVE_INFINITY;
    this.last.set(text, now);
    return now - before > OUT_OF_SIGHT;
  }
}

/** Watch with a lens through a video element. The answer ends it and lets go of the camera. */
export function watch(video: HTMLVideoElement, lens: string, watcher: Watcher): () => void {
  let live = true;
  let stream: MediaStream | null = null;
  const begin = async () => {
    try {
      stream = await openCamera(lens);
    } catch (error) {
      if (live) watcher.trouble(troubleOf(error));
      return;
    }
    if (!live) return close(stream);
    video.srcObject = stream;
    watcher.opened(stream);
    await video.play().catch(() => {});
    await look(video, watcher, () => live);
  };
  // Only the decoder's own file can be missing: all else was answered above.
  begin().catch(() => {
    close(stream);
    if (live) watcher.trouble("no-reader");
  });
  return () => {
    live = false;
    close(stream);
    video.srcObject = null;
  };
}

async function look(video: HTMLVideoElement, watcher: Watcher, live: () => boolean): Promise<void> {
  const decode = await decoder();
  const known = new InSight();
  let heard = Date.now();
  // In turn as it is and sharpened, while nothing is found: a shaking hand or a lens that misses is helped by it.
  let sharpen = false;
  while (live()) {
    const picture = pictureOf(video);
    const texts: string[] = picture ? meant(await decode(picture, sharpen).catch(() => []), shownPart(video)) : [];
    if (!live()) return;
    const now = Date.now();
    const [text] = texts;
    sharpen = text === undefined && !sharpen;
    if (text !== undefined) heard = now;
    else if (now - heard > PATIENCE) watcher.nothing();
    if (texts.length > 1) watcher.several();
    else if (text !== undefined) {
      watcher.one();
      if (known.isNew(text, now)) watcher.found(text);
    }
    await new Promise((done) => setTimeout(done, PAUSE));
  }
}
