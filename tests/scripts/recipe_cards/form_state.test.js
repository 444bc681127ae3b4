// The state of a card's forms: whose a field is, and the parts of the calculators.
import assert from "node:assert/strict";
import { test } from "node:test";

import { forAllRecipes, ownerOf, partOf, same, withNotesOf, withPart, withoutNotes } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/form_state.js";

const STATE = { factor: "2", "cake:tier.1.shape": "square", units: "ounces", "cake:lengths": "inches" };

test("a field without a calculator's name is the batch's", () => {
  assert.deepEqual(ownerOf("amount.butter"), ["batch", "amount.butter"]);
  assert.deepEqual(ownerOf("cake:tier.1.shape"), ["cake", "tier.1.shape"]);
  assert.deepEqual(ownerOf("cake:note:1"), ["cake", "note:1"]);
  assert.deepEqual(ownerOf(":note"), ["", "note"]);
});

test("each calculator gets its own fields, by its own names", () => {
  assert.deepEqual(partOf(STATE, "batch"), { factor: "2", units: "ounces" });
  assert.deepEqual(partOf(STATE, "cake"), { "tier.1.shape": "square", lengths: "inches" });
  assert.deepEqual(partOf(STATE, "label"), {});
});

test("the part of one calculator replaces all that it had, and leaves the others", () => {
  assert.deepEqual(withPart(STATE, "cake", { cupcakes: "30" }), { factor: "2", units: "ounces", "cake:cupcakes": "30" });
  assert.deepEqual(withPart(STATE, "batch", {}), { "cake:tier.1.shape": "square", "cake:lengths": "inches" });
});

test("the batch's fields come first, whichever was changed first", () => {
  assert.deepEqual(Object.keys(withPart({ "cake:cupcakes": "30" }, "batch", { factor: "2" })), ["factor", "cake:cupcakes"]);
  assert.deepEqual(Object.keys(withPart({ factor: "2" }, "cake", { cupcakes: "30" })), ["factor", "cake:cupcakes"]);
});

test("a state put together from its parts is the same", () => {
  const parts = ["batch", "cake"].reduce((state, name) => withPart(state, name, partOf(STATE, name)), {});
  assert.ok(same(parts, STATE));
});

test("two states are the same whatever the order of their fields", () => {
  assert.ok(same({ factor: "2", units: "ounces" }, { units: "ounces", factor: "2" }));
  assert.ok(!same({ factor: "2" }, { factor: "3" }));
  assert.ok(!same({ factor: "2" }, { factor: "2", units: "ounces" }));
});

test("units and the unit of lengths count for all recipes, an amount does not", () => {
  assert.deepEqual(forAllRecipes(STATE), { units: "ounces", "cake:lengths": "inches" });
});

test("the notes of a trial are in no link, and stay when one is opened", () => {
  const noted = { factor: "2", "trial:trial.who": "bench two" };
  assert.deepEqual(withoutNotes(noted), { factor: "2" });
  assert.deepEqual(withNotesOf({ factor: "3" }, noted), { factor: "3", "trial:trial.who": "bench two" });
});
