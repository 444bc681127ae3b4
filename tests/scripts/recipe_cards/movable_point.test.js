// Where in a picture which amount is, and where keys lead: no page is needed for that.
import assert from "node:assert/strict";
import { test } from "node:test";

import { amountAt, amountByKey, amountsAt } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/movable_point.js";

const axes = { x: { end: 680, step: 1 }, y: { end: 42, step: 0.1 } };

for (const [share, axis, expected] of /** @type {[number, { end: number, step: number }, string][]} */ ([
  [0, axes.x, "0"],
  [0.5, axes.x, "340"],
  [0.50001, axes.x, "340"],
  [1, axes.x, "680"],
  [-0.2, axes.x, "0"],
  [1.2, axes.x, "680"],
  [0.1, axes.y, "4.2"],
  [1 / 3, axes.y, "14"],
  [0.335, axes.y, "14.1"],
  [1, { end: 0.45, step: 0.1 }, "0.45"],
  [0.123, { end: 3, step: 0.01 }, "0.37"],
])) {
  test(`${share} of an axis that ends at ${axis.end} is ${expected}`, () => assert.equal(amountAt(share, axis), expected));
}

test("amounts go from left to right, and from below upward", () => {
  const box = { left: 40, bottom: 500, width: 200, height: 100 };
  assert.deepEqual(amountsAt(box, { clientX: 90, clientY: 475 }, axes), { x: "170", y: "10.5" });
  assert.deepEqual(amountsAt(box, { clientX: 10, clientY: 300 }, axes), { x: "0", y: "42" });
});

const middle = { x: 0.5, y: 0.5 };
for (const [key, shiftKey, expected] of /** @type {[string, boolean, object][]} */ ([
  ["ArrowRight", false, { x: "347" }],
  ["ArrowLeft", false, { x: "333" }],
  ["ArrowUp", false, { y: "21.4" }],
  ["ArrowDown", false, { y: "20.6" }],
  ["ArrowRight", true, { x: "408" }],
  ["ArrowDown", true, { y: "16.8" }],
  ["Tab", false, {}],
  ["a", false, {}],
  ["constructor", false, {}],
])) {
  test(`${shiftKey ? "Shift and " : ""}${key} leads to ${JSON.stringify(expected)}`, () => {
    assert.deepEqual(amountByKey({ key, shiftKey }, middle, axes), expected);
  });
}

test("a key never moves the point off the picture, and always by a step at least", () => {
  assert.deepEqual(amountByKey({ key: "ArrowRight", shiftKey: true }, { x: 0.97, y: 0 }, axes), { x: "680" });
  assert.deepEqual(amountByKey({ key: "ArrowDown", shiftKey: false }, { x: 0, y: 0 }, axes), { y: "0" });
  assert.deepEqual(amountByKey({ key: "ArrowUp", shiftKey: false }, middle, { ...axes, y: { end: 10, step: 1 } }), { y: "6" });
});
