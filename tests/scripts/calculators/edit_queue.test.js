// Edits on their way to Python: nothing typed is lost, one request at a time, and what was refused is tried again.
import assert from "node:assert/strict";
import { describe, test } from "node:test";

import { Form } from "./form.js";

/** @import { FormState } from "./form.js" */

test("an edit is sent at once, with the state that was there", async () => {
  const form = new Form();
  form.type("factor", "2");
  assert.deepEqual(form.asked, [{ state: {}, edit: { factor: "2" } }]);
  assert.ok(form.queue.isPending("factor"));
  await form.answerAll();
  assert.ok(!form.queue.isPending("factor"));
  assert.deepEqual(form.queue.state, { factor: "2" });
  assert.deepEqual(form.shown, ['edit {"factor":"2"}']);
});

test("what is typed while Python computes goes together afterwards, the last word of each field", async () => {
  const form = new Form();
  form.type("factor", "1");
  form.type("factor", "12");
  form.type("cream", "1 kg");
  form.type("factor", "12.5");
  await form.answerAll();
  assert.deepEqual(form.edits, [{ factor: "1" }, { factor: "12.5", cream: "1 kg" }]);
  assert.deepEqual(form.queue.state, { factor: "12.5", cream: "1 kg" });
});

describe("a state that is set", () => {
  test("replaces everything, and drops what was typed and not sent", async () => {
    const form = new Form();
    form.type("factor", "2");
    form.type("cream", "1 kg");
    form.queue.set({ sugar: "50 g" });
    await form.answerAll();
    assert.deepEqual(form.edits, [{ factor: "2" }, {}]);
    assert.deepEqual(form.queue.state, { sugar: "50 g" });
    assert.equal(form.shown.at(-1), 'set {"sugar":"50 g"}');
  });

  test("comes before an edit that was made after it", async () => {
    const form = new Form();
    form.queue.set({ sugar: "50 g" });
    form.type("factor", "2");
    await form.answerAll();
    assert.deepEqual(form.shown, ['set {"sugar":"50 g"}', 'edit {"sugar":"50 g","factor":"2"}']);
  });

  test("is not the caller's object", async () => {
    const form = new Form();
    const state = { sugar: "50 g" };
    form.type("factor", "2");
    form.queue.set(state);
    state.sugar = "60 g";
    await form.answerAll();
    assert.deepEqual(form.queue.state, { sugar: "50 g" });
  });

  test("below edits loses nothing that is typed: not refused, not sent, not waiting", async () => {
    const form = new Form((edit) => edit.cost === "lots");
    form.type("cost", "lots");
    await form.answerAll();
    form.type("serving", "30 g");
    form.type("cake", "1 kg");
    form.queue.setBelowEdits({ factor: "2" });
    await form.answerAll();
    assert.deepEqual(form.queue.state, { factor: "2", serving: "30 g", cake: "1 kg" });
    assert.deepEqual(form.asked[2], { state: { factor: "2" }, edit: {} });
    assert.deepEqual(form.asked[3], { state: { factor: "2" }, edit: { cost: "lots", serving: "30 g", cake: "1 kg" } });
  });
});

describe("a state below which another calculator changes its own, before it is answered,", () => {
  test("is kept while it waits for an earlier answer, with what is typed in its fields", async () => {
    const form = new Form((edit) => edit.cost === "lots");
    form.queue.set({});
    form.typed.cost = "lots";
    form.queue.set({ who: "bench two" }, { cost: "lots" });
    form.queue.setBelowEdits({ factor: "2", ...form.queue.settled });
    await form.answerAll();
    assert.deepEqual(form.queue.state, { factor: "2", who: "bench two" });
    assert.deepEqual(form.queue.refused, { cost: "lots" });
  });

  test("is kept while it is on its way", async () => {
    const form = new Form();
    form.queue.set({ who: "bench two" });
    form.queue.setBelowEdits({ factor: "2", ...form.queue.settled });
    await form.answerAll();
    assert.deepEqual(form.queue.state, { factor: "2", who: "bench two" });
    assert.deepEqual(form.queue.settled, form.queue.state);
  });
});

