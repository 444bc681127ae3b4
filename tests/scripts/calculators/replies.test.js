// Which reply the page shows, as Python is asked by it: what is left for later is never lost.
import assert from "node:assert/strict";
import { test } from "node:test";

import { Replies } from "../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/replies.js";

/**
 * A Python that gives these replies in turn, and what it was asked.
 *
 * @param {object[]} replies
 */
function python(...replies) {
  /** @type {object[]} */
  const asked = [];
  const ask = async (/** @type {object} */ request) => {
    asked.push(request);
    return replies.shift();
  };
  return { asked, replies: new Replies(ask) };
}

const EDIT = new Map([["factor", "2"]]);

test("the next request names the reply that is shown, and a refusal is none", async () => {
  const { asked, replies } = python({ state: {}, texts: {}, number: 4 }, { error: {} }, { state: {}, texts: {}, number: 6 });
  for (let time = 0; time < 3; time += 1) await replies.to({}, EDIT);
  assert.deepEqual(
    asked.map((request) => /** @type {{ shown: number }} */ (request).shown),
    [0, 4, 4],
  );
  assert.deepEqual(asked[0], { state: {}, edit: { factor: "2" }, shown: 0 });
});

test("the texts that were left for later are those of the reply that is shown", async () => {
  const { asked, replies } = python({ state: {}, texts: {}, number: 4, later: true }, { texts: { "why.fat": "…" } });
  await replies.to({}, EDIT);
  assert.deepEqual(await replies.later({ factor: "2" }), { "why.fat": "…" });
  assert.deepEqual(asked[1], { later: 4 });
});

test("where Python was started again and knows of no such reply, all texts of the state are asked for", async () => {
  const whole = { state: { factor: "2" }, texts: { "why.fat": "…", finished_mass: "2 kg" }, number: 1 };
  const { asked, replies } = python({ state: {}, texts: {}, number: 4, later: true }, {}, whole, whole);
  await replies.to({}, EDIT);
  assert.deepEqual(await replies.later({ factor: "2" }), whole.texts);
  assert.deepEqual(asked[2], { state: { factor: "2" }, edit: {}, shown: 0 });
  await replies.to({}, EDIT);
  assert.equal(/** @type {{ shown: number }} */ (asked[3]).shown, 1);
});

test("and those of them that are left for later again", async () => {
  const first = { state: {}, texts: { finished_mass: "2 kg" }, number: 1, later: ["why"] };
  const { asked, replies } = python({ state: {}, texts: {}, number: 4, later: ["why"] }, {}, first, { texts: { "why.fat": "…" } });
  await replies.to({}, EDIT);
  assert.deepEqual(await replies.later({ factor: "2" }), { "why.fat": "…", finished_mass: "2 kg" });
  assert.deepEqual(asked[3], { later: 1 });
});
