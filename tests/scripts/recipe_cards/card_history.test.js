// Undo and redo, and a history that comes back from the device.
import assert from "node:assert/strict";
import { test } from "node:test";

import { CardHistory, historyFrom } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/card_history.js";

/** @param {...string} factors */
function changed(...factors) {
  const history = new CardHistory();
  for (const factor of factors) history.add({ state: { factor } });
  return history;
}

test("a card begins as published, with nothing to undo or to redo", () => {
  const history = new CardHistory();
  assert.deepEqual(history.now, { state: {}, ticks: [] });
  assert.equal(history.undo(), null);
  assert.equal(history.redo(), null);
});

test("undo goes back one change at a time, redo forward again", () => {
  const history = changed("2", "3");
  assert.deepEqual(history.undo()?.state, { factor: "2" });
  assert.deepEqual(history.undo()?.state, {});
  assert.equal(history.undo(), null);
  assert.deepEqual(history.redo()?.state, { factor: "2" });
  assert.deepEqual(history.redo()?.state, { factor: "3" });
  assert.equal(history.redo(), null);
  assert.deepEqual(history.now.state, { factor: "3" });
});

test("a change after an undo takes what could be redone away", () => {
  const history = changed("2", "3");
  history.undo();
  history.add({ state: { factor: "4" } });
  assert.equal(history.redo(), null);
  assert.deepEqual(history.undo()?.state, { factor: "2" });
});

test("ticks and amounts are in one history, and a change of one leaves the other", () => {
  const history = changed("2");
  history.add({ ticks: ["butter"] });
  assert.deepEqual(history.now, { state: { factor: "2" }, ticks: ["butter"] });
  assert.deepEqual(history.undo(), { state: { factor: "2" }, ticks: [] });
});

test("letters typed into one field are one step", () => {
  const history = changed("1");
  history.add({ state: { factor: "12" } }, true);
  history.add({ state: { factor: "12.5" } }, true);
  assert.deepEqual(history.undo()?.state, {});
  assert.deepEqual(history.redo()?.state, { factor: "12.5" });
});

test("the first change is a step even where it continues something", () => {
  const history = new CardHistory();
  history.add({ state: { factor: "2" } }, true);
  assert.deepEqual(history.undo()?.state, {});
});

test("what is typed and refused is a step, and what counts after it in the same field replaces it", () => {
  const history = changed("2");
  history.add({ typed: { factor: "lots" } });
  assert.deepEqual(history.now, { state: { factor: "2" }, ticks: [], typed: { factor: "lots" } });
  history.add({ state: { factor: "3" }, typed: {} }, true);
  assert.deepEqual(history.undo(), { state: { factor: "2" }, ticks: [] });
});

test("letters that end where they began leave no step", () => {
  const history = changed("2");
  history.add({ state: { factor: "3" } });
  history.add({ state: { factor: "2" } }, true);
  assert.deepEqual(history.undo()?.state, {});
});

test("an amendment is not a step, and keeps what can be redone", () => {
  const history = changed("2", "3");
  history.undo();
  history.amend({ state: { factor: "2", units: "ounces" } });
  assert.deepEqual(history.redo()?.state, { factor: "3" });
  assert.deepEqual(history.undo()?.state, { factor: "2", units: "ounces" });
});

test("the last forty steps can be undone", () => {
  const history = changed(...Array.from({ length: 60 }, (_, step) => String(step)));
  let undone = 0;
  while (history.undo()) undone += 1;
  assert.equal(undone, 40);
  assert.deepEqual(history.now.state, { factor: "19" });
});

test("a history that was kept goes on where it was", () => {
  const history = changed("2", "3");
  history.undo();
  const kept = historyFrom(JSON.parse(JSON.stringify({ ...history.record, place: 3, used: 1 })));
  assert.deepEqual(kept.record, history.record);
  assert.deepEqual(kept.redo()?.state, { factor: "3" });
});

for (const [name, record] of Object.entries({
  "nothing at all": null,
  "a text": "now",
  "no moment": {},
  "a moment without ticks": { now: { state: {} }, past: [], future: [] },
  "a state with a number in it": { now: { state: { factor: 2 }, ticks: [] }, past: [], future: [] },
  "a past that is not a list": { now: { state: {}, ticks: [] }, past: 3, future: [] },
  "a typed text that is none": { now: { state: {}, ticks: [], typed: { factor: 2 } }, past: [], future: [] },
  "a future with a hole in it": { now: { state: {}, ticks: [] }, past: [], future: [null] },
})) {
  test(`${name} is an empty history`, () => {
    assert.deepEqual(historyFrom(record).record, new CardHistory().record);
  });
}
