// The finished texts of a card as it was left, kept on the device: they are shown at once when the card is opened again,
// before Python has started. Each calculator says from what its texts were worked out (recipe, prices, this build of the
// site), and shows no others.

/** @import { DeviceStore } from "./device.js" */
/** @import { FormState } from "./form_state.js" */

import { partOf, same } from "./form_state.js";

/** @typedef {{ key: string, texts: object }} Kept */

/**
 * What is asked of a calculator: its texts if it is at rest, and to show some.
 *
 * @typedef {object} Shown
 * @property {FormState} state
 * @property {DOMStringMap} dataset
 * @property {Kept | null} kept
 * @property {(kept: Kept) => boolean} paint false if they are not of this recipe or this build
 */

/** More letters than these are not worth their place on the device. */
const MOST_LETTERS = 200_000;

/**
 * Keeps the texts of a card, unless a calculator is still at work: what is shown is not all of this state then.
 *
 * @param {DeviceStore} device
 * @param {string} recipe
 * @param {FormState} state
 * @param {Map<string, Shown>} calculators all of the card, by name
 */
export function keepTexts(device, recipe, state, calculators) {
  /** @type {Record<string, Kept>} */
  const parts = {};
  for (const [name, { state: part, dataset, kept }] of calculators) {
    if (!kept || !(dataset.follows || same(part, partOf(state, name)))) return;
    parts[name] = kept;
  }
  if (JSON.stringify(parts).length < MOST_LETTERS) device.setIfRoom(`texts:${recipe}`, { state, parts, used: Date.now() });
}

/**
 * Shows the texts that were kept of a card in this state. False if there are none, or not of each calculator.
 *
 * @param {DeviceStore} device
 * @param {string} recipe
 * @param {FormState} state
 * @param {Map<string, Shown>} calculators
 */
export function paintTexts(device, recipe, state, calculators) {
  const { state: keptState, parts } = /** @type {{ state?: FormState, parts?: Record<string, Kept> }} */ (device.get(`texts:${recipe}`) ?? {});
  if (!keptState || !parts || !same(keptState, state)) return false;
  const found = [...calculators].map(([name, calculator]) => ({ calculator, part: parts[name] }));
  return found.every(({ calculator, part }) => part && calculator.paint(part));
}
