// What the reader changes on a card: what is kept, undone and taken back, also of what could not be used.
import assert from "node:assert/strict";
import { test } from "node:test";

import { CardChanges } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/card_changes.js";
import { SavedCard } from "../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/saved_card.js";

/** @typedef {import("../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/device.js").DeviceStore} DeviceStore */
/** @typedef {Record<string, string>} FormState */

/** A card whose only calculator answers at once, and knows no word for a number. */
class Card {
  /** @type {FormState} */
  state = {};
  /** @type {FormState} */
  refused = {};
  /** In fields and not computed yet. @type {FormState} */
  open = {};
  said = "";

  /** Why no amounts are shown; "" while they are. */
  veil = "";

  get unsettled() {
    return { ...this.refused, ...this.open };
  }

  /** Python has started. */
  isLive = true;

  /**
   * @param {Map<string, unknown>} kept on the device
   * @param {{ isPainted?: boolean, isLive?: boolean }} options whether texts were kept, and whether Python has started
   * @param {{ isFromLink: boolean }} visit
   */
  constructor(kept = new Map(), { isPainted = false, isLive = true } = {}, visit = { isFromLink: false }) {
    this.isLive = isLive;
    this.kept = kept;
    const store = {
      get: (/** @type {string} */ name) => structuredClone(kept.get(name) ?? null),
      set: (/** @type {string} */ name, /** @type {unknown} */ value) => Boolean(kept.set(name, structuredClone(value))),
    };
    this.saved = new SavedCard(/** @type {DeviceStore} */ (/** @type {unknown} */ (store)), "creams/plain");
    this.changes = new CardChanges(this.saved, {
      calculators: () => new Map([["batch", this]]),
      show: () => {},
      say: (sentence) => (this.said = sentence),
      veil: (sentence) => (this.veil = sentence),
      paint: () => isPainted,
      visit,
    });
    this.changes.restore();
  }

  /**
   * @param {FormState} state
   * @param {FormState} typed
   */
  restore(state, typed) {
    if (!this.isLive) return;
    this.state = state;
    this.refused = typed;
    this.open = {};
    this.changes.computed("batch", { state, refused: typed, cause: "set", entry: 0 });
  }

  /**
   * @param {string} name
   * @param {string} value
   * @param {number} entry
   */
  type(name, value, entry) {
    const before = this.state;
    if (/^\d+$/.test(value)) {
      this.state = { ...before, [name]: value };
      this.refused = {};
      this.changes.computed("batch", { state: this.state, refused: {}, cause: "edit", entry });
    } else {
      this.refused = { [name]: value };
      this.changes.refused("batch", { refused: this.refused, cause: "edit", entry, problem: "no" });
    }
  }
}

test("an entry that is refused changes nothing, and is in its field again when the card is opened again", () => {
  const card = new Card();
  card.type("factor", "2", 1);
  card.type("factor", "lots", 2);
  const again = new Card(card.kept);
  assert.deepEqual(again.state, { factor: "2" });
  assert.deepEqual(again.refused, { factor: "lots" });
});

test("an entry that is refused can be undone and redone", () => {
  const card = new Card();
  card.type("factor", "2", 1);
  card.type("factor", "lots", 2);
  card.changes.move("undo");
  assert.deepEqual([card.state, card.refused], [{ factor: "2" }, {}]);
  card.changes.move("redo");
  assert.deepEqual([card.state, card.refused], [{ factor: "2" }, { factor: "lots" }]);
});

test("the first letters of an entry that is refused in the end are not a step of their own", () => {
  const card = new Card();
  card.type("factor", "2", 1);
  card.type("factor", "3", 2);
  card.type("factor", "3 lots", 2);
  card.changes.computed("batch", { state: { factor: "2" }, refused: card.refused, cause: "edit", entry: 2 });
  card.changes.move("undo");
  assert.deepEqual([card.state, card.refused], [{ factor: "2" }, {}]);
  card.changes.move("undo");
  assert.deepEqual(card.state, {});
  assert.ok(!card.changes.canUndo);
});

test("'As published' takes a refused entry back, even where nothing else is changed", () => {
  const card = new Card();
  assert.ok(card.changes.isPublished);
  card.type("factor", "lots", 1);
  assert.ok(!card.changes.isPublished);
  card.changes.publish();
  assert.deepEqual([card.state, card.refused], [{}, {}]);
  assert.ok(card.changes.isPublished);
  card.changes.move("undo");
  assert.deepEqual(card.refused, { factor: "lots" });
});

test("what is typed and not computed yet is what Undo takes back, and no more than that", () => {
  const card = new Card();
  card.type("factor", "2", 1);
  card.open = { factor: "lots" };
  card.changes.move("undo");
  assert.deepEqual([card.state, card.refused], [{ factor: "2" }, {}]);
  card.changes.move("redo");
  assert.deepEqual([card.state, card.refused], [{ factor: "2" }, { factor: "lots" }]);
});

test("a card says that a link has changed it, until it is as published again", () => {
  const card = new Card();
  card.changes.open({ units: "us" }, () => {});
  assert.ok(!card.changes.isFromLink);
  card.changes.open({ factor: "3" }, () => {});
  assert.ok(card.changes.isFromLink);
  card.changes.publish();
  assert.ok(!card.changes.isFromLink);
  card.type("factor", "2", 1);
  assert.ok(!card.changes.isFromLink);
});

