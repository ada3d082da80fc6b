/** A photo made small enough to send, upright, without what the camera wrote beside the picture. */
import { t } from "../language";
import { sha256 } from "./bytes";
import type { StoredPhoto } from "./db";

const LONGEST = 2048;
const QUALITY = 0.85;

export class PhotoError extends Error {}

export interface Shrunk {
  photo: StoredPhoto;
  width: number;
  height: number;
}

/**
 * The picture of a file, drawn anew: at most 2,048 pixels at its longer side, upright by its own orientation.
 *
 * Throws PhotoError, which says what to do, where the file is no picture that this phone can read.
 */
export async function shrink(file: Blob): Promise<Shrunk> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file);
  } catch {
    throw new PhotoError(t("photo-no-picture"));
  }
  const scale = Math.min(1, LONGEST / Math.max(bitmap.width, bitmap.height));
  const [width, height] = [Math.round(bitmap.width * scale), Math.round(bitmap.height * scale)];
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext("2d")?.drawImage(bitmap, 0, 0, width, height);
  bitmap.close();
  const blob = await canvas.convertToBlob({ type: "image/jpeg", quality: QUALITY });
  const bytes = await blob.arrayBuffer();
  return { photo: { sha256: await sha256(bytes), media_type: "image/jpeg", bytes, reason: "" }, width, height };
}
