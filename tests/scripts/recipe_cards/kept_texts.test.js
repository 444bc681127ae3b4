// The texts of a card on the device: shown again only where they are those of its state, its recipe and this build.
import assert from "node:assert/strict";
import { test } from "node:test";

import { keepTexts, paintTexts } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/kept_texts.js";

/** @typedef {import("../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/device.js").DeviceStore} DeviceStore */
/** @typedef {import("../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/kept_texts.js").Kept} Kept */
/** @typedef {Record<string, string>} FormState */

function device() {
  const values = new Map();
  const store = {
    get: (/** @type {string} */ name) => values.get(name) ?? null,
    setIfRoom: (/** @type {string} */ name, /** @type {unknown} */ value) => void values.set(name, structuredClone(value)),
  };
  return /** @type {DeviceStore} */ (/** @type {unknown} */ (store));
}

class Calculator {
  /** @type {object | null} */
  painted = null;
  dataset;

  /**
   * @param {FormState} state
   * @param {Kept | null} kept
   * @param {DOMStringMap} dataset
   */
  constructor(state, kept, dataset = {}) {
    this.state = state;
    this.kept = kept;
    this.dataset = dataset;
  }

  /** @param {Kept} kept */
  paint({ key, texts }) {
    if (key !== "this build") return false;
    this.painted = texts;
    return true;
  }
}

/** @param {{ state?: FormState, mass?: string, key?: string, isBusy?: boolean }} batch */
function card({ state = { factor: "2" }, mass = "900 g", key = "this build", isBusy = false } = {}) {
  return new Map([
    ["batch", new Calculator(state, isBusy ? null : { key, texts: { mass } })],
    ["label", new Calculator({}, { key, texts: {} }, { follows: "batch" })],
  ]);
}

test("texts come back for the state that they were kept for", () => {
  const store = device();
  keepTexts(store, "plain", { factor: "2" }, card());
  const opened = card({ state: {} });
  assert.equal(paintTexts(store, "plain", { factor: "2" }, opened), true);
  assert.deepEqual(opened.get("batch")?.painted, { mass: "900 g" });
});

test("not for another state, another recipe, or another build", () => {
  const store = device();
  keepTexts(store, "plain", { factor: "2" }, card());
  keepTexts(store, "other", { factor: "2" }, card({ key: "another build" }));
  for (const [recipe, factor] of [["plain", "3"], ["fancy", "2"], ["other", "2"]]) {
    assert.equal(paintTexts(store, String(recipe), { factor: String(factor) }, card()), false);
  }
});

test("nothing is kept while a calculator is at work, or shows another state", () => {
  const store = device();
  keepTexts(store, "plain", { factor: "2" }, card({ isBusy: true }));
  keepTexts(store, "plain", { factor: "2" }, card({ state: {} }));
  assert.equal(paintTexts(store, "plain", { factor: "2" }, card()), false);
});

test("more than the device should carry is not kept", () => {
  const store = device();
  keepTexts(store, "plain", { factor: "2" }, card({ mass: "9".repeat(200_000) }));
  assert.equal(paintTexts(store, "plain", { factor: "2" }, card()), false);
});
