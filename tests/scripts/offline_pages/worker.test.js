// The service worker when a new version of the site is installed, with caches and a network made here.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { compileFunction } from "node:vm";

const WORKER = new URL("../../../site_plugins/crumbcoat_site/offline_pages/worker.js", import.meta.url);
const SCOPE = "https://lantern.example/cards/";
const SAME = "assets/0123456789ab/same.js";
const NEW = "assets/ba9876543210/new.js";

/** A cache: texts by address. */
class Cache {
  /** @type {Map<string, string>} */
  texts = new Map();

  /**
   * @param {string} address
   * @param {Response} response
   */
  async put(address, response) {
    this.texts.set(address, await response.text());
  }

  /** @param {string} address */
  async match(address) {
    const text = this.texts.get(address);
    return text === undefined ? undefined : new Response(text);
  }

  async keys() {
    return [...this.texts.keys()].map((url) => ({ url }));
  }
}

/** The caches of a site by name; asked without a name, the one that was made first answers first. */
class Caches {
  /** @type {Map<string, Cache>} */
  made = new Map();

  /** @param {string} name */
  async open(name) {
    const cache = this.made.get(name) ?? new Cache();
    this.made.set(name, cache);
    return cache;
  }

  async keys() {
    return [...this.made.keys()];
  }

  /** @param {string} address */
  async match(address) {
    return [...this.made.values()].find(({ texts }) => texts.has(address))?.match(address);
  }

  /** @param {string} name */
  async delete(name) {
    return this.made.delete(name);
  }
}

/**
 * The worker of a version of the site, and a way to have one of its events handled: what it answers, or waits for.
 *
 * @param {string} version
 * @param {Caches} caches
 * @param {(address: string | { url: string }) => Promise<Response>} fetch
 */
function workerOf(version, caches, fetch) {
  /** @type {Record<string, (event: object) => void>} */
  const handlers = {};
  const self = {
    registration: { scope: SCOPE },
    clients: { claim: async () => {} },
    /** @param {string} type @param {(event: object) => void} handler */
    addEventListener: (type, handler) => void (handlers[type] = handler),
  };
  const site = { version, shell: ["index.html", "offline.html", SAME, NEW], later: [] };
  compileFunction(readFileSync(WORKER, "utf-8"), ["self", "caches", "fetch", "SITE"])(self, caches, fetch, site);
  return (/** @type {string} */ type, event = {}) =>
    new Promise((resolve) => {
      handlers[type]?.({ ...event, waitUntil: resolve, respondWith: resolve });
    });
}

test("a new version fetches every file but those with a digest that are kept, and offline its front page is shown", async () => {
  const caches = new Caches();
  const old = await caches.open(`${SCOPE} files 1`);
  for (const name of ["index.html", "offline.html", SAME]) await old.put(SCOPE + name, new Response(`old ${name}`));
  /** @type {string[]} */
  const fetched = [];
  let isOnline = true;
  const handled = workerOf("2", caches, async (address) => {
    if (!isOnline || typeof address !== "string") throw new TypeError("there is no network");
    fetched.push(address.slice(SCOPE.length));
    return new Response(`new ${address.slice(SCOPE.length)}`);
  });

  await handled("install");
  assert.deepEqual(fetched, ["index.html", "offline.html", NEW]);
  const { texts } = await caches.open(`${SCOPE} files 2`);
  const kept = ["index.html", "offline.html", SAME, NEW].map((name) => texts.get(SCOPE + name));
  assert.deepEqual(kept, ["new index.html", "new offline.html", `old ${SAME}`, `new ${NEW}`]);

  await handled("activate");
  assert.deepEqual((await caches.keys()).filter((name) => name.includes(" files ")), [`${SCOPE} files 2`]);
  isOnline = false;
  const request = { method: "GET", mode: "navigate", url: SCOPE, headers: new Headers() };
  const front = /** @type {Response} */ (await handled("fetch", { request }));
  assert.equal(await front.text(), "new index.html");
});
