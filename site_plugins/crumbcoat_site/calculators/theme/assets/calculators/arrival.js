// A field that the reader comes to is selected as a whole, so that what is typed takes the place of what was there. A
// second tap puts the caret where it is.

import { isField, isTypedInto } from "./outputs.js";

/** What had the focus when the pointer went down. @type {Element | null} */
let before = null;

/** From now on, in the fields of all calculators of the page. */
export function selectOnArrival() {
  document.addEventListener("pointerdown", () => (before = document.activeElement), true);
  document.addEventListener("click", ({ target }) => isOurs(target) && target !== before && selectWhole(target));
  // A keyboard's "next" does not select anything in every browser; coming back to the window does not count.
  document.addEventListener("focusin", ({ target, relatedTarget }) => relatedTarget && isOurs(target) && selectWhole(target));
}

/**
 * @param {EventTarget | null} target
 * @returns {target is HTMLInputElement}
 */
function isOurs(target) {
  const isInput = target instanceof HTMLInputElement && isField(target) && isTypedInto(target);
  return isInput && Boolean(target.form?.closest("recipe-calculator"));
}

/** @param {HTMLInputElement} field with no part of it selected by the same stroke, and with a caret, which a slider has not */
function selectWhole(field) {
  if (field.selectionStart !== null && field.selectionStart === field.selectionEnd) field.select();
}
