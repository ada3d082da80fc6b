/** A picture drawn anew, small enough to send: in a worker, so that the screen goes on answering meanwhile. */

const LONGEST = 2048;
const QUALITY = 0.85;

export interface Drawn {
  bytes: ArrayBuffer;
  width: number;
  height: number;
}

/** At most 2,048 pixels at its longer side, upright by its own orientation; null where it is no picture. */
export async function drawnSmall(file: Blob): Promise<Drawn | null> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file);
  } catch {
    return null;
  }
  const scale = Math.min(1, LONGEST / Math.max(bitmap.width, bitmap.height));
  const [width, height] = [Math.round(bitmap.width * scale), Math.round(bitmap.height * scale)];
  const canvas = new OffscreenCanvas(width, height);
  const pen = canvas.getContext("2d");
  if (pen) pen.imageSmoothingQuality = "high";
  pen?.drawImage(bitmap, 0, 0, width, height);
  bitmap.close();
  const blob = await canvas.convertToBlob({ type: "image/jpeg", quality: QUALITY });
  return { bytes: await blob.arrayBuffer(), width, height };
}
