// The service worker: pages that were visited work without a network, with all that they need. SITE, above, is written
// by the build: the version, `shell` (files that every page needs, kept before they are used) and `later` (large files,
// kept when they are first used).
//
// - A file with a digest in its address never changes: it comes from the device if it is kept there.
// - Everything else comes from the network, and from the device only if there is no network.
// - A new version waits until no page of the old one is open; each page keeps the files that it began with.
// - Visited pages are kept up to MOST_PAGES and MOST_BYTES; the oldest goes first.
const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const SCOPE = worker.registration.scope;
const FILES = `${SCOPE} files `;
const NOW = FILES + SITE.version;
const PAGES = `${SCOPE} pages`;
const LATER = `${SCOPE} later`;
const MOST_PAGES = 150;
const MOST_BYTES = 30_000_000;
const MOST_OLD_VERSIONS = 2;
const DIGEST = /[./-][0-9a-f]{8,64}[./]/;

const addressOf = (/** @type {string} */ path) => new URL(path, SCOPE).href;
const shell = new Set(SITE.shell.map(addressOf));
const later = new Set(SITE.later.map(addressOf));

worker.addEventListener("install", (event) => event.waitUntil(keepShell()));
worker.addEventListener("activate", (event) => event.waitUntil(dropOldVersions().then(() => worker.clients.claim())));
worker.addEventListener("message", (event) => event.waitUntil(keepUsed(event.data)));
worker.addEventListener("notificationclick", (event) => event.waitUntil(openPage(event.notification)));
worker.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(SCOPE) || request.headers.has("range")) return;
  const url = new URL(request.url);
  const address = url.origin + url.pathname;
  event.respondWith(DIGEST.test(url.pathname) ? keptFirst(event, address) : networkFirst(event, address));
});

/**
 * A click on a notification leads to the page that it names, in a window where it is open if there is one.
 *
 * @param {Notification} notification
 */
async function openPage(notification) {
  notification.close();
  const { clients } = worker;
  const url = new URL(notification.data?.href ?? "", SCOPE);
  const open = await clients.matchAll({ type: "window", includeUncontrolled: true });
  const there = open.find((client) => new URL(client.url).pathname === url.pathname);
  if (there) return there.focus();
  const [first] = open;
  return first ? (await first.focus()).navigate(url) : clients.openWindow(url);
}

async function keepShell() {
  const cache = await caches.open(NOW);
  await Promise.all(
    [...shell].map(async (address) => {
      const kept = DIGEST.test(address) ? await caches.match(address) : undefined;
      const response = kept ?? (await fetch(address, { cache: "no-cache" }));
      if (!response.ok) throw new Error(`${response.status} for ${address}`);
      await cache.put(address, response);
    }),
  );
}

/** Drops older versions, except the last few that a kept page still needs. */
async function dropOldVersions() {
  const pages = [];
  for (const { request, response } of await keptPages()) pages.push({ request, text: await response.text() });
  const old = (await caches.keys()).filter((name) => name.startsWith(FILES) && name !== NOW).reverse();
  let left = 0;
  for (const name of old) {
    const files = (await (await caches.open(name)).keys()).map(({ url }) => url);
    const gone = files.filter((url) => DIGEST.test(url) && !shell.has(url)).map((url) => url.slice(SCOPE.length));
    const needing = pages.filter(({ text }) => gone.some((file) => text.includes(file)));
    if (needing.length && left < MOST_OLD_VERSIONS) {
      left += 1;
      continue;
    }
    const cache = await caches.open(PAGES);
    await Promise.all(needing.map(({ request }) => cache.delete(request)));
    await caches.delete(name);
  }
  if (left) return;
  const cache = await caches.open(LATER);
  for (const request of await cache.keys()) if (!later.has(request.url)) await cache.delete(request);
}

/** The pages that are kept, the oldest first. */
async function keptPages() {
  const cache = await caches.open(PAGES);
  const pages = [];
  for (const request of await cache.keys()) {
    const response = await cache.match(request);
    if (response && isPage(response)) pages.push({ request, response });
  }
  return pages;
}

/**
 * { keep: addresses } from a page that was loaded before this worker ran; { later: true } when the large files are in
 * use: those that were are in the browser's own cache, and no others are fetched.
 *
 * @param {{ keep?: string[], later?: boolean }} message
 */
