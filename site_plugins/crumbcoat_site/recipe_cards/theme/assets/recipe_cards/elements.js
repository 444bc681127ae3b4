// Elements of the page: found by a selector, or made.

/**
 * The first element that matches. The page always has one: a missing one is a bug.
 *
 * @template {Element} [E=HTMLElement]
 * @param {ParentNode} scope
 * @param {string} selector
 * @param {new () => E} [kind]
 * @returns {E}
 */
export function find(scope, selector, kind) {
  const found = scope.querySelector(selector);
  if (found instanceof (kind ?? HTMLElement)) return /** @type {E} */ (found);
  throw new Error(`the page has no ${selector}`);
}

/**
 * All elements of a kind that match.
 *
 * @template {Element} [E=HTMLElement]
 * @param {ParentNode} scope
 * @param {string} selector
 * @param {new () => E} [kind]
 * @returns {E[]}
 */
export function findAll(scope, selector, kind) {
  const found = [...scope.querySelectorAll(selector)].filter((element) => element instanceof (kind ?? HTMLElement));
  return /** @type {E[]} */ (found);
}

/**
 * A new element. An attribute without a text is left out.
 *
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag
 * @param {Record<string, string>} attributes
 * @param {...(Node | string)} children
 * @returns {HTMLElementTagNameMap[T]}
 */
export function make(tag, attributes, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) if (value !== "") element.setAttribute(name, value);
  element.append(...children);
  return element;
}
