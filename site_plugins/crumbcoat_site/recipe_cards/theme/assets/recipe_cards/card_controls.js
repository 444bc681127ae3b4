// A card's buttons, ticks, links and messages in the page.

import { find, findAll } from "./elements.js";

/** @typedef {HTMLElement & { article: HTMLElement, isVeiled: boolean }} RecipeReader */

/** A field that text is typed into. */
const TYPED = "input:not([type=checkbox], [type=radio], [readonly])";

export class CardControls {
  #element;

  /** @param {RecipeReader} element */
  constructor(element) {
    this.#element = element;
  }

  /** @param {string} sentence "" takes the last one away */
  say(sentence) {
    for (const place of findAll(this.#element.article, "[data-message]")) place.textContent = sentence;
  }

  /** @param {string} sentence why no amounts are shown; "" shows them again */
  veil(sentence) {
    const wasVeiled = this.#element.isVeiled;
    this.#element.isVeiled = sentence !== "";
    if (sentence || wasVeiled) this.say(sentence);
  }

  /**
   * @param {readonly string[]} ticks those that are set
   * @param {Record<string, boolean>} isIdle whether a button, by its `data-do`, has nothing to do now
   * @param {string} address the link to what is shown
   */
  show(ticks, isIdle, address) {
    const { article } = this.#element;
    for (const box of findAll(article, "[data-tick]", HTMLInputElement)) box.checked = ticks.includes(box.dataset.tick ?? "");
    for (const [act, idle] of Object.entries(isIdle)) {
      for (const button of findAll(article, `[data-do="${act}"]`)) button.setAttribute("aria-disabled", String(idle));
    }
    for (const place of findAll(article, "[data-link]")) place.textContent = address;
    const { field, row } = this.#share;
    if (field.value !== address) row.hidden = true;
  }

  /**
   * Copies the link, or shows it to be copied by hand.
   *
   * @param {string} address
   */
  async share(address) {
    const { field, row } = this.#share;
    field.value = address;
    row.hidden = false;
    try {
      await navigator.clipboard.writeText(address);
      this.say("Link copied. It opens this card with the amounts you see.");
    } catch {
      field.select();
      this.say("Copy this link. It opens this card with the amounts you see.");
    }
  }

  get #share() {
    const field = find(this.#element, "[data-share]", HTMLInputElement);
    return { field, row: find(this.#element, ":has(> [data-share])") };
  }
}

/**
 * The step that a key asks for: Ctrl+Z, and Ctrl+Shift+Z or Ctrl+Y; the browser's own wherever text is typed.
 *
 * @param {KeyboardEvent} event
 * @returns {"undo" | "redo" | null}
 */
export function stepByKey({ altKey, ctrlKey, key, metaKey, shiftKey, target }) {
  if (!(ctrlKey || metaKey) || altKey) return null;
  if (target instanceof Element && target.closest(`${TYPED}, textarea, [contenteditable]`)) return null;
  if (key.toLowerCase() === "y") return "redo";
  if (key.toLowerCase() !== "z") return null;
  return shiftKey ? "redo" : "undo";
}
