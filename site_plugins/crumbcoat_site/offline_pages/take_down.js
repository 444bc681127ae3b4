// Written by `mkdocs serve`: takes down a worker that an earlier visit to a built site left at this address.
addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => {
  const down = async () => {
    for (const name of await caches.keys()) if (name.startsWith(`${registration.scope} `)) await caches.delete(name);
    await registration.unregister();
    for (const client of await clients.matchAll({ type: "window" })) await client.navigate(client.url);
  };
  event.waitUntil(down());
});
