/** A new version waits until the user agrees; it is looked for at start, in the foreground, and every hour. */
import { signal } from "@preact/signals";
import { t } from "./language";

const waiting = signal<ServiceWorker | null>(null);
/** Asked for in this tab: another tab may be in the middle of a reading, and goes on with what it has. */
let asked = false;
const EVERY = 3_600_000;

export async function startWorker(): Promise<void> {
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
  const registration = await navigator.serviceWorker.register("/sw.js");
  const offer = () => {
    if (registration.waiting && navigator.serviceWorker.controller) waiting.value = registration.waiting;
  };
  offer();
  registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", offer));
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (asked) location.reload();
    waiting.value = null;
  });
  const look = () => void registration.update().catch(() => {});
  setInterval(look, EVERY);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && look());
}

function takeOver(): void {
  asked = true;
  waiting.value?.postMessage("take over");
}

/** Load the page again, as the new version where one waits. */
export async function loadNewest(): Promise<void> {
  const registration = await navigator.serviceWorker?.getRegistration();
  await registration?.update().catch(() => {});
  waiting.value = registration?.waiting ?? null;
  if (waiting.value) takeOver();
  else location.reload();
}

export function UpdateOffer() {
  if (!waiting.value) return null;
  return (
    <div class="toast" role="status">
      <span>{t("update-here")}</span>
      <button type="button" class="button" onClick={takeOver}>
        {t("update-now")}
      </button>
    </div>
  );
}
