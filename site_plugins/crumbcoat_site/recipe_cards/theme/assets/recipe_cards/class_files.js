// The results of a class on a handout: files of the groups go into the field for codes, and trial files are saved. What is in
// them is Python's business (calculators/class_results.py).

import { find, findAll } from "./elements.js";
import { save } from "./trial.js";

/** No file of a group is as large as this. */
const MOST_BYTES = 100_000;

/** Known elements: in-place navigation may connect one again. @type {WeakSet<HTMLElement>} */
const known = new WeakSet();

/** @param {HTMLElement} element <class-results> */
export function takeResults(element) {
  if (known.has(element)) return;
  known.add(element);
  const files = find(element, "input[type=file]", HTMLInputElement);
  files.addEventListener("change", () => {
    const all = [...(files.files ?? [])];
    files.value = ""; // So that the same file can be chosen again.
    read(element, all);
  });
  element.addEventListener("click", ({ target }) => {
    const button = target instanceof Element ? target.closest("button") : null;
    if (button?.dataset.save === "all") for (const file of findAll(element, ".cc-result-file")) saveFile(file);
    else if (button?.dataset.save) saveFile(/** @type {HTMLElement} */ (button.closest(".cc-result-file")));
  });
}

/**
 * Adds what is in the files that were chosen to the field for codes.
 *
 * @param {HTMLElement} element
 * @param {File[]} all
 */
async function read(element, all) {
  const small = all.filter(({ size }) => size <= MOST_BYTES);
  const texts = await Promise.all(small.map((file) => file.text()));
  const field = find(element, "textarea", HTMLTextAreaElement);
  const tooLarge = all.filter((file) => !small.includes(file)).map(({ name }) => name);
  const problem = `too large for results of a group, and not read: ${tooLarge.join(", ")}. Choose the files that the phones saved, or paste the codes`;
  find(element, '[data-problem="files"]').textContent = tooLarge.length ? problem : "";
  if (!texts.length) return;
  field.value = [field.value.trim(), ...texts.map((text) => text.trim())].filter(Boolean).join("\n");
  for (const type of ["input", "change"]) field.dispatchEvent(new Event(type, { bubbles: true }));
}

/** @param {HTMLElement} file */
function saveFile(file) {
  const text = (/** @type {string} */ part) => find(file, `[data-part="${part}"]`).textContent;
  save(text("name"), text("file"), "application/yaml");
}