describe("what is refused", () => {
  const isTooWide = (/** @type {FormState} */ _, /** @type {FormState} */ { upper = "10", lower = "20" }) => Number(upper) > Number(lower);

  test("leaves the state as it was", async () => {
    const form = new Form(isTooWide);
    form.type("upper", "30");
    await form.answerAll();
    assert.deepEqual(form.queue.state, {});
    assert.deepEqual(form.shown, ["refused upper"]);
  });

  test("is tried again after another edit that counts, and may then be right", async () => {
    const form = new Form(isTooWide);
    form.type("upper", "30");
    await form.answerAll();
    form.type("lower", "40");
    await form.answerAll();
    assert.deepEqual(form.queue.state, { lower: "40", upper: "30" });
  });

  test("is not tried again once its field holds something else", async () => {
    const form = new Form(isTooWide);
    form.type("upper", "30");
    await form.answerAll();
    form.typed.upper = "5";
    form.type("lower", "40");
    await form.answerAll();
    assert.deepEqual(form.edits, [{ upper: "30" }, { lower: "40" }]);
  });

  test("is forgotten when a state is set", async () => {
    const form = new Form(isTooWide);
    form.type("upper", "30");
    await form.answerAll();
    form.queue.set({});
    form.type("lower", "40");
    await form.answerAll();
    assert.deepEqual(form.queue.state, { lower: "40" });
  });

  test("does not take other edits down that were sent with it", async () => {
    const form = new Form((edit) => edit.factor === "none");
    form.type("note", "first");
    form.type("factor", "none");
    form.type("cream", "1 kg");
    await form.answerAll();
    assert.deepEqual(form.edits.slice(1), [{ factor: "none", cream: "1 kg" }, { factor: "none" }, { cream: "1 kg" }]);
    assert.deepEqual(form.queue.state, { note: "first", cream: "1 kg" });
  });

  test("that can each make another right is tried until nothing changes", async () => {
    const form = new Form((_, { a = "0", b = "0", c = "0" }) => a > b || b > c);
    for (const [name, value] of [["a", "3"], ["b", "3"], ["c", "3"]]) {
      form.type(/** @type {string} */ (name), /** @type {string} */ (value));
      await form.answerAll();
    }
    assert.deepEqual(form.queue.state, { c: "3", b: "3", a: "3" });
  });
});

test("where Python cannot run, the page gets to know, and the next edit is sent all the same", async () => {
  const form = new Form();
  form.type("break", "1");
  await form.answerAll();
  assert.match(String(form.failure), /the worker is gone/);
  form.type("factor", "2");
  await form.answerAll();
  assert.deepEqual(form.queue.state, { factor: "2" });
});

describe("texts that are left for later", () => {
  test("are asked for at once, and until they are there the form is not at rest", async () => {
    const form = new Form();
    form.hasLater = true;
    form.type("factor", "2");
    await form.answer();
    assert.deepEqual(form.shown, ['edit {"factor":"2"}']);
    assert.ok(!form.queue.isAtRest);
    await form.answer();
    assert.deepEqual(form.shown, ['edit {"factor":"2"}', 'later {"factor":"2"}']);
    assert.ok(form.queue.isAtRest);
  });

  test("are not asked for where another edit waits: its answer will bring them", async () => {
    const form = new Form();
    form.hasLater = true;
    form.type("factor", "2");
    form.type("factor", "3");
    await form.answerAll();
    assert.deepEqual(form.shown, ['edit {"factor":"2"}', 'edit {"factor":"3"}', 'later {"factor":"3"}']);
  });

  test("come as well where the edit that waited is refused", async () => {
    const form = new Form(({ cream }) => cream === "lots");
    form.hasLater = true;
    form.type("factor", "2");
    form.type("cream", "lots");
    await form.answerAll();
    assert.deepEqual(form.shown, ['edit {"factor":"2"}', "refused cream", 'later {"factor":"2"}']);
  });

  test("are taken away where they will not come, since those that are shown are of an earlier state", async () => {
    const form = new Form();
    form.hasLater = form.isGone = true;
    form.type("factor", "2");
    await form.answerAll();
    assert.deepEqual(form.shown, ['edit {"factor":"2"}', "lost why.fat"]);
    assert.ok(form.failure);
  });

  test("are taken away where Python breaks at the edit after theirs", async () => {
    const form = new Form();
    form.hasLater = true;
    form.type("factor", "2");
    form.type("break", "now");
    await form.answerAll();
    assert.deepEqual(form.shown, ['edit {"factor":"2"}', "lost why.fat"]);
  });
});

test("where files did not come, an edit is asked again with the next one", async () => {
  const form = new Form();
  form.canRetry = true;
  form.type("break", "no network");
  await form.answerAll();
  assert.ok(form.failure);
  form.queue.flush();
  await form.answerAll();
  assert.deepEqual(form.edits, [{ break: "no network" }, { break: "no network" }]);
});

describe("who waits for rest", () => {
  test("waits for what is typed and for what comes later", async () => {
    const form = new Form();
    form.hasLater = true;
    form.enter("factor", "2");
    let isAtRest = false;
    form.queue.rest().then(() => (isAtRest = true));
    await form.answer();
    assert.ok(!isAtRest);
    await form.answer();
    assert.ok(isAtRest);
    assert.deepEqual(form.shown, ['edit {"factor":"2"}', 'later {"factor":"2"}']);
  });

  test("does not wait where nothing is asked, nor for ever where Python is gone", async () => {
    const form = new Form();
    await form.queue.rest();
    form.type("break", "now");
    const rest = form.queue.rest();
    await form.answerAll();
    await rest;
    assert.ok(form.failure);
  });
});
