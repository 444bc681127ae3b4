// The group of a class: what a link says of it, and when its plan has a step.
import assert from "node:assert/strict";
import { test } from "node:test";

import { ClassGroup } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/class_group.js";
import { DeviceStore } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/device.js";

/** A device with nothing on it. */
function device() {
  /** @type {Map<string, string>} */
  const kept = new Map();
  const storage = { getItem: (/** @type {string} */ key) => kept.get(key) ?? null, setItem: (/** @type {string} */ key, /** @type {string} */ text) => kept.set(key, text) };
  return new DeviceStore("kitchen:", () => /** @type {Storage} */ (/** @type {unknown} */ (storage)));
}

test("a link puts a device into a group, and what is left of it is the state of the card", () => {
  const store = device();
  const group = new ClassGroup(store, "veil");
  assert.equal(group.title, "");
  assert.deepEqual(group.join({ factor: "2", "class:group": "3", "class:at": "0920..2*1005" }), { factor: "2" });
  assert.equal(new ClassGroup(store, "veil").title, "Group 3");
  assert.equal(new ClassGroup(store, "other").title, "");
  assert.equal(group.clockOf(0), "In the plan of the class: 09:20");
  assert.equal(group.clockOf(1), "");
  assert.equal(group.clockOf(2), "In the plan of the class: lesson 2, 10:05");
  assert.equal(group.clockOf(3), "");
});

test("a link without a class changes nothing", () => {
  const group = new ClassGroup(device(), "veil");
  assert.equal(group.join(null), null);
  assert.deepEqual(group.join({ factor: "2" }), { factor: "2" });
  assert.equal(group.number, "");
});

test("what was found stays while the group is the same", () => {
  const group = new ClassGroup(device(), "veil");
  group.join({ "class:group": "3" });
  group.found = { mass: "512" };
  group.join({ "class:group": "3", "class:at": "0930" });
  assert.deepEqual(group.found, { mass: "512" });
  group.join({ "class:group": "4" });
  assert.deepEqual(group.found, {});
  group.leave();
  assert.equal(group.title, "");
});

for (const fields of [
  { "class:group": "0" },
  { "class:group": "<b>" },
  { "class:group": "123" },
  { "class:group": "3", "class:at": "soon" },
  { "class:group": "3", "class:who": "somebody" },
]) {
  test(`${JSON.stringify(fields)} is refused`, () => {
    const group = new ClassGroup(device(), "veil");
    assert.throws(() => group.join(fields), new RangeError("what it says of the class is damaged"));
    assert.equal(group.number, "");
  });
}
