/** A new version waits until the user agrees; it is looked for at start, in the foreground, and every hour. */
import { signal } from "@preact/signals";
import { t } from "./language";

const waiting = signal<ServiceWorker | null>(null);
const EVERY = 3_600_000;

export async function startWorker(): Promise<void> {
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
  const hadOne = Boolean(navigator.serviceWorker.controller);
  const registration = await navigator.serviceWorker.register("/sw.js");
  const offer = () => {
    if (registration.waiting && navigator.serviceWorker.controller) waiting.value = registration.waiting;
  };
  offer();
  registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", offer));
  navigator.serviceWorker.addEventListener("controllerchange", () => hadOne && waiting.value && location.reload());
  const look = () => void registration.update().catch(() => {});
  setInterval(look, EVERY);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && look());
}

export function UpdateOffer() {
  if (!waiting.value) return null;
  return (
    <div class="toast" role="status">
      <span>{t("update-here")}</span>
      <button type="button" class="button" onClick={() => waiting.value?.postMessage("take over")}>
        {t("update-now")}
      </button>
    </div>
  );
}
