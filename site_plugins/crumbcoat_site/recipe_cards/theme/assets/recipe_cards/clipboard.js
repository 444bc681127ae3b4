// What is copied for a reader, and what is selected where a browser refuses that.

/**
 * Whether a text is in the clipboard now.
 *
 * @param {string} text
 */
export async function isCopied(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}

/**
 * Copies the text of an element, or selects it; gives whether it was copied.
 *
 * @param {HTMLElement} place
 */
export async function copyOrSelect(place) {
  const copied = await isCopied(place.textContent);
  if (!copied) getSelection()?.selectAllChildren(place);
  return copied;
}
