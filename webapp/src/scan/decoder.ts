/** The decoder of QR symbols. Its wasm is our own file, precached: no other host is ever asked. */
import wasm from "zxing-wasm/reader/zxing_reader.wasm?url";
import { OPTIONS } from "./options";
import { sharpened } from "./sharpening";

/** A text that was found, and where its symbol's middle lies, as parts of the picture's width and height. */
export interface Seen {
  readonly text: string;
  readonly across: number;
  readonly down: number;
}

/** sharpen: for a picture in which nothing was found as it is. */
type Decoder = (picture: ImageData, sharpen: boolean) => Promise<Seen[]>;

let made: Promise<Decoder> | null = null;

async function load(): Promise<Decoder> {
  const { prepareZXingModule, readBarcodes } = await import("zxing-wasm/reader");
  prepareZXingModule({ overrides: { locateFile: () => wasm } });
  return async (picture, sharpen) => {
    const found = await readBarcodes(sharpen ? sharpened(picture) : picture, OPTIONS);
    return found.map(({ text, position }) => ({
      text,
      across: (position.topLeft.x + position.bottomRight.x) / 2 / picture.width,
      down: (position.topLeft.y + position.bottomRight.y) / 2 / picture.height,
    }));
  };
}

export function decoder(): Promise<Decoder> {
  made ??= load();
  made.catch(() => {
    made = null;
  });
  return made;
}

let canvas: HTMLCanvasElement | null = null;

/** What a video shows at this moment; null while it shows nothing. */
export function pictureOf(video: HTMLVideoElement): ImageData | null {
  const { videoWidth: width, videoHeight: height } = video;
  if (video.readyState < 2 || !width || !height) return null;
  canvas ??= document.createElement("canvas");
  if (canvas.width !== width) canvas.width = width;
  if (canvas.height !== height) canvas.height = height;
  const drawing = canvas.getContext("2d", { willReadFrequently: true });
  drawing?.drawImage(video, 0, 0);
  return drawing?.getImageData(0, 0, width, height) ?? null;
}
