/** The sticker of a gauge: `HTTPS://HOST/G/ID`. */
import { idIn } from "./stickers";

/** The id of the gauge whose sticker was read, in capitals; null where the text is no sticker of a gauge. */
export function readGauge(text: string): string | null {
  return idIn(text, "g")?.id ?? null;
}
