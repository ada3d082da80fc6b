/** The camera and the decoder. The decoder's wasm is our own file, precached: no other host is ever asked. */
import wasm from "zxing-wasm/reader/zxing_reader.wasm?url";

type Detector = { detect(source: HTMLVideoElement | ImageBitmap): Promise<{ rawValue: string }[]> };

let detector: Promise<Detector> | null = null;

async function load(): Promise<Detector> {
  const { BarcodeDetector, prepareZXingModule } = await import("barcode-detector/ponyfill");
  prepareZXingModule({ overrides: { locateFile: () => wasm } });
  return new BarcodeDetector({ formats: ["qr_code"] });
}

export function decoder(): Promise<Detector> {
  detector ??= load();
  return detector;
}

/** Why there is no picture, in words that say what to do. */
export function cameraTrouble(error: unknown): string {
  const name = error instanceof DOMException ? error.name : "";
  if (name === "NotAllowedError") {
    return "The camera is not allowed. Allow it in the browser's settings for this page, or type the code.";
  }
  if (name === "NotFoundError" || !navigator.mediaDevices)
    return "There is no camera here. Type the code or pick the mark.";
  return "The camera does not start; another app may hold it. Close that app, or type the code.";
}

export function openCamera(): Promise<MediaStream> {
  const video = { facingMode: { ideal: "environment" }, width: { ideal: 1280 }, height: { ideal: 720 } };
  return navigator.mediaDevices.getUserMedia({ video, audio: false });
}
