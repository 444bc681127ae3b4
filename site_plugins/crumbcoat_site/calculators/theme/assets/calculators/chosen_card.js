// The recipe that is chosen in a <select>, while its card is on its way: the field and the figures name the same one.
//
// A choice that another one overtakes counts no more. One that cannot be loaded is taken back, with the event "error" at
// the field. `data-shown` is the address of the card that is shown, whatever is chosen meanwhile.

/** @typedef {{ recipe: object, recipe_digest: string }} Card what is read of a card.json */
/** @typedef {{ value: string, defaultSelected: boolean }} Option */
/** @typedef {EventTarget & { value: string, dataset: Record<string, string | undefined>, options: Iterable<Option> }} Choice */

/** The number of choices made in each field. @type {WeakMap<Choice, number>} */
const made = new WeakMap();

/**
 * Loads the card that is chosen now, and takes it if the choice still counts then.
 *
 * @param {Choice} field its value is the address of a card.json, or "" for none
 * @param {(address: string) => Promise<Card | undefined>} load gives nothing if the card cannot be loaded
 * @param {(card: Card | null) => void} take
 * @returns {Promise<"taken" | "overtaken" | "failed">}
 */
export async function takeChoice(field, load, take) {
  const { value } = field;
  const number = (made.get(field) ?? 0) + 1;
  made.set(field, number);
  field.dataset.shown ??= printed(field);
  const card = value ? await load(value) : null;
  if (made.get(field) !== number) return "overtaken";
  if (card === undefined) {
    field.value = field.dataset.shown;
    field.dispatchEvent(new Event("error"));
    return "failed";
  }
  field.dataset.shown = value;
  take(card);
  return "taken";
}

/** The option that the page was printed with. @param {Choice} field */
function printed({ options }) {
  const [first, ...others] = options;
  return (others.find(({ defaultSelected }) => defaultSelected) ?? first)?.value ?? "";
}
