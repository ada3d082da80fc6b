/** Serves the app from its precache, all but the desk's screens; a new version waits until the user agrees. */
import { cleanupOutdatedCaches, matchPrecache, precacheAndRoute } from "workbox-precaching";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: { url: string; revision: string | null }[] };

const SERVERS_OWN = /^\/(api\/|openapi\.json|healthz)/;

cleanupOutdatedCaches();
precacheAndRoute(self.__WB_MANIFEST);

self.addEventListener("fetch", (event) => {
  const { pathname } = new URL(event.request.url);
  if (event.request.mode !== "navigate" || SERVERS_OWN.test(pathname)) return;
  event.respondWith(matchPrecache("/index.html").then((page) => page ?? fetch(event.request)));
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") void self.skipWaiting();
});

self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
