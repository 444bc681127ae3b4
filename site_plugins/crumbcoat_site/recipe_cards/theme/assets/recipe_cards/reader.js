// What a reader does with a card, for its <recipe-reader> (recipe_reader.js). The `data-do` of buttons in the article:
//
//   undo  redo  published     one step back, one step forward, all changes back    bench   bench view (bench.js)
//   link  print               a link to what is shown; paper                       timer   start a timer (timers.js)
//   unlink  copy              back from what a link has changed; the line beside    trial-save, -copy, -share (trial.js)
// A checkbox with `data-tick="name"` is a tick. `[data-message]` is where sentences go, `[data-link]` the link on paper.

/** @import { Bench } from "./bench.js" */
/** @import { RecipeReader } from "./card_controls.js" */
/** @import { DeviceStore } from "./device.js" */
/** @import { Shown } from "./kept_texts.js" */
/** @import { Calculator as Computing } from "./pending_state.js" */

import { arriveAtCard, isBenchAsked } from "./bench_address.js";
import { CardChanges } from "./card_changes.js";
import { CardControls, OWN_STATE, reveal, stepByKey } from "./card_controls.js";
import { ClassGroup } from "./class_group.js";
import { findAll } from "./elements.js";
import { withoutNotes } from "./form_state.js";
import { keepTexts, paintTexts } from "./kept_texts.js";
import { linkText, stateFromLink } from "./link.js";
import { SavedCard } from "./saved_card.js";

/** @typedef {HTMLElement & Computing & Shown & { rest: () => Promise<void> }} Calculator */

/** By recipe. @type {Map<string, { isFromLink: boolean }>} */
const visits = new Map();

export class Reader {
  element;

  /** The group of a class that this device is in, if it is. */
  group;

  #controls;
  #device;
  #name;
  #changes;
  #saved;

  /** @type {Bench | null} */
  #bench = null;

  /** Whether bench view opens as soon as amounts are shown. */
  #isBenchAwaited = false;

  /**
   * @param {RecipeReader} element
   * @param {DeviceStore} device
   */
  constructor(element, device) {
    this.element = element;
    this.#controls = new CardControls(element);
    this.#device = device;
    arriveAtCard();
    this.#name = element.dataset.recipe ?? "";
    this.#saved = new SavedCard(device, this.#name);
    this.group = new ClassGroup(device, this.#name);
    const visit = visits.get(this.#name) ?? { isFromLink: false };
    visits.set(this.#name, visit);
    this.#changes = new CardChanges(this.#saved, {
      calculators: () => this.#calculatorsOf(OWN_STATE),
      show: () => this.#show(),
      say: (sentence) => this.#controls.say(sentence),
      veil: (sentence) => this.#veil(sentence),
      visit,
      paint: (state) => paintTexts(device, this.#name, state, this.#calculatorsOf("recipe-calculator")),
    });
    this.#show();
    if (customElements.get("recipe-calculator")) this.#begin();
    else this.#beginLater();
    if (isBenchAsked() && !location.hash.includes("=")) this.#openBench();
  }

  /** The calculators are not there yet; or they never will be, if their script cannot be loaded. */
  async #beginLater() {
    const loaded = new Promise((resolve) => {
      if (document.readyState === "complete") resolve(undefined);
      else addEventListener("load", resolve, { once: true });
    });
    await Promise.race([customElements.whenDefined("recipe-calculator"), loaded]);
    if (customElements.get("recipe-calculator")) this.#begin();
    else this.#veil("");
  }

  /** The card goes, with its page or without. */
  leave() {
    this.#bench?.close();
    this.#keep();
  }

  #begin() {
    if (this.isConnected && !this.#openAddress()) this.#changes.restore();
    this.#showGroup();
  }

  /** @param {Event} event */
  handleEvent(event) {
    const { type, target } = event;
    if (type === "click" && target instanceof Element) {
      this.#press(target.closest("[data-do]"));
      reveal(target.closest('a[href^="#trouble"]'));
    }
    if (type === "change" && target instanceof HTMLInputElement && target.dataset.tick) this.tick(target.dataset.tick, target.checked);
    if (event instanceof CustomEvent) this.#onAnswer(event);
    if (event instanceof KeyboardEvent) this.#onKey(event);
    if (type === "hashchange") this.#onAddress();
    if (type === "pagehide") this.#keep();
    if (type === "pageshow" || type === "storage") this.#changes.meet();
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

  /** Keeps what is typed and not computed yet, and what is shown, for the next visit. */
  #keep() {
    this.#changes.leave();
    if (this.#changes.isPublished) return;
    keepTexts(this.#device, this.#name, this.#changes.now.state, this.#calculatorsOf("recipe-calculator"));
  }

  /**
   * Calculators of the card, by name.
   *
   * @param {string} selector
   */
  #calculatorsOf(selector) {
    const found = /** @type {Calculator[]} */ (findAll(this.article, selector));
    return new Map(found.map((calculator) => [calculator.getAttribute("name") ?? "", calculator]));
  }

  /** Shows what the address asks for. False if it has no state. */
  #openAddress() {
    try {
      const state = this.group.join(stateFromLink(location.hash));
      if (state) this.#changes.open(state, () => this.#arrive());
      return Boolean(state);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      this.#changes.refuseLink(error.message);
      return true;
    }
  }

  /** What this device's group of a class has to know and to give. */
  async #showGroup() {
    if (!this.group.number) return;
    const { showGroup } = await import("./class_card.js");
    showGroup(this.article, this.group, () => withoutNotes(this.#changes.now.state));
  }

  /** A link that is shown and saved need not stay in the address, where it would undo later changes at a reload. */
  #arrive() {
    if (isBenchAsked()) this.#openBench();
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
    else if (event.type === "recipe-unavailable") this.#changes.unavailable();
    else if (this.#changes.refused(name, event.detail)) event.preventDefault();
  }

  /** @param {Element | null} button */
  #press(button) {
    if (!(button instanceof HTMLElement) || button.getAttribute("aria-disabled") === "true") return;
    const { dataset } = button;
    if (dataset.do === "undo" || dataset.do === "redo") this.#changes.move(dataset.do);
    if (dataset.do === "published" || dataset.do === "unlink") this.#changes.publish();
    const share = () => this.#controls.share(this.#address, withoutNotes(this.#changes.now.typed ?? {}));
    if (dataset.do === "link") this.#onceAnswered(OWN_STATE, share);
    if (dataset.do === "print") this.#onceAnswered("recipe-calculator", () => print());
    if (dataset.do === "copy") this.#controls.copy(button);
    if (dataset.do === "bench") this.#openBench();
    if (dataset.do === "timer") this.startTimer(dataset);
    if (dataset.do?.startsWith("trial-")) this.#onceAnswered("recipe-calculator", () => this.#keepTrial(dataset.do ?? ""));
  }

  /** @param {string} how what its button says */
  async #keepTrial(how) {
    const { keepTrial } = await import("./trial.js");
    this.#controls.say(await keepTrial(this.element, how, this.#controls.leftOut(this.#changes.now.typed ?? {}, "file")));
  }

