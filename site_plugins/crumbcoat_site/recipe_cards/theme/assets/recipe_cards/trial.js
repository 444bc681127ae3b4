// A batch that is kept as a trial: its file, which the calculator `trial` writes, goes to the author. The date and the four
// letters of the file's name come from the device, once; the letters keep files of several devices apart.

import { isCopied } from "./clipboard.js";
import { find } from "./elements.js";

/** No vowels, so that they are never a word. */
const LETTERS = "bcdfghjkmnpqrstvwxz";

/** @typedef {HTMLElement & { rest: () => Promise<void> }} Calculator */

/**
 * Saves, copies or shares the file; gives what to say.
 *
 * @param {HTMLElement & { article: HTMLElement }} reader
 * @param {string} how `trial-save`, `trial-copy` or `trial-share`
 * @param {string} leftOut what is typed and not in the file, in a sentence
 */
export async function keepTrial({ article }, how, leftOut) {
  const calculator = /** @type {Calculator} */ (find(article, 'recipe-calculator[name="trial"]'));
  fill(find(calculator, '[name="trial.letters"]', HTMLInputElement), randomLetters());
  fill(find(article, '[name="trial.date"]', HTMLInputElement), today());
  await calculator.rest();
  const text = (/** @type {string} */ name) => find(article, `.cc-kept-trial [data-text="${name}"]`).textContent;
  const [file, name, open] = [text("file.trial"), text("trial.name"), text("trial.open")];
  if (!file) return open ? `The file is not saved yet. ${open}${leftOut}` : "The file cannot be made, since the calculator has not started here.";
  const { folder } = find(article, ".cc-kept-trial").dataset;
  const where = `Put it into the folder ${folder} beside the recipe; crumbcoat check says if its number is taken.${leftOut}`;
  if (how === "trial-share") return share(name, file);
  if (how === "trial-copy") return (await isCopied(file)) ? `Copied. ${where}` : shown(article, where);
  save(name, file, "application/yaml");
  return `Saved as ${name}. ${where}`;
}

/**
 * @param {HTMLInputElement} field
 * @param {string} value
 */
function fill(field, value) {
  if (field.value) return;
  field.value = value;
  field.dispatchEvent(new Event("change", { bubbles: true }));
}

/** Four letters by chance. */
export function randomLetters() {
  return [...crypto.getRandomValues(new Uint32Array(4))].map((number) => LETTERS[number % LETTERS.length]).join("");
}

/** The date on the device, year first. */
export function today(now = new Date()) {
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/**
 * @param {string} name
 * @param {string} file
 * @param {string} type
 */
export function save(name, file, type) {
  const href = URL.createObjectURL(new Blob([file], { type }));
  Object.assign(document.createElement("a"), { href, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(href), 60_000);
}

/**
 * Where nothing can be copied: the file on the page, selected.
 *
 * @param {HTMLElement} article
 * @param {string} where
 */
function shown(article, where) {
  const place = find(article, ".cc-kept-file");
  const fold = place.closest("details");
  if (fold) fold.open = true;
  getSelection()?.selectAllChildren(place);
  return `Copy the text that is selected. ${where}`;
}

/**
 * Gives what to say.
 *
 * @param {string} name
 * @param {string} file
 */
export async function share(name, file) {
  try {
    await navigator.share({ title: name, text: file });
    return "";
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return "";
    return "This browser could not share it. Save it, or copy it.";
  }
}
