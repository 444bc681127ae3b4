// What the reader does not edit: the context of a calculator, in its attributes.

/** @typedef {{ digest: string, content: string }} Context */

/**
 * The context of a calculator, with its digests; that of the first one in the scope if it has none of its own.
 *
 * @param {HTMLElement} calculator
 * @param {ParentNode} scope
 * @returns {Context}
 */
export function contextOf(calculator, scope) {
  const first = scope.querySelector("recipe-calculator[context]");
  const source = calculator.hasAttribute("context") || !first ? calculator : first;
  return { digest: source.getAttribute("data-digest") ?? "", content: source.getAttribute("context") ?? "{}" };
}

/**
 * Puts the recipe of a card.json into a field of the calculator's context. False if it cannot be loaded.
 *
 * @param {HTMLElement} calculator
 * @param {Context} context
 * @param {string} address "" for none
 * @param {string} slot
 */
export async function takeCard(calculator, { digest, content }, address, slot) {
  const card = address ? await cardAt(address) : null;
  if (card === undefined) return false;
  const others = digest.split(",").filter((part) => !part.startsWith(`${slot}:`));
  calculator.setAttribute("context", JSON.stringify({ ...JSON.parse(content), [slot]: card?.recipe ?? null }));
  calculator.dataset.digest = [...others, `${slot}:${card?.recipe_digest ?? "none"}`].sort().join(",");
  return true;
}

/**
 * The content of a card.json; undefined if it cannot be loaded.
 *
 * @param {string} address
 * @returns {Promise<{ recipe: object, recipe_digest: string } | undefined>}
 */
async function cardAt(address) {
  try {
    return await (await fetch(new URL(address, document.baseURI))).json();
  } catch (error) {
    if (error instanceof TypeError || error instanceof SyntaxError) return undefined;
    throw error;
  }
}
