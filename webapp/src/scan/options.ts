/** How the decoder looks for a symbol. */
import type { ReaderOptions } from "zxing-wasm/reader";

export const OPTIONS: ReaderOptions = {
  formats: ["QRCode"],
  textMode: "Plain",
  tryHarder: true,
  tryRotate: true,
  tryInvert: true,
  tryDownscale: true,
};
