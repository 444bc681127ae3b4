// A card's buttons, ticks, links and messages in the page.

/** @import { FormState } from "./form_state.js" */

import { copyOrSelect, isCopied } from "./clipboard.js";
import { find, findAll } from "./elements.js";
import { ownerOf } from "./form_state.js";

/** @typedef {HTMLElement & { article: HTMLElement, address: string, isVeiled: boolean }} RecipeReader */

/** The calculators that have a state of their own. */
export const OWN_STATE = "recipe-calculator:not([data-follows]:not([data-keeps]))";

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
   * @param {boolean} isFromLink whether to say that a link has changed the recipe
   */
  show(ticks, isIdle, address, isFromLink) {
    const { article } = this.#element;
    find(this.#element, "[data-from-link]").hidden = !isFromLink;
    for (const box of findAll(article, "[data-tick]", HTMLInputElement)) box.checked = ticks.includes(box.dataset.tick ?? "");
    for (const [act, idle] of Object.entries(isIdle)) {
      for (const button of findAll(article, `[data-do="${act}"]`)) button.setAttribute("aria-disabled", String(idle));
    }
    for (const place of findAll(article, "[data-link]")) place.textContent = address;
    for (const link of findAll(article, "[data-card-link]", HTMLAnchorElement)) {
      const { cardLink = "" } = link.dataset;
      link.href = cardLink && address.includes("#") ? address.replace("#", `${cardLink}&`) : address + cardLink;
    }
    for (const button of findAll(article, '[data-do="trial-share"]')) button.hidden = !("share" in navigator);
    const { field, row } = this.#share;
    if (field.value !== address) row.hidden = true;
  }

  /**
   * Copies the link, or shows it to be copied by hand.
   *
   * @param {string} address
   * @param {FormState} typed what is in fields and not in the link
   */
  async share(address, typed) {
    const { field, row } = this.#share;
    field.value = address;
    row.hidden = false;
    const opens = `It opens this card with the amounts you see.${this.leftOut(typed, "link")}`;
    const copied = await isCopied(address);
    if (!copied) field.select();
    this.say(`${copied ? "Link copied" : "Copy this link"}. ${opens}`);
  }

  /**
   * Copies the line beside a button, or selects it, and says which.
   *
   * @param {HTMLElement} button
   */
  async copy(button) {
    const line = find(/** @type {HTMLElement} */ (button.parentElement), ".cc-line");
    const message = find(/** @type {HTMLElement} */ (button.closest("[popover]")), "[role=status]");
    message.textContent = "";
    const copied = await copyOrSelect(line);
    const what = button.dataset.line;
    message.textContent = copied ? `Copied: ${what}.` : `The line is selected, since nothing can be copied here by a button. Copy it: ${what}.`;
  }

  /**
   * Which entries are not in a link or a file, in a sentence; "" for none.
   *
   * @param {FormState} typed
   * @param {"link" | "file"} where
   */
  leftOut(typed, where) {
    const entries = Object.entries(typed).map(([name, text]) => {
      const [calculator, own] = ownerOf(name);
      const fields = findAll(this.#element.article, `[name="${own}"]`, HTMLInputElement);
      const field = fields.find(({ form }) => form?.closest("recipe-calculator")?.getAttribute("name") === calculator);
      const label = field?.getAttribute("aria-label") ?? field?.labels?.[0]?.querySelector("span")?.textContent ?? own;
      return `“${text}” (${label})`;
    });
    return entries.length ? ` Not in the ${where}, since it does not count: ${entries.join(", ")}.` : "";
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

/**
 * Goes to a place that a link leads to and that is folded: not every browser opens that.
 *
 * @param {Element | null} link
 */
export function reveal(link) {
  if (!(link instanceof HTMLAnchorElement)) return;
  const place = document.getElementById(link.hash.slice(1));
  const folded = place?.closest("details:not([open])");
  if (folded instanceof HTMLDetailsElement) folded.open = true;
  if (folded) place?.scrollIntoView();
}
