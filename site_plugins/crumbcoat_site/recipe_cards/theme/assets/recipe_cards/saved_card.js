// What this device keeps of one card: its history and how far the reader is in the method; and of all cards, the fields
// that count for every recipe.

/** @import { Moment } from "./card_history.js" */
/** @import { DeviceStore } from "./device.js" */
/** @import { FormState } from "./form_state.js" */

import { CardHistory, historyFrom } from "./card_history.js";
import { forAllRecipes, notForAllRecipes } from "./form_state.js";
import { joined } from "./two_tabs.js";

const FOR_ALL_RECIPES = "everywhere";

export class SavedCard {
  history;

  /** How far the reader is: 0 before the first step. */
  place;

  #device;
  #name;

  /** When the card was last saved, in ms since 1970. */
  #used;

  /** What the device had when this page last read or saved it, as JSON. */
  #known = "null";

  /** The moment and the place in that. */
  #shared = { now: new CardHistory().now, place: 0 };

  /**
   * @param {DeviceStore} device
   * @param {string} recipe
   */
  constructor(device, recipe) {
    this.#device = device;
    this.#name = `recipe:${recipe}`;
    const record = device.get(this.#name);
    this.history = historyFrom(record);
    const { place, used } = /** @type {{ place?: unknown, used?: unknown }} */ (record ?? {});
    this.place = typeof place === "number" ? place : 0;
    this.#knows(record, this.history.now, this.place);
    this.#used = typeof used === "number" ? used : 0;
  }

  /** What to show at first: the card as it was left, with those fields that were changed on another card since. */
  get state() {
    const { state } = this.history.now;
    return this.#everywhere.changed < this.#used ? state : { ...this.forAllRecipes, ...notForAllRecipes(state) };
  }

  /** The fields that count for all recipes, as this device has them. */
  get forAllRecipes() {
    return this.#everywhere.fields;
  }

  /** @returns {{ fields: FormState, changed: number }} `changed` in ms since 1970 */
  get #everywhere() {
    const { fields = {}, changed = 0 } = /** @type {any} */ (this.#device.get(FOR_ALL_RECIPES) ?? {});
    return { fields, changed };
  }

  /** What is typed in fields and could not be used, as the card was left. */
  get typed() {
    return this.history.typed;
  }

  /** Keeps the card. False if it will be gone with this page. */
  save() {
    this.#used = Date.now();
    const record = { ...this.history.record, place: this.place, used: this.#used };
    this.#knows(record, this.history.now, this.place);
    return this.#device.set(this.#name, record);
  }

  /** Takes over what another tab has saved since this page last read or saved the card. False if none has. */
  takeOver() {
    const record = this.#device.get(this.#name);
    if (!record || JSON.stringify(record) === this.#known) return false;
    const theirs = historyFrom(record).record;
    const { place } = /** @type {{ place?: unknown }} */ (record);
    const before = this.#shared;
    this.#knows(record, theirs.now, typeof place === "number" ? place : 0);
    this.history.become(joined(before.now, this.history.now, theirs));
    if (this.place === before.place) this.place = this.#shared.place;
    return true;
  }

  /**
   * @param {unknown} record
   * @param {Moment} now
   * @param {number} place
   */
  #knows(record, now, place) {
    this.#known = JSON.stringify(record);
    this.#shared = { now, place };
  }

  /** Keeps those fields of the card that count for all recipes. */
  saveForAllRecipes() {
    this.#device.set(FOR_ALL_RECIPES, { fields: forAllRecipes(this.history.now.state), changed: Date.now() });
  }
}
