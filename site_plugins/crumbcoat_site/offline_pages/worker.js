// The service worker: pages and what they need stay of use without a network. SITE, above, is written by the build:
// the version, `shell` (files that every page needs, kept ahead) and `later` (large files, kept when first used).
//
// - A file with a digest in its address never changes: it comes from what is kept.
// - Everything else comes from the network, and from what is kept if there is none.
// - A new version waits until no page of the old one is open; each page goes on with the files that it began with.
// - What was visited is kept up to MOST and MOST_BYTES; the oldest goes first.
const SCOPE = registration.scope;
const FILES = `${SCOPE} files `;
const NOW = FILES + SITE.version;
const PAGES = `${SCOPE} pages`;
const LATER = `${SCOPE} later`;
const MOST = 150;
const MOST_BYTES = 30_000_000;
const OLD_VERSIONS = 2;
const DIGEST = /[./-][0-9a-f]{8,64}[./]/;

const at = (path) => new URL(path, SCOPE).href;
const shell = new Set(SITE.shell.map(at));
const later = new Set(SITE.later.map(at));

addEventListener("install", (event) => event.waitUntil(keepAhead()));
addEventListener("activate", (event) => event.waitUntil(tidy().then(() => clients.claim())));
addEventListener("message", (event) => event.waitUntil(asked(event.data)));
addEventListener("notificationclick", (event) => event.waitUntil(toPage(event.notification)));
addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(SCOPE) || request.headers.has("range")) return;
  const url = new URL(request.url);
  const place = url.origin + url.pathname;
  event.respondWith(DIGEST.test(url.pathname) ? fixed(event, place) : fresh(event, place));
});

/** A notice with an address in its data leads to a page there, one that is open if there is one. */
async function toPage(notice) {
  notice.close();
  const address = new URL(notice.data?.href ?? "", SCOPE);
  const open = await clients.matchAll({ type: "window", includeUncontrolled: true });
  const there = open.find(({ url }) => new URL(url).pathname === address.pathname);
  if (there) return there.focus();
  return open.length ? (await open[0].focus()).navigate(address) : clients.openWindow(address);
}

async function keepAhead() {
  const cache = await caches.open(NOW);
  await Promise.all(
    [...shell].map(async (place) => {
      const already = DIGEST.test(place) && (await caches.match(place));
      const response = already || (await fetch(place, { cache: "no-cache" }));
      if (!response.ok) throw new Error(`${response.status} for ${place}`);
      await cache.put(place, response);
    }),
  );
}

/** Drops older versions, but not one that a kept page still needs, and of those the last OLD_VERSIONS only. */
async function tidy() {
  const pages = await caches.open(PAGES);
  const kept = [];
  for (const request of await pages.keys()) {
    const response = await pages.match(request);
    if (isPage(response)) kept.push({ request, text: await response.text() });
  }
  const old = (await caches.keys()).filter((name) => name.startsWith(FILES) && name !== NOW).reverse();
  let left = 0;
  for (const name of old) {
    const files = (await (await caches.open(name)).keys()).map(({ url }) => url);
    const gone = files.filter((url) => DIGEST.test(url) && !shell.has(url)).map((url) => url.slice(SCOPE.length));
    const needing = kept.filter(({ text }) => gone.some((file) => text.includes(file)));
    if (needing.length && left < OLD_VERSIONS) {
      left += 1;
      continue;
    }
    await Promise.all(needing.map(({ request }) => pages.delete(request)));
    await caches.delete(name);
  }
  if (left) return;
  const cache = await caches.open(LATER);
  for (const request of await cache.keys()) if (!later.has(request.url)) await cache.delete(request);
}

/**
 * { keep: addresses } from a page that came before this worker did; { later: true } when those files are in use: then
 * the browser's own cache has those that were, and no others are fetched.
 */
async function asked({ keep = [], later: used = false }) {
  const places = keep.map((url) => new URL(url)).map((url) => url.origin + url.pathname);
  for (const place of used ? [...places, ...later] : places) {
    if (shell.has(place) || (DIGEST.test(place) && (await caches.match(place)))) continue;
    const options = later.has(place) ? { cache: "only-if-cached", mode: "same-origin" } : {};
    try {
      await store(place, await fetch(place, options));
    } catch (error) {
      if (!(error instanceof TypeError)) throw error; // Not there: it is kept at the next visit.
    }
  }
}

async function fixed(event, place) {
  const kept = await caches.match(place);
  if (kept) return kept;
  const response = await fetch(event.request);
  if (response.ok) event.waitUntil(store(place, response.clone()));
  return response;
}

async function fresh(event, place) {
  const { request } = event;
  let response;
  try {
    response = await fetch(request);
  } catch {
    return (await keptPage(place)) ?? (request.mode === "navigate" ? notKept() : Response.error());
  }
  if (!response.ok || response.type !== "basic") return response;
  if (!shell.has(place)) event.waitUntil(store(place, response.clone()));
  // A page of another build, fetched to be put into an open one: refused, so that it is loaded whole, with its own files.
  if (request.mode !== "navigate" && isPage(response) && (await ofAnotherBuild(place, response.clone()))) return Response.error();
  return response;
}

async function keptPage(place) {
  const pages = await caches.open(PAGES);
  const files = await caches.open(NOW);
  for (const one of [place, `${place}index.html`, place.replace(/index\.html$/, "")]) {
    const kept = (await pages.match(one)) ?? (await files.match(one));
    if (kept) return kept;
  }
  return undefined;
}

function isPage(response) {
  return (response.headers.get("content-type") ?? "").startsWith("text/html");
}

async function ofAnotherBuild(place, response) {
  const names = (await response.text()).matchAll(/(?:href|src)="([^"#?]+\.(?:css|js))"/g);
  return [...names].map(([, name]) => new URL(name, place).href).some((file) => DIGEST.test(file) && !shell.has(file));
}

/** Keeps a response as the newest, and drops the oldest beyond the bounds. */
async function store(place, response) {
  if (!response.ok) return;
  const bytes = await response.blob();
  const headers = new Headers({ "content-type": response.headers.get("content-type") ?? "", "x-bytes": bytes.size });
  if (isPage(response)) headers.set("x-title", encodeURIComponent(titleOf(await bytes.text())));
  const cache = await caches.open(later.has(place) ? LATER : PAGES);
  await cache.delete(place);
  await cache.put(place, new Response(bytes, { headers }));
  if (later.has(place)) return;
  let total = 0;
  for (const [number, request] of (await cache.keys()).reverse().entries()) {
    const kept = await cache.match(request);
    total += Number(kept?.headers.get("x-bytes"));
    if (number >= MOST || total > MOST_BYTES) await cache.delete(request);
  }
}

function titleOf(text) {
  return text.match(/<title>([^<]*)</)?.[1].trim() ?? "";
}

/** The page that says so, with a list of those that are kept. */
async function notKept() {
  const files = await caches.open(NOW);
  const pages = await caches.open(PAGES);
  const links = [];
  for (const request of (await pages.keys()).reverse()) {
    const kept = await pages.match(request);
    // The title stands as it stood in HTML.
    if (isPage(kept)) links.push(`<li><a href="${encodeURI(decodeURI(request.url))}">${decodeURIComponent(kept.headers.get("x-title"))}</a></li>`);
  }
  const text = await (await files.match(at("offline.html"))).text();
  const body = text.replace("<!-- kept -->", () => links.join("\n"));
  return new Response(body, { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}
