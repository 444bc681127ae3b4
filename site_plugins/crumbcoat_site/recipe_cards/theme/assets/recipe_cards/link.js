// A card's state in the fragment of an address: `#factor=2&amount.butter=300`, or `#bench&factor=2` to work with it at once.

/** @import { FormState } from "./form_state.js" */

const MOST_LETTERS = 4000;

/**
 * A state as the text of a fragment; the fields in the order of the state.
 *
 * @param {FormState} state
 */
export function linkText(state) {
  const written = (/** @type {string} */ text) => encodeURIComponent(text).replaceAll("%20", "+").replaceAll("%3A", ":");
  return Object.entries(state)
    .map(([field, value]) => `${written(field)}=${written(value)}`)
    .join("&");
}

/**
 * The state in a fragment; null if it holds none, as that of an ordinary link to a heading. Throws a RangeError whose
 * message says what is wrong with it.
 *
 * @param {string} fragment
 * @returns {FormState | null}
 */
export function stateFromLink(fragment) {
  const text = fragment.replace(/^#(bench&)?/, "");
  if (!text.includes("=")) return null;
  if (text.length > MOST_LETTERS) throw new RangeError("it is too long");
  /** @type {FormState} */
  const state = {};
  for (const part of text.split("&")) {
    const [field, value, more] = part.split("=").map(decoded);
    if (!field || value === undefined || more !== undefined) throw new RangeError("part of it is missing");
    if (Object.hasOwn(state, field)) throw new RangeError(`it gives ${field} twice`);
    state[field] = value;
  }
  return state;
}

/** @param {string} text */
function decoded(text) {
  try {
    return decodeURIComponent(text.replaceAll("+", " "));
  } catch {
    throw new RangeError("it is damaged");
  }
}
