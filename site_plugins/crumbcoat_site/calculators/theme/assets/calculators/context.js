// What the reader does not edit: the context of a calculator, in its attributes.

/** @import { Card } from "./chosen_card.js" */

import { takeChoice } from "./chosen_card.js";
import manifest from "./manifest.js";

/** @typedef {{ digest: string, content: string }} Context */

/**
 * The context of a calculator, with its digests; that of the first one in the article if it has none of its own.
 *
 * @param {HTMLElement} calculator
 * @returns {Context}
 */
export function contextOf(calculator) {
  const first = (calculator.closest("article") ?? document).querySelector("recipe-calculator[context]");
  const source = calculator.hasAttribute("context") || !first ? calculator : first;
  return { digest: source.getAttribute("data-digest") ?? "", content: source.getAttribute("context") ?? "{}" };
}

/**
 * From what the texts of a calculator are worked out: the context, the runtime, and the scripts of this build.
 *
 * @param {HTMLElement} calculator
 */
export function keyOf(calculator) {
  return [contextOf(calculator).digest, manifest.folder, new URL(import.meta.url).pathname].join(" ");
}

/**
 * The recipe of the card that is chosen in a field becomes a field of the calculator's context.
 *
 * @param {HTMLElement} calculator
 * @param {HTMLSelectElement} field
 */
export function takeCard(calculator, field) {
  return takeChoice(field, cardAt, (card) => put(calculator, field.dataset.contextFrom ?? "", card));
}

/**
 * @param {HTMLElement} calculator
 * @param {string} slot
 * @param {Card | null} card
 */
function put(calculator, slot, card) {
  const { digest, content } = contextOf(calculator);
  const others = digest.split(",").filter((part) => !part.startsWith(`${slot}:`));
  calculator.setAttribute("context", JSON.stringify({ ...JSON.parse(content), [slot]: card?.recipe ?? null }));
  calculator.dataset.digest = [...others, `${slot}:${card?.recipe_digest ?? "none"}`].sort().join(",");
}

/**
 * The content of a card.json; undefined if it cannot be loaded.
 *
 * @param {string} address
 * @returns {Promise<Card | undefined>}
 */
async function cardAt(address) {
  try {
    return await (await fetch(new URL(address, document.baseURI))).json();
  } catch (error) {
    if (error instanceof TypeError || error instanceof SyntaxError) return undefined;
    throw error;
  }
}
