// Written by `mkdocs serve`: removes a service worker that an earlier visit to a built site left at this address.
const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

worker.addEventListener("install", () => worker.skipWaiting());
worker.addEventListener("activate", (event) => event.waitUntil(takeDown()));

async function takeDown() {
  const { clients, registration } = worker;
  for (const name of await caches.keys()) if (name.startsWith(`${registration.scope} `)) await caches.delete(name);
  await registration.unregister();
  for (const client of await clients.matchAll({ type: "window" })) await client.navigate(client.url);
}
