// The state of a card's forms: what the reader changed, as one flat object. Fields of the batch go by their own names,
// those of another calculator by its name as well: `cake:tier.1.shape`.

/** @typedef {Record<string, string>} FormState */

/** The fields that a reader sets once for all recipes. */
const FOR_ALL_RECIPES = ["units", "scale", "eggs", "cake:lengths"];

/** The calculator whose fields go without its name. */
const MAIN = "batch";

/** The calculator with the notes about a batch (trial.js): they stay on the device, and are in no link. */
const NOTES = "trial";

/**
 * Whether two states are the same, whatever the order of their fields.
 *
 * @param {FormState} one
 * @param {FormState} other
 */
export function same(one, other) {
  const sorted = (/** @type {FormState} */ state) => JSON.stringify(Object.entries(state).sort());
  return sorted(one) === sorted(other);
}

/** @param {FormState} state */
export function isEmpty(state) {
  return !Object.keys(state).length;
}

/**
 * The fields that count for all recipes.
 *
 * @param {FormState} state
 * @returns {FormState}
 */
export function forAllRecipes(state) {
  return Object.fromEntries(Object.entries(state).filter(([field]) => FOR_ALL_RECIPES.includes(field)));
}

/**
 * The fields that count for one recipe only.
 *
 * @param {FormState} state
 * @returns {FormState}
 */
export function notForAllRecipes(state) {
  return Object.fromEntries(Object.entries(state).filter(([field]) => !FOR_ALL_RECIPES.includes(field)));
}

/**
 * The calculator that a field belongs to, and what the field is called there.
 *
 * @param {string} field
 * @returns {[calculator: string, field: string]}
 */
export function ownerOf(field) {
  const colon = field.indexOf(":");
  return colon < 0 ? [MAIN, field] : [field.slice(0, colon), field.slice(colon + 1)];
}

/**
 * The fields of one calculator, by the names that they have there.
 *
 * @param {FormState} state
 * @param {string} calculator
 * @returns {FormState}
 */
export function partOf(state, calculator) {
  /** @type {FormState} */
  const part = {};
  for (const [field, value] of Object.entries(state)) {
    const [owner, name] = ownerOf(field);
    if (owner === calculator) part[name] = value;
  }
  return part;
}

/**
 * The same state with other fields for one calculator. Those of the batch come first, as in a link.
 *
 * @param {FormState} state
 * @param {string} calculator
 * @param {FormState} part
 * @returns {FormState}
 */
export function withPart(state, calculator, part) {
  const others = Object.entries(state).filter(([field]) => ownerOf(field)[0] !== calculator);
  const prefix = calculator === MAIN ? "" : `${calculator}:`;
  const own = Object.entries(part).map(([name, value]) => [prefix + name, value]);
  return Object.fromEntries(prefix ? [...others, ...own] : [...own, ...others]);
}

/**
 * The same state without the notes.
 *
 * @param {FormState} state
 */
export function withoutNotes(state) {
  return withPart(state, NOTES, {});
}

/**
 * The same state with the notes of another one.
 *
 * @param {FormState} state
 * @param {FormState} noted
 */
export function withNotesOf(state, noted) {
  return withPart(state, NOTES, partOf(noted, NOTES));
}
