// What a device keeps of a card, from one visit to the next.
import assert from "node:assert/strict";
import { test } from "node:test";

import { SavedCard } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/saved_card.js";

/** @typedef {import("../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/device.js").DeviceStore} DeviceStore */

/** A device that takes everything, or nothing. */
function device(takes = true) {
  const values = new Map();
  const store = {
    get: (/** @type {string} */ name) => values.get(name) ?? null,
    set: (/** @type {string} */ name, /** @type {unknown} */ value) => takes && Boolean(values.set(name, structuredClone(value))),
  };
  return /** @type {DeviceStore} */ (/** @type {unknown} */ (store));
}

test("a card comes back with its changes, what can be undone and redone, and the place in the method", () => {
  const store = device();
  const card = new SavedCard(store, "creams/plain");
  card.history.add({ state: { factor: "2" } });
  card.history.add({ ticks: ["butter"] });
  card.history.undo();
  card.place = 3;
  assert.equal(card.save(), true);
  const again = new SavedCard(store, "creams/plain");
  assert.deepEqual(again.history.now, { state: { factor: "2" }, ticks: [] });
  assert.deepEqual(again.history.redo()?.ticks, ["butter"]);
  assert.equal(again.place, 3);
});

test("each recipe has its own", () => {
  const store = device();
  const card = new SavedCard(store, "creams/plain");
  card.history.add({ state: { factor: "2" } });
  card.save();
  assert.deepEqual(new SavedCard(store, "creams/other").history.now.state, {});
});

test("units that are set on one card count for the others, amounts do not", () => {
  const store = device();
  const card = new SavedCard(store, "creams/plain");
  card.history.add({ state: { factor: "2", units: "ounces" } });
  card.saveForAllRecipes();
  assert.deepEqual(new SavedCard(store, "creams/other").forAllRecipes, { units: "ounces" });
});

test("units that are changed on another card win over those that a card was left with, until it is changed itself", (t) => {
  const store = device();
  t.mock.timers.enable({ apis: ["Date"], now: 1_000 });
  const card = new SavedCard(store, "creams/plain");
  card.history.add({ state: { factor: "2", units: "ounces" } });
  card.save();
  card.saveForAllRecipes();
  assert.deepEqual(new SavedCard(store, "creams/plain").state, { factor: "2", units: "ounces" });

  t.mock.timers.tick(1);
  const other = new SavedCard(store, "creams/other");
  assert.deepEqual(other.state, { units: "ounces" });
  other.history.add({ state: {} });
  other.saveForAllRecipes();
  assert.deepEqual(new SavedCard(store, "creams/plain").state, { factor: "2" });

  t.mock.timers.tick(1);
  const opened = new SavedCard(store, "creams/plain");
  opened.history.add({ state: { units: "cups" } });
  opened.save();
  assert.deepEqual(new SavedCard(store, "creams/plain").state, { units: "cups" });
});

test("a device that stores nothing is not an error", () => {
  const card = new SavedCard(device(false), "creams/plain");
  assert.equal(card.save(), false);
  assert.deepEqual(card.forAllRecipes, {});
  assert.equal(card.place, 0);
});
