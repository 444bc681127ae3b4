// The screens of bench view, made from what is on the page: the ingredients, one step, the end. A checkbox with
// `data-tick` on them is one of the card's own; `data-focus` names what keeps the focus when a screen is built again.

import { find, findAll, make } from "./elements.js";

/** What ties a part of the page to the reader and to the calculators; a copy must not have it. */
const TIES = ["id", "data-text", "data-rows", "data-picture"];

/** Where a batch that is done can be noted, if the card has that part, and what its button says. @type {[string, string][]} */
const ENDS = [
  [".cc-class-card", "What we found"],
  [".cc-kept-trial", "Keep it as a trial"],
];

/**
 * @param {HTMLElement} article
 * @param {readonly string[]} ticks those that are set
 */
export function ingredientsScreen(article, ticks) {
  const rows = findAll(article, ".cc-ingredients tbody:has([data-tick])")
    .filter((ingredient) => !isLeftOut(ingredient))
    .map((ingredient) => ingredientRow(ingredient, ticks));
  return [
    make("h2", { id: "bench-title" }, "Set everything out"),
    make("p", { class: "cc-bench-hint" }, "Weigh out each ingredient and tick it off. Your ticks are saved on this device."),
    make("ul", { class: "cc-bench-list" }, ...rows),
  ];
}

/**
 * @param {HTMLElement} ingredient its rows of the table: the first is its own, those of its portions follow
 * @param {readonly string[]} ticks
 */
function ingredientRow(ingredient, ticks) {
  const row = find(ingredient, "tr");
  const portions = findAll(ingredient, ".cc-portion", HTMLTableRowElement).map(({ cells }) =>
    [...cells].map((cell) => cell.textContent.trim()).join(" "),
  );
  const words = make("span", { class: "cc-bench-words" }, make("b", {}, textOf(row, ".cc-ingredient")));
  const optional = textOf(row, ".cc-tag:not(.cc-left-out)");
  if (optional) words.append(" ", make("span", { class: "cc-tag" }, optional));
  const [eggs, household] = [textOf(row, ".cc-eggs"), textOf(row, ".cc-household")];
  const notes = [textOf(row, ".cc-preparation"), eggs.startsWith(household) ? "" : household, eggs, portions.join(" · ")];
  for (const note of notes) if (note) words.append(make("small", {}, note));
  return tickRow(tickOf(row), ticks, make("span", { class: "cc-amount" }, textOf(row, ".cc-amount [data-text]")), words);
}

/**
 * @param {HTMLElement} step
 * @param {HTMLElement | undefined} next the step after it, whose amounts can be weighed out meanwhile
 * @param {readonly string[]} ticks
 * @param {string} clock when the plan of a class has it; "" if there is none
 * @param {(checkpoint: HTMLElement) => HTMLElement} question its checkpoint as a question
 */
export function stepScreen(step, next, ticks, clock, question) {
  const copies = (/** @type {string} */ selector) => findAll(step, selector).map(copyOf);
  const title = /** @type {HTMLElement} */ (step.closest(".cc-stage")).dataset.title ?? "";
  return [
    make(
      "div",
      { class: "cc-bench-main" },
      make("h2", { id: "bench-title" }, title),
      ...(clock ? [make("p", { class: "cc-bench-clock" }, clock)] : []),
      ...copies(".cc-doing"),
      ...findAll(step, ".cc-checkpoint").map(question),
      make("ul", { class: "cc-bench-list" }, tickRow(tickOf(step), ticks, make("b", {}, "This step is done"))),
      ...(next ? nextAmounts(next) : []),
    ),
    make("div", { class: "cc-bench-side" }, ...copies(".cc-photo"), ...copies(".cc-margin")),
  ];
}

/**
 * What goes in at the next step, in one line; nothing if nothing does.
 *
 * @param {HTMLElement} next
 */
function nextAmounts(next) {
  const amounts = findAll(next, ".cc-goes-in > li").map(wordsOf);
  return amounts.length ? [make("p", { class: "cc-bench-next" }, make("b", {}, "Next"), ` ${amounts.join(", ")}`)] : [];
}

/**
 * @param {HTMLElement} article
 * @param {readonly HTMLElement[]} steps
 * @param {readonly string[]} ticks
 * @param {() => void} startAgain
 * @param {(selector: string) => void} goTo goes to a folded part of the page
 */
export function endScreen(article, steps, ticks, startAgain, goTo) {
  const again = make("button", { type: "button", class: "cc-button", "data-focus": "again" }, "Start again");
  again.addEventListener("click", startAgain);
  const parts = ENDS.filter(([selector]) => article.querySelector(selector)).map(([selector, words]) => {
    const button = make("button", { type: "button", class: "cc-button", "data-focus": selector }, words);
    button.addEventListener("click", () => goTo(selector));
    return button;
  });
  const isOpen = steps.some((step) => !isLeftOut(step) && !ticks.includes(tickOf(step)));
  return [
    make("h2", { id: "bench-title" }, "That is the whole batch"),
    make("p", { class: "cc-bench-made" }, textOf(article, ".cc-ingredients tfoot .cc-amount")),
    make("p", { class: "cc-bench-hint" }, isOpen ? "Some steps are not ticked; go back to see which." : "Every step is ticked."),
    ...parts.flatMap((button) => [button, " "]),
    again,
  ];
}

/**
 * Whether the reader leaves this ingredient or step out.
 *
 * @param {HTMLElement} part
 */
export function isLeftOut(part) {
  return Boolean(part.querySelector(".cc-left-out")?.textContent);
}

/**
 * The name of the tick of an ingredient or a step.
 *
 * @param {HTMLElement} part
 */
export function tickOf(part) {
  return find(part, "[data-tick]").dataset.tick ?? "";
}

/**
 * @param {string} name
 * @param {readonly string[]} ticks
 * @param {...HTMLElement} words
 */
function tickRow(name, ticks, ...words) {
  const box = make("input", { type: "checkbox", "data-tick": name, "data-focus": name });
  box.checked = ticks.includes(name);
  return make("li", {}, make("label", {}, box, ...words));
}

/**
 * The text of the first element that matches, on one line; "" if there is none.
 *
 * @param {HTMLElement} scope
 * @param {string} selector
 */
export function textOf(scope, selector) {
  const found = scope.querySelector(selector);
  return found ? wordsOf(found) : "";
}

/**
 * The text of an element on one line.
 *
 * @param {Element} element
 */
function wordsOf(element) {
  return element.textContent.trim().replace(/\s+/g, " ");
}

/**
 * A copy of a part of the page that nothing on the page knows of.
 *
 * @param {HTMLElement} part
 */
export function copyOf(part) {
  const copy = /** @type {HTMLElement} */ (part.cloneNode(true));
  for (const element of [copy, ...copy.querySelectorAll("*")]) {
    for (const name of TIES) element.removeAttribute(name);
    if (element instanceof HTMLImageElement) element.loading = "eager";
  }
  const chosen = findAll(part, "select", HTMLSelectElement); // A copy has what the page was made with.
  findAll(copy, "select", HTMLSelectElement).forEach((select, at) => (select.value = chosen[at]?.value ?? ""));
  return copy;
}
