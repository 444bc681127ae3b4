// A choice among recipes, whose cards come late, out of order or not at all.
import assert from "node:assert/strict";
import { test } from "node:test";

import { takeChoice } from "../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/chosen_card.js";

/** @typedef {import("../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/chosen_card.js").Card} Card */

/** A field printed with "b", the cards that are on their way, and the recipes that were taken in turn. */
function page() {
  const options = ["a", "b", "c"].map((value) => ({ value, defaultSelected: value === "b" }));
  const field = Object.assign(new EventTarget(), {
    value: "b",
    dataset: /** @type {Record<string, string | undefined>} */ ({}),
    options,
  });
  /** @type {((card: Card | undefined) => void)[]} */
  const loading = [];
  /** @type {(string | undefined)[]} */
  const taken = [];
  /** @type {string[]} */
  const errors = [];
  field.addEventListener("error", () => errors.push(field.value));
  const choose = (/** @type {string} */ value) => {
    field.value = value;
    const { promise, resolve } = /** @type {PromiseWithResolvers<Card | undefined>} */ (Promise.withResolvers());
    loading.push(resolve);
    return takeChoice(
      field,
      () => promise,
      (card) => taken.push(card?.recipe_digest),
    );
  };
  return { field, loading, taken, errors, choose };
}

/** @param {string} name */
const card = (name) => ({ recipe: {}, recipe_digest: name });

test("a card that comes after a later choice is not taken", async () => {
  const { field, loading, taken, choose } = page();
  const outcomes = [choose("a"), choose("c")];
  loading[1]?.(card("c"));
  assert.equal(await outcomes[1], "taken");
  loading[0]?.(card("a"));
  assert.equal(await outcomes[0], "overtaken");
  assert.deepEqual([taken, field.value, field.dataset.shown], [["c"], "c", "c"]);
});

test("until the card is there, the field says which one is shown", async () => {
  const { field, loading, choose } = page();
  const outcome = choose("c");
  assert.equal(field.dataset.shown, "b");
  loading[0]?.(card("c"));
  await outcome;
  assert.equal(field.dataset.shown, "c");
});

test("where a card cannot be loaded, the field goes back to the one that is shown", async () => {
  const { field, loading, taken, errors, choose } = page();
  const outcome = choose("a");
  loading[0]?.(undefined);
  assert.equal(await outcome, "failed");
  assert.deepEqual([field.value, errors, taken], ["b", ["b"], []]);
});

test("a failure that a later choice overtakes leaves the field to that one, also where it is the same card", async () => {
  const { field, loading, taken, errors, choose } = page();
  const outcomes = [choose("a"), choose("c"), choose("a")];
  loading[0]?.(undefined);
  loading[1]?.(undefined);
  assert.deepEqual(await Promise.all(outcomes.slice(0, 2)), ["overtaken", "overtaken"]);
  assert.deepEqual([field.value, errors], ["a", []]);
  loading[2]?.(card("a"));
  await outcomes[2];
  assert.deepEqual([field.value, taken], ["a", ["a"]]);
});

test("no recipe is taken at once", async () => {
  const { field, taken, choose } = page();
  assert.equal(await choose(""), "taken");
  assert.deepEqual([taken, field.dataset.shown], [[undefined], ""]);
});
