// What the device kept of a form is taken only as it was written.
import assert from "node:assert/strict";
import { test } from "node:test";

import { keepForm, keptFrom } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/kept_form.js";

test("what was kept comes back", () => {
  const kept = { chosen: { recipe: "../milk/card.json" }, state: { x_g: "200" } };
  assert.deepEqual(keptFrom(JSON.parse(JSON.stringify(kept))), kept);
});

test("anything else is nothing", () => {
  for (const record of [null, [], "text", { chosen: {} }, { chosen: null, state: {} }, { chosen: {}, state: { x_g: 3 } }]) {
    assert.equal(keptFrom(record), null);
  }
});

/**
 * A form with one choice of a recipe, printed with "b", and the device that keeps it.
 *
 * @param {object} [record] what the device kept
 */
function form(record) {
  const options = ["a", "b"].map((value) => ({ value }));
  const dataset = /** @type {Record<string, string>} */ ({ contextFrom: "recipe" });
  const select = Object.assign(new EventTarget(), { value: "b", dataset, options });
  const calculator = Object.assign(new EventTarget(), { state: {}, restore: () => {}, querySelectorAll: () => [select] });
  /** @type {any[]} */
  const saved = [];
  let shown = 0;
  const device = { get: () => record, set: (/** @type {string} */ _, /** @type {object} */ value) => saved.push(value) };
  keepForm(/** @type {any} */ (calculator), /** @type {any} */ (device), "form", () => (shown += 1));
  return { select, calculator, saved, shown: () => shown };
}

test("a state is kept with the recipe that is shown, not with one that is on its way", () => {
  const { select, calculator, saved } = form();
  Object.assign(select, { value: "a" });
  Object.assign(select.dataset, { shown: "b" });
  calculator.dispatchEvent(new CustomEvent("recipe-state", { detail: { state: { x_g: "200" } } }));
  assert.deepEqual(saved.at(-1), { chosen: { recipe: "b" }, state: { x_g: "200" } });
});

test("where the recipe that was kept cannot be loaded, the page is shown and the record stays", () => {
  const { select, saved, shown } = form({ chosen: { recipe: "a" }, state: { x_g: "200" } });
  assert.equal(shown(), 0);
  select.dispatchEvent(new Event("error"));
  assert.deepEqual([shown(), saved], [1, []]);
});
