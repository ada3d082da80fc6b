/** The browser's offer to install the app, kept until it is taken up: it comes early, and once. */
import { signal } from "@preact/signals";

export interface InstallOffer extends Event {
  prompt(): Promise<unknown>;
}

export const installOffer = signal<InstallOffer | null>(null);

export function listenForOffer(): void {
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    installOffer.value = event as InstallOffer;
  });
}
