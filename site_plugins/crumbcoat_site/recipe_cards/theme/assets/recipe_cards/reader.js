// What a reader does with a card, for its <recipe-reader> (recipe_reader.js). Buttons anywhere in the article say with
// `data-do` what they are for:
//
//   undo  redo  published     one step back, one step forward, all changes back    bench   bench view (bench.js)
//   link  print               a link to what is shown; paper                       timer   start a timer (timers.js)
//
// A checkbox with `data-tick="name"` is a tick. `[data-message]` is where sentences go, `[data-link]` the link on paper.

/** @import { Bench } from "./bench.js" */
/** @import { RecipeReader } from "./card_controls.js" */
/** @import { DeviceStore } from "./device.js" */
/** @import { Calculator as Computing } from "./pending_state.js" */

import { CardChanges } from "./card_changes.js";
import { CardControls, stepByKey } from "./card_controls.js";
import { find, findAll } from "./elements.js";
import { linkText, stateFromLink } from "./link.js";
import { SavedCard } from "./saved_card.js";

/** @typedef {HTMLElement & Computing} Calculator */

export class Reader {
  element;
  #controls;
  #device;
  #changes;
  #saved;

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
    this.#changes = new CardChanges(this.#saved, {
      calculators: () => this.#calculators,
      show: () => this.#show(),
      say: (sentence) => this.#controls.say(sentence),
    });
    this.#show();
    if (location.hash === "#bench") this.#openBench();
    if (customElements.get("recipe-calculator")) this.#begin();
    else customElements.whenDefined("recipe-calculator").then(() => this.#begin());
  }

  /** The card goes, with its page or without. */
  leave() {
    this.#bench?.close();
    this.#changes.leave();
  }

  #begin() {
    if (this.isConnected && !this.#openAddress()) this.#changes.restore();
  }

  /** @param {Event} event */
  handleEvent(event) {
    const { type, target } = event;
    if (type === "click" && target instanceof Element) this.#press(target.closest("[data-do]"));
    if (type === "change" && target instanceof HTMLInputElement && target.dataset.tick) this.tick(target.dataset.tick, target.checked);
    if (event instanceof CustomEvent) this.#onAnswer(event);
    if (event instanceof KeyboardEvent) this.#onKey(event);
    if (type === "hashchange" && !this.#openAddress() && location.hash === "#bench") this.#openBench();
    if (type === "pagehide") this.#changes.leave();
  }

  get article() {
    return this.element.article;
  }

  get isConnected() {
    return this.element.isConnected;
  }

  get ticks() {
    return this.#changes.now.ticks;
  }

  /** How far the reader is in the method. */
  get place() {
    return this.#saved.place;
  }

  set place(place) {
    this.#saved.place = place;
    this.#changes.save();
  }

  /**
   * @param {string} name
   * @param {boolean} on
   */
  tick(name, on) {
    const ticks = this.ticks.filter((tick) => tick !== name);
    this.#changes.add({ ticks: on ? [...ticks, name] : ticks });
  }

  /** Clears all ticks and goes back to the beginning; the amounts stay. */
  startAgain() {
    this.#saved.place = 0;
    this.#changes.add({ ticks: [] });
    this.#controls.say("All ticks cleared. Undo brings them back.");
  }

  /** The calculators of the card that have a state of their own, by name. */
  get #calculators() {
    const found = /** @type {Calculator[]} */ (findAll(this.article, "recipe-calculator:not([data-follows])"));
    return new Map(found.map((calculator) => [calculator.getAttribute("name") ?? "", calculator]));
  }

  /** Shows what the address asks for. False if it has no state. */
  #openAddress() {
    try {
      const state = stateFromLink(location.hash);
      /** @param {{ problem: string }} refusal */
      const refused = ({ problem }) => this.#changes.refuseLink(problem);
      if (state) this.#changes.set(state, { done: () => this.#clearAddress(), refused });
      return Boolean(state);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      this.#changes.refuseLink(error.message);
      return true;
    }
  }

  /** A link that is shown and saved need not stay in the address, where it would undo later changes at a reload. */
  #clearAddress() {
    if (this.#changes.save()) history.replaceState(history.state, "", location.pathname + location.search);
  }

  /**
   * What a calculator says.
   *
   * @param {CustomEvent} event
   */
  #onAnswer(event) {
    const name = /** @type {Calculator} */ (event.target).getAttribute("name") ?? "";
    if (event.type === "recipe-state") this.#changes.computed(name, event.detail);
    else if (this.#changes.refused(name, event.detail)) event.preventDefault();
  }

  /** @param {Element | null} button */
  #press(button) {
    if (!(button instanceof HTMLElement) || button.getAttribute("aria-disabled") === "true") return;
    const { dataset } = button;
    if (dataset.do === "undo" || dataset.do === "redo") this.#changes.move(dataset.do);
    if (dataset.do === "published") this.#changes.publish();
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
    this.#changes.move(step);
  }

  get #address() {
    const text = linkText(this.#changes.now.state);
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
    const { now, canUndo, canRedo, isPublished } = this.#changes;
    this.#controls.show(now.ticks, { undo: !canUndo, redo: !canRedo, published: isPublished }, this.#address);
    this.#bench?.refresh();
  }
}
