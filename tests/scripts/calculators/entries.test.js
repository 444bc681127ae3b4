// What is typed into one field until it is left: when it counts, and what is left of it if it is refused.
import assert from "node:assert/strict";
import { describe, test } from "node:test";

import { PAUSE_MS } from "../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/edit_queue.js";
import { Form } from "./form.js";

/** @import { FormState } from "./form.js" */

describe("what is typed into a field until it is left", () => {
  const isWrong = (/** @type {FormState} */ { butter = "1" }) => !/^[\d½]+( g)?$/.test(butter);

  test("counts at a pause, and not before", async (t) => {
    t.mock.timers.enable({ apis: ["setTimeout"] });
    const form = new Form();
    form.enter("factor", "1");
    t.mock.timers.tick(PAUSE_MS - 1);
    form.enter("factor", "12");
    t.mock.timers.tick(PAUSE_MS - 1);
    assert.deepEqual(form.edits, []);
    assert.ok(form.queue.isPending("factor"));
    t.mock.timers.tick(1);
    await form.answerAll();
    assert.deepEqual(form.edits, [{ factor: "12" }]);
  });

  test("counts at once when it is left", async () => {
    const form = new Form();
    form.enter("factor", "12");
    form.queue.flush();
    await form.answerAll();
    assert.deepEqual(form.queue.state, { factor: "12" });
  });

  test("changes nothing if it is refused, whatever its first letters meant at a pause", async () => {
    const form = new Form(isWrong);
    form.queue.set({ butter: "200", sugar: "50" });
    await form.answerAll();
    for (const written of ["½", "½ c", "½ cup"]) {
      form.enter("butter", written);
      form.queue.flush();
      await form.answerAll();
    }
    assert.deepEqual(form.queue.state, { butter: "200", sugar: "50" });
    assert.deepEqual(form.queue.refused, { butter: "½ cup" });
    assert.deepEqual(form.shown.slice(1), [
      'edit {"butter":"½","sugar":"50"}', "refused butter", 'edit {"butter":"200","sugar":"50"}', "refused butter",
    ]);
  });

  test("changes nothing either if it was left before Python knew that it is wrong", async () => {
    const form = new Form(isWrong);
    form.enter("butter", "½");
    form.queue.flush();
    form.enter("butter", "½ cup");
    form.queue.flush();
    form.queue.leave();
    await form.answerAll();
    assert.deepEqual(form.queue.state, {});
  });

  test("is an entry with a number, and another one once the field was left", async () => {
    const form = new Form(isWrong);
    for (const written of ["1", "12", "12 cups"]) {
      form.enter("butter", written);
      form.queue.flush();
      await form.answerAll();
    }
    form.queue.leave();
    form.enter("butter", "13");
    form.queue.flush();
    await form.answerAll();
    assert.deepEqual(form.entries, [1, 1, 1, 1, 2]);
  });

  test("is not what is chosen: each choice counts on what the one before it led to", async () => {
    const form = new Form();
    for (const tier of ["3", "2"]) {
      form.type("gone", tier);
      await form.answerAll();
    }
    assert.deepEqual(form.asked.map(({ state }) => state), [{}, { gone: "3" }]);
    assert.deepEqual(form.entries, [1, 2]);
  });

  test("what another field changed meanwhile stays", async () => {
    const form = new Form(isWrong);
    form.enter("butter", "½");
    form.queue.flush();
    await form.answerAll();
    form.queue.leave();
    form.type("factor", "2");
    await form.answerAll();
    form.enter("butter", "½ cup");
    form.queue.flush();
    await form.answerAll();
    assert.deepEqual(form.queue.state, { butter: "½", factor: "2" });
  });

  test("changes nothing if it is refused after another calculator set the state below it", async () => {
    const form = new Form(isWrong);
    form.enter("butter", "½");
    form.queue.flush();
    await form.answerAll();
    assert.deepEqual(form.queue.settled, {});
    form.queue.setBelowEdits({ factor: "2", ...form.queue.settled });
    await form.answerAll();
    assert.deepEqual(form.queue.state, { factor: "2", butter: "½" });
    form.enter("butter", "½ cup");
    form.queue.flush();
    await form.answerAll();
    assert.deepEqual(form.queue.state, { factor: "2" });
  });

  test("is set together with a state, tried, and still refused", async () => {
    const form = new Form(isWrong);
    form.typed.butter = "½ cup";
    form.queue.set({ factor: "2" }, { butter: "½ cup" });
    assert.deepEqual(form.queue.unsettled, { butter: "½ cup" });
    await form.answerAll();
    assert.deepEqual(form.queue.state, { factor: "2" });
    assert.deepEqual(form.queue.refused, { butter: "½ cup" });
    assert.deepEqual(form.shown, ['set {"factor":"2"}', "refused butter"]);
  });

  test("is known before it is computed, so that it can be kept", async () => {
    const form = new Form();
    form.type("cream", "1 kg");
    form.type("sugar", "50 g");
    form.enter("butter", "12");
    assert.deepEqual(form.queue.unsettled, { cream: "1 kg", sugar: "50 g", butter: "12" });
    form.queue.flush();
    await form.answerAll();
    assert.deepEqual(form.queue.unsettled, {});
  });
});
