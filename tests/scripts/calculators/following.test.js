// A calculator that follows another one: whose fields are its own, and what it takes over when.
import assert from "node:assert/strict";
import { mock, test } from "node:test";

import { Following } from "../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/following.js";

test("what is heard is taken over once the other one is at rest, and only the last of it", () => {
  mock.timers.enable({ apis: ["setTimeout"] });
  /** @type {object[]} */
  const taken = [];
  const following = new Following((name) => name.startsWith("own."), (state) => taken.push(state));
  following.hear({ factor: "2" });
  mock.timers.tick(150);
  following.hear({ factor: "3" });
  assert.equal(following.isWaiting, true);
  mock.timers.tick(250);
  assert.deepEqual([taken, following.isWaiting], [[{ factor: "3" }], false]);
  following.hear({ factor: "4" });
  following.stop();
  mock.timers.tick(500);
  assert.deepEqual(taken, [{ factor: "3" }]);
  mock.timers.reset();
});

test("its own fields go onto what it took over", () => {
  mock.timers.enable({ apis: ["setTimeout"] });
  const following = new Following((name) => name.startsWith("own."), () => {});
  assert.deepEqual(following.whole({ "own.note": "x" }), { "own.note": "x" });
  following.hear({ factor: "3" });
  mock.timers.tick(250);
  assert.deepEqual(following.whole({ "own.note": "x" }), { factor: "3", "own.note": "x" });
  assert.deepEqual(following.own({ factor: "3", "own.note": "x" }), { "own.note": "x" });
  mock.timers.reset();
});
