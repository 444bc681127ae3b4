// The keys of undo and redo.
import assert from "node:assert/strict";
import { test } from "node:test";

import { stepByKey } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/card_controls.js";

/** An element of a page, in a text field or not. */
class Element {
  /** @param {boolean} isInTextField */
  constructor(isInTextField) {
    this.closest = () => (isInTextField ? this : null);
  }
}

Object.assign(globalThis, { Element });

const NONE = { altKey: false, ctrlKey: false, metaKey: false, shiftKey: false };
const CTRL = { ...NONE, ctrlKey: true };

/**
 * @param {string} key
 * @param {object} held
 * @param {unknown} target
 */
function step(key, held, target = new Element(false)) {
  return stepByKey(/** @type {KeyboardEvent} */ (/** @type {unknown} */ ({ ...NONE, ...held, key, target })));
}

test("Ctrl or Command with Z is undo, with Shift redo; Y is redo", () => {
  for (const held of [CTRL, { ...NONE, metaKey: true }]) {
    assert.equal(step("z", held), "undo");
    assert.equal(step("Z", { ...held, shiftKey: true }), "redo");
    assert.equal(step("y", held), "redo");
    assert.equal(step("Y", { ...held, shiftKey: true }), "redo");
  }
});

test("a key alone, with Alt, or another one is none of them", () => {
  assert.equal(step("z", NONE), null);
  assert.equal(step("z", { ...CTRL, altKey: true }), null);
  assert.equal(step("x", CTRL), null);
  assert.equal(step("x", { ...CTRL, shiftKey: true }), null);
});

test("in a text field the browser's own undo counts", () => {
  assert.equal(step("z", CTRL, new Element(true)), null);
  assert.equal(step("y", CTRL, new Element(true)), null);
});

test("a key without an element, as in an empty page, counts", () => {
  assert.equal(step("z", CTRL, {}), "undo");
});