  /**
   * At once, or when calculators show what was changed last: a follower answers after the one that it follows.
   *
   * @param {string} selector
   * @param {() => void} action
   */
  async #onceAnswered(selector, action) {
    const calculators = [...this.#calculatorsOf(`${selector}:defined`).values()];
    if (calculators.some(({ kept }) => !kept)) {
      this.#controls.say("Working out your last change…");
      for (let pass = 0; pass < 2; pass += 1) await Promise.all(calculators.map((calculator) => calculator.rest()));
      this.#controls.say("");
    }
    action();
  }

  /** @param {KeyboardEvent} event */
  #onKey(event) {
    const step = stepByKey(event);
    if (!step) return;
    event.preventDefault();
    this.#changes.move(step);
  }

  get #address() {
    const text = linkText(withoutNotes(this.#changes.now.state));
    return this.element.address + (text && `#${text}`);
  }

  /** @param {string} sentence why no amounts are shown; "" shows them, and the bench if it was asked for meanwhile */
  #veil(sentence) {
    this.#controls.veil(sentence);
    if (sentence || !this.#isBenchAwaited) return;
    this.#isBenchAwaited = false;
    this.#openBench();
  }

  #onAddress() {
    if (this.#openAddress()) this.#showGroup();
    else this.#turnToBench();
  }

  /** Opens or closes it as the address says, after "back" or "forward". */
  #turnToBench() {
    if (isBenchAsked()) this.#openBench();
    else this.#bench?.close();
  }

  async #openBench() {
    if (this.element.isVeiled) {
      this.#isBenchAwaited = true;
      return;
    }
    const [{ Bench }, { openTimers }] = await Promise.all([import("./bench.js"), import("./timers.js")]);
    const timers = await openTimers(this.#device);
    if (!this.isConnected || this.#bench?.isOpen) return;
    this.#bench = new Bench(this, timers, this.#device);
  }

  /** @param {DOMStringMap} timed what its button says */
  async startTimer(timed) {
    const { openTimers } = await import("./timers.js");
    (await openTimers(this.#device)).start(timed, this.element.dataset.card !== undefined);
  }

  /** Shows ticks, buttons and links as they are now. */
  #show() {
    const { now, canUndo, canRedo, isFromLink, isPublished } = this.#changes;
    this.#controls.show(now.ticks, { undo: !canUndo, redo: !canRedo, published: isPublished }, this.#address, isFromLink);
    this.#bench?.refresh();
  }
}