async function keepUsed({ keep = [], later: areLaterUsed = false }) {
  const addresses = keep.map((url) => new URL(url)).map((url) => url.origin + url.pathname);
  for (const address of areLaterUsed ? [...addresses, ...later] : addresses) {
    if (shell.has(address) || (DIGEST.test(address) && (await caches.match(address)))) continue;
    try {
      await keepResponse(address, await (later.has(address) ? fetch(address, { cache: "only-if-cached", mode: "same-origin" }) : fetch(address)));
    } catch (error) {
      if (!(error instanceof TypeError)) throw error; // Not to be had now: it is kept at the next visit.
    }
  }
}

/**
 * @param {FetchEvent} event
 * @param {string} address
 */
async function keptFirst(event, address) {
  const kept = await caches.match(address);
  if (kept) return kept;
  const response = await fetch(event.request);
  if (response.ok) event.waitUntil(keepResponse(address, response.clone()));
  return response;
}

/**
 * @param {FetchEvent} event
 * @param {string} address
 */
async function networkFirst(event, address) {
  const { request } = event;
  let response;
  try {
    response = await fetch(request);
  } catch {
    return (await keptResponse(address)) ?? (request.mode === "navigate" ? notKeptPage() : Response.error());
  }
  if (!response.ok || response.type !== "basic") return response;
  if (!shell.has(address)) event.waitUntil(keepResponse(address, response.clone()));
  // A page of another build, fetched to be put into an open one: refused, so that it is loaded whole, with its own files.
  const isSwappedIn = request.mode !== "navigate" && isPage(response);
  return isSwappedIn && (await isOfAnotherBuild(address, response.clone())) ? Response.error() : response;
}

/** @param {string} address */
async function keptResponse(address) {
  const pages = await caches.open(PAGES);
  const files = await caches.open(NOW);
  for (const name of [address, `${address}index.html`, address.replace(/index\.html$/, "")]) {
    const kept = (await pages.match(name)) ?? (await files.match(name));
    if (kept) return kept;
  }
  return undefined;
}

/** @param {Response} response */
function isPage(response) {
  return (response.headers.get("content-type") ?? "").startsWith("text/html");
}

/**
 * Whether a page names a file with a digest that this version does not have.
 *
 * @param {string} address
 * @param {Response} response
 */
async function isOfAnotherBuild(address, response) {
  const names = (await response.text()).matchAll(/(?:href|src)="([^"#?]+\.(?:css|js))"/g);
  return [...names].map(([, name = ""]) => new URL(name, address).href).some((file) => DIGEST.test(file) && !shell.has(file));
}

/**
 * Keeps a response as the newest, and drops the oldest beyond the limits.
 *
 * @param {string} address
 * @param {Response} response
 */
async function keepResponse(address, response) {
  if (!response.ok) return;
  const bytes = await response.blob();
  const headers = new Headers({ "content-type": response.headers.get("content-type") ?? "", "x-bytes": String(bytes.size) });
  if (isPage(response)) headers.set("x-title", encodeURIComponent(titleOf(await bytes.text())));
  const cache = await caches.open(later.has(address) ? LATER : PAGES);
  await cache.delete(address);
  await cache.put(address, new Response(bytes, { headers }));
  if (later.has(address)) return;
  let total = 0;
  for (const [number, request] of [...(await cache.keys())].reverse().entries()) {
    const kept = await cache.match(request);
    total += Number(kept?.headers.get("x-bytes") ?? 0);
    if (number >= MOST_PAGES || total > MOST_BYTES) await cache.delete(request);
  }
}

/** @param {string} html */
function titleOf(html) {
  return html.match(/<title>([^<]*)</)?.[1]?.trim() ?? "";
}

/** The page for one that is not kept, with a list of those that are. */
async function notKeptPage() {
  const links = (await keptPages()).reverse().map(({ request, response }) => {
    const title = decodeURIComponent(response.headers.get("x-title") ?? ""); // It is HTML already.
    return `<li><a href="${encodeURI(decodeURI(request.url))}">${title}</a></li>`;
  });
  const page = await (await caches.open(NOW)).match(addressOf("offline.html"));
  if (!page) return Response.error();
  const body = (await page.text()).replace("<!-- kept -->", () => links.join("\n"));
  return new Response(body, { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}
