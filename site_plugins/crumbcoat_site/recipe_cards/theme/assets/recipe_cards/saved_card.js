// What this device keeps of one card: its history and how far the reader is in the method; and of all cards, the fields
// that count for every recipe.

/** @import { DeviceStore } from "./device.js" */
/** @import { FormState } from "./form_state.js" */

import { historyFrom } from "./card_history.js";
import { forAllRecipes, notForAllRecipes } from "./form_state.js";

const FOR_ALL_RECIPES = "everywhere";

export class SavedCard {
  history;

  /** How far the reader is: 0 before the first step. */
  place;

  #device;
  #name;

  /** When the card was last saved, in ms since 1970. */
  #used;

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
    return this.#device.set(this.#name, { ...this.history.record, place: this.place, used: this.#used });
  }

  /** Keeps those fields of the card that count for all recipes. */
  saveForAllRecipes() {
    this.#device.set(FOR_ALL_RECIPES, { fields: forAllRecipes(this.history.now.state), changed: Date.now() });
  }
}
