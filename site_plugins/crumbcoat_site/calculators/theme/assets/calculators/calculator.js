// <recipe-calculator name="batch" context="…" data-digest="…" data-state="printed"><form id="…">…</form></recipe-calculator>
//
// Keeps a printed page in step with what the reader changes in the form. Python (crumbcoat_calc.bridge) computes every
// text; this script carries edits there and texts back, and knows no number. A field belongs to the form by the standard
// `form` attribute, wherever it is. Outputs (see outputs.js) may be anywhere in the same article; `data-progress` is the
// place for how far the start is, or why there is none.
//
// `context` is what the reader does not edit, such as the recipe, as JSON; `data-digest` names each field of it and the
// digest of its content ("recipe:3f2a…,prices:90b1…"). Without a `context` the first one in the same article counts.
// A <select> without a name but with data-context-from="recipe" holds the address of a card.json: the recipe of that card
// becomes the field `recipe` of the context (see chosen_card.js).
// `data-follows="batch"`: this calculator takes over the state of that one in the same article whenever it changed,
// fields of its own aside. With `data-keeps` its own fields are a state for others as well: it reports them.
//
// <button type="button" data-hand-to="batch" data-field="finished_mass" data-text-of="cake.mass_needed"> hands the text
// of that name, which is in the button, to a field of the calculator `batch`, as if it were typed there. With
// data-value="24" instead of data-text-of it is that value.
//
// `state` holds what the reader changed, as Python writes it, and `refused` what is typed in fields and could not be used;
// `restore` sets both and has everything computed again (to undo, to open a link). The event `recipe-state`
// ({ detail: { state, refused, cause, entry } }) reports every change of them, cause "edit" or "set"; `recipe-refused`
// ({ detail: { refused, cause, entry, path, problem, remedy } }) what could not be used, and may be prevented. `entry`
// is the number of what is typed into one field until it is left; 0 if nothing was typed. `recipe-unavailable` says that
// Python cannot run here. `kept` are the texts that are shown; `paint` shows them on a later visit, until Python has started;
// `rest` is done when what is typed is answered.
//
// This is the entry point: nothing imports it.

/** @import { Cause, Edits, FormState, Refusal, Reply } from "./edit_queue.js" */
/** @import { Field } from "./outputs.js" */

import { selectOnArrival } from "./arrival.js";
import { CalculatorUnavailable, ask, status, warm, warmWhenIdle } from "./client.js";
import { contextOf, keyOf, takeCard } from "./context.js";
import { EditQueue } from "./edit_queue.js";
import { Following } from "./following.js";
import { Outputs, fillField, isField, isTypedInto, valueOf } from "./outputs.js";
import { showStart } from "./progress.js";
import { Replies } from "./replies.js";

const EVENTS = ["input", "change", "click", "focusin", "focusout", "pointerdown", "reset", "submit", "recipe-state"];

