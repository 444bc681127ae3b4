// What this device keeps of one card: its history and how far the reader is in the method; and of all cards, the fields
// that count for every recipe.

/** @import { DeviceStore } from "./device.js" */
/** @import { FormState } from "./form_state.js" */

import { historyFrom } from "./card_history.js";
import { forAllRecipes } from "./form_state.js";

const FOR_ALL_RECIPES = "everywhere";

export class SavedCard {
  history;

  /** How far the reader is: 0 before the first step. */
  place;

  #device;
  #name;

  /**
   * @param {DeviceStore} device
   * @param {string} recipe
   */
  constructor(device, recipe) {
    this.#device = device;
    this.#name = `recipe:${recipe}`;
    const record = device.get(this.#name);
    this.history = historyFrom(record);
    const { place } = /** @type {{ place?: unknown }} */ (record ?? {});
    this.place = typeof place === "number" ? place : 0;
  }

  /** The fields that count for all recipes, as this device has them. */
  get forAllRecipes() {
    return /** @type {FormState} */ (this.#device.get(FOR_ALL_RECIPES) ?? {});
  }

  /** Keeps the card. False if it will be gone with this page. */
  save() {
    return this.#device.set(this.#name, { ...this.history.record, place: this.place, used: Date.now() });
  }

  /** Keeps those fields of the card that count for all recipes. */
  saveForAllRecipes() {
    this.#device.set(FOR_ALL_RECIPES, forAllRecipes(this.history.now.state));
  }
}
