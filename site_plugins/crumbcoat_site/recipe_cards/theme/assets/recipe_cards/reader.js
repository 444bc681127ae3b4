// What a reader does with a card, for its <recipe-reader> (recipe_reader.js). Buttons anywhere in the article say with
// `data-do` what they are for:
//
//   undo  redo  published     one step back, one step forward, all changes back    bench   bench view (bench.js)
//   link  print               a link to what is shown; paper                       timer   start a timer (timers.js)
//
// A checkbox with `data-tick="name"` is a tick. `[data-message]` is where sentences go, `[data-link]` the link on paper.

/** @import { Bench } from "./bench.js" */
/** @import { RecipeReader } from "./card_controls.js" */
/** @import { Moment } from "./card_history.js" */
/** @import { DeviceStore } from "./device.js" */
/** @import { FormState } from "./form_state.js" */
/** @import { Options, Refusal } from "./pending_state.js" */

import { CardControls, fieldInUse, stepByKey } from "./card_controls.js";
import { find, findAll } from "./elements.js";
import { forAllRecipes, same, withPart } from "./form_state.js";
import { linkText, stateFromLink } from "./link.js";
import { PendingState } from "./pending_state.js";
import { SavedCard } from "./saved_card.js";

/** @typedef {HTMLElement & { state: FormState }} Calculator */

export class Reader {
  element;
  #controls;
  #device;
  #history;
  #saved;

  /** @type {PendingState | null} */
  #pending = null;

  /** The text field that the last edit came from, until the reader leaves it. @type {string | null} */
  #field = null;

  /** @type {Bench | null} */
  #bench = null;

  /**
   * @param {RecipeReader} element
   * @param {DeviceStore} device
   */
  constructor(element, device) {
    this.element = element;
    this.#controls = new CardControls(element);
    this.#device = device;
    this.#saved = new SavedCard(device, element.dataset.recipe ?? "");
    this.#history = this.#saved.history;
    this.#show();
    if (!this.#openAddress()) this.#restore();
  }

  leave() {
    this.#bench?.close();
  }

  /** @param {Event} event */
  handleEvent(event) {
    const { type, target } = event;
    if (type === "change" || type === "focusin") this.#field = null;
    if (type === "click" && target instanceof Element) this.#press(target.closest("[data-do]"));
    if (type === "change" && target instanceof HTMLInputElement && target.dataset.tick) this.tick(target.dataset.tick, target.checked);
    if (type === "recipe-state") this.#onState(/** @type {CustomEvent} */ (event));
    if (type === "recipe-refused") this.#onRefused(/** @type {CustomEvent} */ (event));
    if (event instanceof KeyboardEvent) this.#onKey(event);
    if (type === "hashchange") this.#openAddress();
  }

  get article() {
    return this.element.article;
  }

  get isConnected() {
    return this.element.isConnected;
  }

  get ticks() {
    return this.#history.now.ticks;
  }

  /** How far the reader is in the method. */
  get place() {
    return this.#saved.place;
  }

  set place(place) {
    this.#saved.place = place;
    this.#save();
  }

  /**
   * @param {string} name
   * @param {boolean} on
   */
  tick(name, on) {
    const ticks = this.ticks.filter((tick) => tick !== name);
    this.#add({ ticks: on ? [...ticks, name] : ticks });
  }

  /** Clears all ticks and goes back to the beginning; the amounts stay. */
  startAgain() {
    this.#saved.place = 0;
    this.#add({ ticks: [] });
    this.#controls.say("All ticks cleared. Undo brings them back.");
  }

  /** The calculators of the card that have a state of their own, by name. */
  get #calculators() {
    const found = /** @type {Calculator[]} */ (findAll(this.article, "recipe-calculator:not([data-follows])"));
    return new Map(found.map((calculator) => [calculator.getAttribute("name") ?? "", calculator]));
  }