class RecipeCalculator extends HTMLElement {
  #queue = new EditQueue({
    ask: (state, edits) => this.#replies.to(state, edits),
    complete: async () => this.#show(await this.#replies.later(this.#queue.state)),
    lose: (names) => {
      this.#isWhole = false;
      this.#places.clear(names);
    },
    accept: (reply, edits, cause, entry) => this.#accept(reply, edits, cause, entry),
    refuse: (refusal, edits, cause, entry) => this.#refuse(refusal, edits, cause, entry),
    holds: (name, value) => this.#fields.some((field) => field.name === name && valueOf(field) === value),
    fail: (error) => this.#fail(error),
  });

  /** The value of each field at its last "input". @type {WeakMap<Field, string>} */
  #lastInput = new WeakMap();

  /** @type {Record<string, any>} */
  #texts = {};

  /** Whether all texts are of one state. */
  #isWhole = true;

  #replies = new Replies((request) => ask(contextOf(this), { calculator: this.getAttribute("name"), ...request }));

  /** @type {Outputs | null} */
  #outputs = null;

  #following = new Following(
    (name) => this.#fields.some((field) => field.name === name),
    (state) => this.#queue.setBelowEdits({ ...state, ...this.#following.own(this.#queue.settled) }),
  );

  connectedCallback() {
    for (const type of EVENTS) document.addEventListener(type, this);
    for (const type of ["state", "progress"]) status.addEventListener(type, this);
    showStart(this, status, status.sentence);
    warmWhenIdle();
  }

  disconnectedCallback() {
    for (const type of EVENTS) document.removeEventListener(type, this);
    for (const type of ["state", "progress"]) status.removeEventListener(type, this);
    this.#following.stop();
  }

  get state() {
    return this.#reported(this.#queue.state);
  }

  /** @param {FormState} state */
  set state(state) {
    this.restore(state);
  }

  get refused() {
    return this.#queue.refused;
  }

  /** What is in fields and does not count, or not yet. */
  get unsettled() {
    return this.#queue.unsettled;
  }

  /**
   * @param {FormState} state
   * @param {FormState} typed what is in fields besides, and could not be used
   */
  restore(state, typed = {}) {
    this.#queue.set(this.dataset.follows ? this.#following.whole(state) : state, typed);
    for (const field of this.#fields) if (typed[field.name] !== undefined) fillField(field, typed[field.name] ?? "");
  }

  /** The texts that are shown, and from what they were worked out; null while others are on their way. */
  get kept() {
    return this.#queue.isAtRest && this.#isWhole && !this.#following.isWaiting ? { key: keyOf(this), texts: this.#texts } : null;
  }

  /**
   * Shows texts that were kept; false if they are not of this context and this build.
   *
   * @param {{ key: string, texts: Record<string, any> }} kept
   */
  paint({ key, texts }) {
    if (key !== keyOf(this)) return false;
    this.#texts = texts;
    this.#places.show(texts);
    for (const field of this.#fields) this.#fill(field);
    return true;
  }

  /** Until what is typed is answered, or Python is gone. */
  async rest() {
    await this.#following.rest();
    await this.#queue.rest();
  }

  /** What others see of a state. @param {FormState} state */
  #reported(state) {
    return this.dataset.keeps === undefined ? { ...state } : this.#following.own(state);
  }

  get form() {
    return this.querySelector("form");
  }

  get #fields() {
    return [...(this.form?.elements ?? [])].filter(isField);
  }

  /** @param {Event} event */
  handleEvent(event) {
    const { type, target } = event;
    if (target === status) showStart(this, status, status.sentence);
    if (!(target instanceof Element)) return;
    if (type === "recipe-state") this.#follow(target, /** @type {CustomEvent} */ (event).detail.state);
    if (target === this.form && type === "submit") event.preventDefault();
    if (type === "pointerdown" && target !== document.activeElement) this.#queue.flush();
    if (target === this.form && type === "reset") this.restore({});
    if (type === "pointerdown" && this.contains(target)) warm();
    const button = target.closest("button");
    if (type === "click" && button?.dataset.handTo === this.getAttribute("name")) this.#take(button);
    const control = target.closest("input, select, textarea, button");
    if (!(isField(control) || control instanceof HTMLButtonElement) || control.form !== this.form) return;
    if (type === "focusin" || type === "pointerdown") warm();
    if (isField(control)) this.#onField(type, control);
  }

  /**
   * @param {string} type
   * @param {Field} field
   */
  #onField(type, field) {
    if (type === "change" && field instanceof HTMLSelectElement && field.dataset.contextFrom) this.#takeRecipe(field);
    // A field that is left says by "change" what it said by "input"; other fields may have changed it since.
    const isRepeated = type === "change" && this.#lastInput.get(field) === field.value && field.type !== "checkbox";
    if (type === "input") this.#lastInput.set(field, field.value);
    if (type === "focusin") this.#queue.leave();
    if (type === "focusout" || isRepeated) this.#queue.flush();
    if (type === "input" && field.name && isTypedInto(field)) this.#queue.type(field.name, field.value);
    else if ((type === "input" || type === "change") && field.name && !isRepeated) this.#queue.add(field.name, valueOf(field));
    if (type === "change") this.#queue.leave();
    if (type === "focusout") this.#fill(field);
  }

  /** The recipe that is chosen becomes a field of the context, and the reader's changes go. @param {HTMLSelectElement} field */
  async #takeRecipe(field) {
    const outcome = await takeCard(this, field);
    if (outcome === "overtaken") return;
    const isTaken = outcome === "taken";
    showStart(this, status, isTaken ? status.sentence : "This recipe could not be loaded. Choose it again when you are online.");
    if (isTaken) this.restore({});
  }

  /**
   * Takes over the state of another calculator, fields of its own aside.
   *
   * @param {Element} other
   * @param {FormState} state
   */
  #follow(other, state) {
    const { follows } = this.dataset;
    if (!follows || other.getAttribute("name") !== follows || !this.closest("article")?.contains(other)) return;
    this.#following.hear(state);
  }

  /** An edit that a button hands over, once its text is up to date. @param {HTMLButtonElement} button */
  async #take(button) {
    const { field = "", textOf, value } = button.dataset;
    const giver = button.closest("recipe-calculator");
    if (textOf && giver instanceof RecipeCalculator && giver !== this) await giver.rest();
    this.#queue.atRest(() => {
      const text = value ?? button.querySelector(`[data-text="${textOf}"]`)?.textContent;
      if (text) this.#queue.add(field, text.replaceAll("\u00a0", " "));
    });
  }

  /**
   * @param {Exclude<Reply, { error: Refusal }>} reply
   * @param {Edits} edits none if a refused entry is taken back
   * @param {Cause} cause
   * @param {number} entry
   */
  #accept({ state, texts }, edits, cause, entry) {
    const { refused } = this;
    const names = cause === "set" ? [...this.#fields.map(({ name }) => name), ""] : edits.size ? [...edits.keys(), ""] : [];
    for (const name of names) this.#places.showProblem(name, "");
    this.#isWhole = true;
    this.#show(texts);
    for (const field of this.#fields) {
      const typed = refused[field.name];
      if (cause === "set" && typed !== undefined) fillField(field, typed);
      else if (cause === "set" || field !== document.activeElement) this.#fill(field);
    }
    this.#dispatch("recipe-state", { state: this.#reported(state), refused, cause, entry });
  }

  /** @param {Record<string, any>} texts those that changed; a field's come with the first of a reply */
  #show(texts) {
    this.#texts = { ...this.#texts, ...texts };
    this.#places.show(texts);
  }

  /**
   * Shows an error beside the field that caused it, and leaves what is typed there. False if somebody else takes it, or
   * if it is not known which of several edits it belongs to.
   *
   * @param {Refusal} refusal
   * @param {Edits} edits
   * @param {Cause} cause
   * @param {number} entry
   */
  #refuse(refusal, edits, cause, entry) {
    const detail = { refused: this.refused, cause, entry, ...refusal };
    if (edits.size > 1 || !this.#dispatch("recipe-refused", detail)) return false;
    this.#places.showRefusal([...edits.keys()][0] ?? refusal.path.join("."), refusal);
    return true;
  }

  /** False if it may be tried again. @param {unknown} error */
  #fail(error) {
    if (!(error instanceof CalculatorUnavailable)) throw error;
    showStart(this, status, error.message);
    this.#dispatch("recipe-unavailable", {});
    return !status.canRetry;
  }

  /**
   * False if a listener prevented what follows. What a follower computes is nobody else's business, unless it keeps it.
   *
   * @param {string} type
   * @param {object} detail
   */
  #dispatch(type, detail) {
    const bubbles = !this.dataset.follows || this.dataset.keeps !== undefined;
    return this.dispatchEvent(new CustomEvent(type, { bubbles, cancelable: true, detail }));
  }

  /**
   * Gives a field its text, unless what is typed there is not computed yet, or could not be used.
   *
   * @param {Field} field
   */
  #fill(field) {
    const text = this.#texts[field.name];
    if (text === undefined || field.validity.customError || this.#queue.isPending(field.name)) return;
    fillField(field, text);
  }

  get #places() {
    this.#outputs ??= new Outputs(this, this.closest("article") ?? document, () => this.#fields);
    return this.#outputs;
  }
}

customElements.define("recipe-calculator", RecipeCalculator);
document.documentElement.dataset.calculator = ""; // For style sheets: what needs this script is of use now.
selectOnArrival();