test("an entry that counts after all replaces the refused one, in the same step", () => {
  const card = new Card();
  card.type("factor", "2 lots", 1);
  card.type("factor", "2", 1);
  assert.equal(card.changes.now.typed, undefined);
  card.changes.move("undo");
  assert.deepEqual([card.state, card.refused], [{}, {}]);
  assert.ok(!card.changes.canUndo);
});

test("what is typed and not computed yet when the page is left is tried when it is opened again", () => {
  const card = new Card();
  card.open = { factor: "12" };
  card.changes.leave();
  assert.deepEqual(new Card(card.kept).refused, { factor: "12" });
});

test("a tick between letters of one field ends what they change in one step", () => {
  const card = new Card();
  card.type("factor", "1", 1);
  card.changes.add({ ticks: ["butter"] });
  card.type("factor", "12", 1);
  card.changes.move("undo");
  assert.deepEqual(card.changes.now, { state: { factor: "1" }, ticks: ["butter"] });
});

test("a card that is open in two tabs has the changes of both in both", () => {
  const one = new Card();
  const other = new Card(one.kept);
  one.type("factor", "2", 1);
  other.type("butter", "300", 1);
  one.changes.meet();
  for (const { state, changes } of [one, other]) {
    assert.deepEqual(state, { factor: "2", butter: "300" });
    assert.deepEqual(changes.now.state, state);
  }
  assert.match(one.said, /changed in another tab/);
  one.changes.move("undo");
  other.changes.meet();
  assert.deepEqual([one.state, other.state], [{ factor: "2" }, { factor: "2" }]);
});

test("what is being typed is not lost when another tab changes the card", () => {
  const one = new Card();
  const other = new Card(one.kept);
  one.type("factor", "2", 1);
  other.open = { butter: "30" };
  other.changes.meet();
  assert.deepEqual([other.state, other.refused], [{ factor: "2" }, { butter: "30" }]);
});

test("how far the reader is in the method is known in both tabs", () => {
  const one = new Card();
  const other = new Card(one.kept);
  one.saved.place = 5;
  one.changes.save();
  other.changes.add({ ticks: ["butter"] });
  assert.equal(new Card(one.kept).saved.place, 5);
});

test("amounts that the device knows are shown at once, others are hidden until Python has worked them out", () => {
  const card = new Card();
  card.type("factor", "2", 1);
  assert.equal(new Card(card.kept, { isLive: false, isPainted: true }).veil, "");
  const again = new Card(card.kept, { isLive: false });
  assert.equal(again.veil, "Working out your amounts…");
  again.changes.computed("batch", { state: { factor: "2" }, refused: {}, cause: "set", entry: 0 });
  assert.equal(again.veil, "");
});

test("units that were chosen for all recipes hide no amounts", () => {
  const card = new Card();
  card.type("units", "1", 1);
  assert.equal(new Card(card.kept, { isLive: false }).veil, "");
});

test("a link hides the amounts until they are worked out, or the link is refused", () => {
  const card = new Card(new Map(), { isLive: false });
  card.changes.open({ factor: "2" }, () => {});
  assert.equal(card.veil, "Working out the amounts of this link…");
  card.changes.refused("batch", { refused: {}, cause: "set", entry: 0, problem: "no" });
  assert.equal(card.veil, "");
});

for (const [whose, show] of Object.entries({
  "your own": (/** @type {Card} */ card) => card.changes.restore(),
  "those of the link": (/** @type {Card} */ card) => card.changes.open({ factor: "3" }, () => {}),
})) {
  test(`where Python cannot start, the amounts are shown, and said to be not ${whose}`, () => {
    const before = new Card();
    before.type("factor", "2", 1);
    const card = new Card(before.kept, { isLive: false });
    show(card);
    card.changes.unavailable();
    assert.equal(card.veil, "");
    assert.equal(card.said, `The calculator could not start here. The amounts are those of the recipe as published, not ${whose}.`);
    assert.deepEqual(new Card(before.kept).state, { factor: "2" });
  });
}

test("that a link has changed the recipe is said also after the theme put the page in again, until it is as published", () => {
  const [kept, visit] = [new Map(), { isFromLink: false }];
  new Card(kept, {}, visit).changes.open({ factor: "2" }, () => {});
  const again = new Card(kept, {}, visit);
  assert.ok(again.changes.isFromLink);
  again.changes.publish();
  assert.ok(!again.changes.isFromLink);
  assert.ok(!new Card(kept).changes.isFromLink);
});

test("what is typed for two calculators is two steps, though both count their entries from one", () => {
  const card = new Card();
  card.changes.computed("trial", { state: { "trial.who": "me" }, refused: {}, cause: "edit", entry: 1 });
  card.type("factor", "2", 1);
  assert.equal(card.changes.now.state.factor, "2");
  card.changes.move("undo");
  assert.deepEqual(card.changes.now.state, { "trial:trial.who": "me" });
});

test("an answer that changes nothing does not end what is being typed", () => {
  const card = new Card();
  card.type("factor", "2", 1);
  card.changes.computed("trial", { state: {}, refused: {}, cause: "set", entry: 0 });
  card.type("factor", "23", 1);
  card.changes.move("undo");
  assert.deepEqual(card.changes.now.state, {});
});
