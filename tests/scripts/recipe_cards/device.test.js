// What the device keeps; and what happens when it is full, blocks it, or holds something that cannot be read.
import assert from "node:assert/strict";
import { test } from "node:test";

import { DeviceStore, MOST_RECIPES, MOST_TEXTS, deviceStore } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/device.js";

const SITE = "crumbcoat:1:/kitchen/:";

/** A browser's storage with room for a number of letters. As in a browser, its keys are its properties. */
class Storage {
  #room;

  constructor(room = Infinity) {
    this.#room = room;
  }

  /** @param {string} key */
  getItem(key) {
    return Object.entries(this).find(([other]) => other === key)?.[1] ?? null;
  }

  /**
   * @param {string} key
   * @param {string} text
   */
  setItem(key, text) {
    const wanted = { ...this, [key]: text };
    const letters = Object.entries(wanted).join("").length;
    if (letters > this.#room) throw new DOMException("there is no room", "QuotaExceededError");
    Object.assign(this, { [key]: text });
  }

  /** @param {string} key */
  removeItem(key) {
    Reflect.deleteProperty(this, key);
  }
}

/** @param {Storage} storage */
function deviceWith(storage) {
  return new DeviceStore(SITE, () => /** @type {any} */ (storage));
}

test("a value comes back as it was kept", () => {
  const storage = new Storage();
  const value = { now: { state: { factor: "2" }, ticks: [] } };
  assert.equal(deviceWith(storage).set("recipe:plain", value), true);
  assert.deepEqual(deviceWith(storage).get("recipe:plain"), value);
  assert.equal(deviceWith(storage).get("recipe:other"), null);
  assert.deepEqual(Object.keys(storage), [`${SITE}recipe:plain`]);
});

test("what cannot be read counts as nothing", () => {
  const storage = new Storage();
  storage.setItem(`${SITE}timers`, "{not JSON");
  assert.equal(deviceWith(storage).get("timers"), null);
});

test("a full device keeps a value for as long as the page is open, and says so", () => {
  const device = deviceWith(new Storage(0));
  const value = { ticks: ["butter"] };
  assert.equal(device.set("recipe:plain", value), false);
  value.ticks.push("sugar");
  assert.deepEqual(device.get("recipe:plain"), { ticks: ["butter"] });
});

test("so does a browser that blocks its storage", () => {
  const device = new DeviceStore(SITE, () => {
    throw new DOMException("blocked", "SecurityError");
  });
  assert.equal(device.set("recipe:plain", [1]), false);
  assert.deepEqual(device.get("recipe:plain"), [1]);
  assert.equal(device.get("recipe:other"), null);
});

test("a value that fits again is kept for good", () => {
  const storage = new Storage(60);
  const device = deviceWith(storage);
  assert.equal(device.set("recipe:plain", "x".repeat(60)), false);
  assert.equal(device.set("recipe:plain", "short"), true);
  assert.equal(deviceWith(storage).get("recipe:plain"), "short");
});

test("a full device drops the recipe that was not used for longest, and never the one that is being kept", () => {
  const storage = new Storage(210);
  const device = deviceWith(storage);
  device.set("recipe:newest", { used: 3 });
  device.set("recipe:oldest", { used: 1 });
  device.set("recipe:middle", { used: 2 });
  assert.equal(device.set("recipe:kept", { used: 0, more: "x".repeat(30) }), true);
  assert.deepEqual(Object.keys(storage), [`${SITE}recipe:newest`, `${SITE}recipe:middle`, `${SITE}recipe:kept`]);
  assert.equal(device.set("recipe:kept", "x".repeat(250)), false);
  assert.deepEqual(Object.keys(storage), [`${SITE}recipe:kept`]);
});

test(`of more than ${MOST_RECIPES} recipes the one that was not used for longest goes; other values do not count`, () => {
  const storage = new Storage();
  const device = deviceWith(storage);
  storage.setItem("recipe:another site's", "{}");
  device.set("timers", []);
  for (let used = 1; used <= MOST_RECIPES; used += 1) device.set(`recipe:${used}`, { used });
  assert.deepEqual(device.get("recipe:1"), { used: 1 });
  device.set("recipe:one more", { used: 0 });
  assert.equal(device.get("recipe:1"), null);
  assert.deepEqual(device.get("recipe:2"), { used: 2 });
  assert.deepEqual(device.get("timers"), []);
  assert.equal(storage.getItem("recipe:another site's"), "{}");
});

test("a recipe that was kept without its last use is dropped before any other", () => {
  const storage = new Storage();
  const device = deviceWith(storage);
  for (let used = 1; used < MOST_RECIPES; used += 1) device.set(`recipe:${used}`, { used });
  device.set("recipe:unknown", {});
  device.set("recipe:one more", { used: MOST_RECIPES });
  assert.equal(device.get("recipe:unknown"), null);
  assert.deepEqual(device.get("recipe:1"), { used: 1 });
});

test("a page hears of changes in another tab, by name and only of its own site", () => {
  /** @type {((event: { key: string | null }) => void)[]} */
  const listeners = [];
  const listen = (/** @type {string} */ type, /** @type {() => void} */ listener) => type === "storage" && listeners.push(listener);
  Object.assign(globalThis, { addEventListener: listen });
  let heard = 0;
  deviceWith(new Storage()).whenChangedElsewhere("timers", () => (heard += 1));
  for (const key of [null, "timers", `${SITE}everywhere`, `${SITE}timers`, `${SITE}timers.old`]) for (const listener of listeners) listener({ key });
  assert.equal(heard, 1);
});

test("a visit has one store for a site, whichever page asks", () => {
  assert.equal(deviceStore(SITE), deviceStore(SITE));
  assert.notEqual(deviceStore(SITE), deviceStore("crumbcoat:1:/other/:"));
});

test("a bug of the storage is not taken for a full one", () => {
  const device = new DeviceStore(SITE, () => /** @type {any} */ ({}));
  assert.throws(() => device.set("timers", []), TypeError);
  assert.throws(() => device.get("everywhere"), TypeError);
});

test("texts of a few recipes are kept, the oldest go, and they make room for what a reader changed", () => {
  const storage = new Storage(900);
  const device = deviceWith(storage);
  for (let used = 0; used < MOST_TEXTS + 2; used += 1) device.setIfRoom(`texts:${used}`, { used });
  assert.equal(Object.keys(storage).length, MOST_TEXTS);
  assert.equal(device.get("texts:1"), null);
  device.setIfRoom("texts:long", "x".repeat(900));
  assert.equal(device.get("texts:long"), null);
  assert.equal(device.set("recipe:plain", "x".repeat(600)), true);
  assert.ok(Object.keys(storage).length < MOST_TEXTS);
  assert.equal(deviceWith(storage).get("recipe:plain"), "x".repeat(600));
});
