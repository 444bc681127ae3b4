// A state that was set: which calculators compute it, and which answers belong to it.
import assert from "node:assert/strict";
import { test } from "node:test";

import { PendingState } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/pending_state.js";

class Calculator {
  unsettled = {};

  /** @param {Record<string, string>} state */
  constructor(state) {
    this.state = state;
  }

  /**
   * @param {Record<string, string>} state
   * @param {Record<string, string>} typed
   */
  restore(state, typed) {
    this.state = state;
    this.unsettled = typed;
  }
}

/** A card whose batch and cake are as published, except for the state that is passed. */
function card(batch = {}, cake = {}) {
  return new Map([
    ["batch", new Calculator(batch)],
    ["cake", new Calculator(cake)],
  ]);
}

test("only those calculators compute whose part changes", () => {
  const calculators = card({ factor: "2" });
  const pending = new PendingState({ factor: "2", "cake:cupcakes": "30" }, calculators, null, {});
  assert.ok(!pending.waitsFor("batch"));
  assert.ok(pending.waitsFor("cake"));
  assert.ok(!pending.isNoted);
  pending.send(calculators);
  assert.deepEqual(calculators.get("cake")?.state, { cupcakes: "30" });
});

test("a calculator whose fields are all taken back computes as well", () => {
  const calculators = card({ factor: "2" }, { cupcakes: "30" });
  const pending = new PendingState({}, calculators, null, {});
  pending.send(calculators);
  assert.deepEqual([...calculators.values()].map(({ state }) => state), [{}, {}]);
  assert.ok(!pending.isComplete);
});

test("a calculator computes as well if something typed in it could not be used, or is to be there again", () => {
  const calculators = card({ factor: "2" });
  calculators.get("batch")?.restore({ factor: "2" }, { factor: "lots" });
  const pending = new PendingState({ factor: "2" }, calculators, null, { typed: { "cake:cupcakes": "many" } });
  pending.send(calculators);
  assert.deepEqual([...calculators.values()].map(({ unsettled }) => unsettled), [{}, { cupcakes: "many" }]);
  assert.ok(pending.waitsFor("batch") && pending.waitsFor("cake"));
});

test("a state that the card has already is complete at once", () => {
  assert.ok(new PendingState({ factor: "2" }, card({ factor: "2" }), null, {}).isComplete);
});

test("it is complete when all that compute have answered", () => {
  const pending = new PendingState({ factor: "2", "cake:cupcakes": "30" }, card(), null, {});
  pending.arrived("cake");
  assert.ok(!pending.isComplete);
  pending.arrived("batch");
  assert.ok(pending.isComplete);
});

test("a calculator that still computes an earlier state computes again, even for the state that it shows now", () => {
  const earlier = new PendingState({ factor: "2" }, card(), null, {});
  const pending = new PendingState({}, card(), earlier, {});
  assert.ok(pending.waitsFor("batch"));
  assert.ok(!pending.waitsFor("cake"));
});

test("an answer to an edit that was on its way when the state was set is passed over", () => {
  const pending = new PendingState({ factor: "2" }, card(), null, {});
  assert.ok(pending.isOvertaken("batch", { factor: "3" }, "edit"));
  assert.ok(pending.isOvertaken("batch", { factor: "2" }, "edit"));
  assert.ok(!pending.isOvertaken("batch", { factor: "2" }, "set"));
});

test("so is another state where the same one must come back, as after an undo", () => {
  const pending = new PendingState({ factor: "2" }, card(), null, { exact: true });
  assert.ok(pending.isOvertaken("batch", { factor: "3" }, "set"));
  assert.ok(!pending.isOvertaken("batch", { factor: "2" }, "set"));
});

test("a link may come back in another form, as Python writes it", () => {
  const pending = new PendingState({ factor: "2.0" }, card(), null, {});
  assert.ok(!pending.isOvertaken("batch", { factor: "2" }, "set"));
});

test("an answer of a calculator that is not waited for is the reader's own edit", () => {
  const pending = new PendingState({ factor: "2" }, card(), null, { exact: true });
  assert.ok(!pending.isOvertaken("cake", { cupcakes: "30" }, "edit"));
});

test("a field of a calculator that the card does not have is found", () => {
  assert.equal(PendingState.unknownField({ factor: "2", "oven:heat": "180" }, card()), "oven:heat");
  assert.equal(PendingState.unknownField({ factor: "2", "cake:cupcakes": "30" }, card()), undefined);
});
