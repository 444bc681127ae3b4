// A card that is open in two tabs: nobody's change is lost, and undo gets back what another one replaced.
import assert from "node:assert/strict";
import { test } from "node:test";

import { CardHistory } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/card_history.js";
import { joined } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/two_tabs.js";

/** @typedef {Record<string, string>} FormState */

/**
 * @param {FormState} state
 * @param {string[]} ticks
 */
function moment(state = {}, ticks = []) {
  return { state, ticks };
}

/** @param {...FormState} states one after the other */
function history(...states) {
  const made = new CardHistory();
  for (const state of states) made.add({ state });
  return made;
}

const FACTOR = { factor: "2" };

test("a tab that changed nothing takes over what the other one did, with its steps", () => {
  const theirs = history(FACTOR, { factor: "3" }).record;
  assert.deepEqual(joined(moment(FACTOR), moment(FACTOR), theirs), theirs);
});

test("also what the other one took back", () => {
  const theirs = history(FACTOR);
  theirs.undo();
  assert.deepEqual(joined(moment(FACTOR), moment(FACTOR), theirs.record), theirs.record);
});

test("changes of different fields are all there, and theirs alone are one step back", () => {
  const theirs = history(FACTOR, { ...FACTOR, "have.milk": "500" });
  const { now, past } = joined(moment(FACTOR), moment({ ...FACTOR, "amount.butter": "300" }), theirs.record);
  assert.deepEqual(now.state, { ...FACTOR, "amount.butter": "300", "have.milk": "500" });
  assert.deepEqual(past.at(-1)?.state, { ...FACTOR, "have.milk": "500" });
});

test("where both changed the same field it is as here, and the other is one step back", () => {
  const { now, past } = joined(moment(), moment({ factor: "3" }), history({ factor: "4" }).record);
  assert.deepEqual(now.state, { factor: "3" });
  assert.deepEqual(past.at(-1)?.state, { factor: "4" });
});

test("a field that was taken back here stays so", () => {
  const theirs = history(FACTOR, { ...FACTOR, "have.milk": "500" }).record;
  assert.deepEqual(joined(moment(FACTOR), moment(), theirs).now, moment({ "have.milk": "500" }));
});

test("ticks and what is typed are joined in the same way", () => {
  const theirs = history();
  theirs.add({ ticks: ["milk", "sugar"] });
  const mine = { ...moment({}, ["butter"]), typed: { factor: "lots" } };
  assert.deepEqual(joined(moment({}, ["sugar"]), mine, theirs.record).now, { ...moment({}, ["milk", "butter"]), typed: { factor: "lots" } });
});
