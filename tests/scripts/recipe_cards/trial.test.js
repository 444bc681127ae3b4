// The name and the date of a trial file.
import assert from "node:assert/strict";
import { test } from "node:test";

import { randomLetters, today } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/trial.js";

test("four letters, hardly ever the same ones", () => {
  const made = Array.from({ length: 50 }, randomLetters);
  assert.ok(made.every((letters) => /^[b-z]{4}$/.test(letters)));
  assert.ok(new Set(made).size > 45);
});

test("the date is that of the device, year first", () => {
  assert.equal(today(new Date(2026, 4, 3, 23, 59)), "2026-05-03");
});
