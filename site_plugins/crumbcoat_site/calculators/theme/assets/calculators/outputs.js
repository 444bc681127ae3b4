// Where the texts of a calculator go: the places of an article that name one of them, by an attribute for each kind, and
// the fields of its form.
//
//   data-text="name"      the text itself        tbody data-rows="name"   rows of cells, the first a row header; the
//                         column data-prose="n", from 0, has marks, and in data-prose-of="another page" no paths as links;
//                         in a thead all are column headers
//   data-picture="name"   an SVG picture         data-problem="field"     what is wrong with a field; "" for the rest
//   data-sections="name"  as many copies of the <template> inside as there are sections; in each, data-part="name" is a
//                         text, or a tbody or thead of rows
//   a data-download="name" the text as a file to save
//
// Outputs inside another calculator are left to that, and those inside an element with data-of="batch" to the calculator of
// that name.

import { marksIn, nodesOf } from "./prose.js";
import { unbroken } from "./spacing.js";

/** @typedef {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} Field */
/** @typedef {import("./edit_queue.js").Refusal} Refusal */

/** @typedef {string | string[][]} Text a text, or rows of texts for a table */
/** @typedef {Record<string, Text>} Section */

/** How a text is shown, by the attribute that names it. @type {Record<string, (place: any, text: any) => void>} */
const SHOW = { text: showText, picture: showPicture, rows: showRows, sections: showSections, download: showFile };

export class Outputs {
  /** The places of each name, by kind. @type {Map<string, Map<string, HTMLElement[]>>} */
  #places = new Map();

  #fields;

  #name;

  /**
   * @param {HTMLElement} calculator
   * @param {ParentNode} scope what it may write to, other calculators aside
   * @param {() => Field[]} fields of its form
   */
  constructor(calculator, scope, fields = () => []) {
    this.#fields = fields;
    this.#name = calculator.getAttribute("name") ?? "";
    for (const kind of [...Object.keys(SHOW), "problem"]) {
      /** @type {Map<string, HTMLElement[]>} */
      const named = new Map();
      for (const place of /** @type {NodeListOf<HTMLElement>} */ (scope.querySelectorAll(`[data-${kind}]`))) {
        const owner = place.closest("recipe-calculator, [data-of]");
        const name = place.dataset[kind] ?? "";
        const isOwn = owner === calculator || (owner && owner.getAttribute("data-of") === calculator.getAttribute("name"));
        if (!owner || isOwn) named.set(name, [...(named.get(name) ?? []), place]);
      }
      this.#places.set(kind, named);
    }
  }

  /** @param {Record<string, any>} texts by name; places of other names stay as they are */
  show(texts) {
    for (const [name, text] of Object.entries(texts)) {
      for (const [kind, show] of Object.entries(SHOW)) for (const place of this.#at(kind, name)) show(place, text);
    }
  }

  /** @param {string[]} names of texts that are not known, or what their names begin with up to a point */
  clear(names) {
    for (const [kind, show] of Object.entries(SHOW)) {
      for (const [name, places] of this.#places.get(kind) ?? []) {
        if (!names.some((unknown) => name === unknown || name.startsWith(`${unknown}.`))) continue;
        for (const place of places) show(place, kind === "rows" || kind === "sections" ? [] : "");
      }
    }
  }

  /**
   * Marks a field with what is wrong with it, and shows that, or takes both away with "". A field without a place of its
   * own, and the name "", go to the place for the rest.
   *
   * @param {string} name
   * @param {string} sentence
   */
  showProblem(name, sentence) {
    for (const field of this.#fields()) if (name && field.name === name) markField(field, sentence);
    const own = this.#at("problem", name);
    const rest = sentence || !name ? this.#at("problem", "").slice(0, 1) : [];
    for (const place of own.length ? own : rest) showText(place, sentence);
  }

  /**
   * What is wrong with a field, what to do, and which amount counts until then if the page shows it elsewhere as well. Where
   * one of a few texts would do, there is a button for each, which hands it over. Then the field has the focus.
   *
   * @param {string} name
   * @param {Refusal} refusal
   */
  showRefusal(name, { problem, remedy, choices = [] }) {
    const [place] = this.#at("problem", name);
    const field = this.#fields().find((one) => one.name === name);
    const isOffered = place !== undefined && field !== undefined && choices.length > 0;
    const counted = this.#at("text", name)[0]?.textContent;
    const until = counted ? `; ${counted} counts until then` : "";
    this.showProblem(name, `${problem}: ${isOffered ? "choose one" : remedy}${until}`);
    if (!isOffered) return;
    for (const [value, result] of choices) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: `${value} · ${result}` });
      Object.assign(button.dataset, { handTo: this.#name, field: name, value });
      const focus = () => document.addEventListener("recipe-state", () => field.focus(), { once: true });
      button.addEventListener("click", focus);
      place.append(" ", button);
    }
  }

  /**
   * @param {string} kind
   * @param {string} name
   */
  #at(kind, name) {
    return this.#places.get(kind)?.get(name) ?? [];
  }
}

