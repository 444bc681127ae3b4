// What the device kept of a form is taken only as it was written.
import assert from "node:assert/strict";
import { test } from "node:test";

import { keptFrom } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/kept_form.js";

test("what was kept comes back", () => {
  const kept = { chosen: { recipe: "../milk/card.json" }, state: { x_g: "200" } };
  assert.deepEqual(keptFrom(JSON.parse(JSON.stringify(kept))), kept);
});

test("anything else is nothing", () => {
  for (const record of [null, [], "text", { chosen: {} }, { chosen: null, state: {} }, { chosen: {}, state: { x_g: 3 } }]) {
    assert.equal(keptFrom(record), null);
  }
});
