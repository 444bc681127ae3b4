// When a finger's way is a swipe: far enough, and straight enough not to be a scroll.
import assert from "node:assert/strict";
import { test } from "node:test";

import { isSwipe } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/swipe.js";

for (const [across, down, expected] of /** @type {[number, number, boolean][]} */ ([
  [120, 0, true],
  [-120, 0, true],
  [-120, 39, true],
  [120, -39, true],
  [120, 40, false],
  [120, -41, false],
  [80, 0, false],
  [81, 0, true],
  [-80, 0, false],
  [0, 300, false],
])) {
  test(`${across} px across and ${down} px down is ${expected ? "" : "not "}a swipe`, () => {
    assert.equal(isSwipe(across, down), expected);
  });
}