/**
 * @param {Element} place left alone if it has this text, which a screen reader would otherwise say again; a file, in a
 *   `pre`, has it as it is
 * @param {string} text
 */
function showText(place, text) {
  const shown = place.localName === "pre" ? text : unbroken(text);
  if (place.textContent !== shown) place.textContent = shown;
}

/**
 * @param {Element} place
 * @param {string} svg
 */
function showPicture(place, svg) {
  if (place.innerHTML !== svg) place.innerHTML = svg;
}

/**
 * @param {HTMLAnchorElement} link
 * @param {string} content
 */
function showFile(link, content) {
  link.href = `data:application/yaml;charset=utf-8,${encodeURIComponent(content)}`;
  link.hidden = !content;
}

/**
 * Puts rows of texts into the body of a table, the first cell of each being its header, or into its head.
 *
 * @param {HTMLTableSectionElement} body
 * @param {string[][]} rows
 */
export function showRows(body, rows) {
  const prose = Number(body.dataset.prose ?? -1);
  while (body.rows.length > rows.length) body.deleteRow(-1);
  rows.forEach((texts, at) => {
    const row = body.rows[at] ?? body.insertRow();
    while (row.cells.length > texts.length) row.deleteCell(-1);
    texts.forEach((text, column) => {
      const cell = row.cells[column] ?? row.appendChild(newCell(column, body.tagName === "THEAD"));
      if (column === prose) cell.replaceChildren(...nodesOf(marksIn(unbroken(text)), "proseOf" in body.dataset));
      else showText(cell, text);
    });
  });
}

/**
 * @param {number} column
 * @param {boolean} isHead
 */
function newCell(column, isHead) {
  const cell = document.createElement(isHead || !column ? "th" : "td");
  if (isHead) cell.scope = "col";
  else if (!column) cell.scope = "row";
  return cell;
}

/**
 * As many copies of the template as there are sections, each with its texts and rows.
 *
 * @param {Element} place
 * @param {Section[]} sections
 */
export function showSections(place, sections) {
  const [template, ...shown] = place.children;
  for (const extra of shown.slice(sections.length)) extra.remove();
  sections.forEach((section, at) => {
    const copy = shown[at] ?? place.appendChild(copyOf(template));
    for (const part of /** @type {NodeListOf<HTMLElement>} */ (copy.querySelectorAll("[data-part]"))) {
      const text = section[part.dataset.part ?? ""];
      if (Array.isArray(text)) showRows(/** @type {HTMLTableSectionElement} */ (part), text);
      else showText(part, text ?? "");
    }
  });
}

/** @param {Element | undefined} template */
function copyOf(template) {
  const { content } = /** @type {HTMLTemplateElement} */ (template);
  return /** @type {Element} */ (content.firstElementChild?.cloneNode(true));
}

/**
 * @param {Element | null} element
 * @returns {element is Field}
 */
export function isField(element) {
  return [HTMLInputElement, HTMLSelectElement, HTMLTextAreaElement].some((kind) => element instanceof kind);
}

/**
 * Whether it is a field that text is typed into.
 *
 * @param {Field} field
 */
export function isTypedInto(field) {
  return field instanceof HTMLTextAreaElement || (field instanceof HTMLInputElement && !["checkbox", "radio"].includes(field.type));
}

/**
 * What a form gives for a field; nothing for a box that is not ticked.
 *
 * @param {Field} field
 */
export function valueOf(field) {
  return field instanceof HTMLInputElement && field.type === "checkbox" && !field.checked ? "" : field.value;
}

/**
 * @param {Field} field
 * @param {string} text
 */
export function fillField(field, text) {
  const isTicked = field instanceof HTMLInputElement && (field.type === "checkbox" || field.type === "radio");
  if (isTicked) field.checked = field.value === text;
  else if (field.value !== text) field.value = text;
}

/**
 * Marks a field as wrong for this reason, or as right with "".
 *
 * @param {Field} field
 * @param {string} sentence
 */
export function markField(field, sentence) {
  field.setCustomValidity(sentence);
  if (sentence) field.setAttribute("aria-invalid", "true");
  else field.removeAttribute("aria-invalid");
}
