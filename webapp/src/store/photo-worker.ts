/** Draws photos small, one after the other, away from the screen's own thread. */
import { drawnSmall } from "./shrinking";

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

scope.onmessage = async (event: MessageEvent<Blob>) => {
  const drawn = await drawnSmall(event.data).catch(() => null);
  scope.postMessage(drawn, drawn ? [drawn.bytes] : []);
};