  /** Shows what the address asks for. False if it has no state. */
  #openAddress() {
    if (location.hash === "#bench") this.#openBench();
    try {
      const state = stateFromLink(location.hash);
      if (state) this.#set(state, { done: () => this.#clearAddress(), refused: ({ problem }) => this.#refuseLink(problem) });
      return Boolean(state);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      this.#refuseLink(error.message);
      return true;
    }
  }

  /** Shows what was saved on this device. */
  #restore() {
    const { state } = this.#saved;
    this.#history.amend({ state });
    if (!Object.keys(state).length) return;
    /** @param {Refusal} refusal */
    const refused = ({ problem }) => {
      this.#add({ state: {} });
      this.#controls.say(`Your earlier changes no longer fit this recipe: ${problem}. It is shown as published.`);
    };
    this.#set(state, { quiet: true, refused });
  }

  /** @param {string} problem */
  #refuseLink(problem) {
    const state = this.#saved.forAllRecipes;
    if (!same(state, this.#history.now.state)) this.#add({ state });
    const earlier = this.#history.past.length ? " Your own changes are not lost: Undo brings them back." : "";
    const done = () => this.#controls.say(`The link could not be used: ${problem}. The recipe is shown as published.${earlier}`);
    this.#set(state, { done });
  }

  /** A link that is shown and saved need not stay in the address, where it would undo later changes at a reload. */
  #clearAddress() {
    if (this.#save()) history.replaceState(history.state, "", location.pathname + location.search);
  }

  /**
   * Has a state computed, by those calculators whose part of it changes.
   *
   * @param {FormState} state
   * @param {Options} options
   */
  async #set(state, options = {}) {
    const calculators = this.#calculators;
    const unknown = PendingState.unknownField(state, calculators);
    if (unknown) return options.refused?.({ problem: `this card has no field ${unknown}` });
    await customElements.whenDefined("recipe-calculator");
    this.#pending = new PendingState(state, calculators, this.#pending, options);
    this.#pending.send(calculators);
    return this.#pending.isComplete ? this.#finish(this.#pending) : undefined;
  }

  /** @param {PendingState} pending */
  #finish({ options }) {
    this.#pending = null;
    this.#show();
    options.done?.();
  }

  /** @param {CustomEvent<{ state: FormState, cause: string }>} event */
  #onState({ target, detail: { state: part, cause } }) {
    const name = /** @type {Calculator} */ (target).getAttribute("name") ?? "";
    const pending = this.#pending?.waitsFor(name) ? this.#pending : null;
    if (pending?.isOvertaken(name, part, cause)) return;
    const field = cause === "edit" ? fieldInUse() : null;
    const state = withPart(this.#history.now.state, name, part);
    if (pending?.options.quiet) {
      this.#history.amend({ state });
    } else if (!same(state, this.#history.now.state)) {
      this.#add({ state }, pending ? pending.isNoted : field !== null && field === this.#field);
      if (pending) pending.isNoted = true;
    }
    this.#field = field;
    if (cause === "edit") this.#saved.saveForAllRecipes();
    pending?.arrived(name);
    if (pending?.isComplete) this.#finish(pending);
    else this.#show();
  }

  /** @param {CustomEvent<{ cause: string } & Refusal>} event */
  #onRefused(event) {
    if (event.detail.cause !== "set" || !this.#pending) return;
    event.preventDefault();
    const { refused } = this.#pending.options;
    this.#pending = null;
    refused?.(event.detail);
  }

  /**
   * @param {Partial<Moment>} change
   * @param {boolean} continues
   */
  #add(change, continues = false) {
    this.#history.add(change, continues);
    this.#controls.say("");
    this.#save();
    this.#show();
  }

  #save() {
    const isSaved = this.#saved.save();
    if (!isSaved) this.#controls.say("This browser saves nothing for this site. Copy a link to keep your changes.");
    return isSaved;
  }

  /**
   * Shows another moment of the history.
   *
   * @param {"undo" | "redo"} which
   */
  #move(which) {
    const before = this.#history.now;
    const moment = this.#history[which]();
    if (!moment) return;
    this.#controls.say("");
    this.#save();
    this.#show();
    if (same(moment.state, before.state)) return;
    this.#saved.saveForAllRecipes();
    this.#set(moment.state, { exact: true });
  }

  /** @param {Element | null} button */
  #press(button) {
    if (!(button instanceof HTMLElement) || button.getAttribute("aria-disabled") === "true") return;
    const { dataset } = button;
    if (dataset.do === "undo" || dataset.do === "redo") this.#move(dataset.do);
    if (dataset.do === "published") this.#set(forAllRecipes(this.#history.now.state));
    if (dataset.do === "link") this.#controls.share(this.#address);
    if (dataset.do === "print") print();
    if (dataset.do === "bench") this.#openBench();
    if (dataset.do === "timer") this.#startTimer(dataset);
  }

  /** @param {KeyboardEvent} event */
  #onKey(event) {
    const step = stepByKey(event);
    if (!step) return;
    event.preventDefault();
    this.#move(step);
  }

  get #address() {
    const text = linkText(this.#history.now.state);
    return location.origin + location.pathname + (text && `#${text}`);
  }

  async #openBench() {
    const [{ Bench }, { openTimers }] = await Promise.all([import("./bench.js"), import("./timers.js")]);
    const timers = await openTimers(this.#device);
    if (!this.isConnected || this.#bench?.isOpen) return;
    this.#bench = new Bench(this, timers, this.#device);
  }

  /** @param {DOMStringMap} dataset */
  async #startTimer({ step, label = "", shortest, longest }) {
    const { openTimers } = await import("./timers.js");
    const timers = await openTimers(this.#device);
    const href = `${location.pathname}#${find(this.article, `#step-${step}`).id}`;
    timers.start({ label, href, shortestS: Number(shortest), longestS: Number(longest) });
  }

  /** Shows ticks, buttons and links as they are now. */
  #show() {
    const { now, past, future } = this.#history;
    const isIdle = { undo: !past.length, redo: !future.length, published: same(now.state, forAllRecipes(now.state)) };
    this.#controls.show(now.ticks, isIdle, this.#address);
    this.#bench?.refresh();
  }
}
