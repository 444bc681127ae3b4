// Rows of a table and sections of a page, kept in step with Python: as little is touched as can be.
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";

import { Outputs, showRows, showSections } from "../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/outputs.js";

/** As much of an element as rows and sections need. It counts how often its text is set. */
class Element {
  /** @type {Element[]} */
  children = [];
  /** @type {Element | null} */
  parent = null;
  /** @type {Record<string, string>} */
  dataset = {};
  /** @type {{ firstElementChild: Element } | null} */
  content = null;
  scope = "";
  writes = 0;
  #text = "";

  /** @param {string} tag */
  constructor(tag, dataset = {}) {
    this.tag = tag;
    this.dataset = dataset;
  }

  get localName() {
    return this.tag;
  }

  get textContent() {
    return this.#text;
  }

  set textContent(text) {
    this.#text = text;
    this.writes += 1;
  }

  get rows() {
    return this.children;
  }

  get cells() {
    return this.children;
  }

  /** @param {Element} child */
  appendChild(child) {
    child.parent = this;
    this.children.push(child);
    return child;
  }

  insertRow() {
    return this.appendChild(new Element("tr"));
  }

  deleteRow() {
    this.children.pop();
  }

  deleteCell() {
    this.children.pop();
  }

  remove() {
    this.parent?.children.splice(this.parent.children.indexOf(this), 1);
  }

  cloneNode() {
    const copy = new Element(this.tag, this.dataset);
    copy.textContent = this.#text;
    for (const child of this.children) copy.appendChild(child.cloneNode());
    return copy;
  }

  /** @param {Element[]} children */
  replaceChildren(...children) {
    this.children = children;
  }

  /** @param {Element[]} children */
  append(...children) {
    this.children.push(...children);
  }

  /**
   * @param {string} name
   * @param {string} value
   */
  setAttribute(name, value) {
    this.dataset[name] = value;
  }

  querySelectorAll() {
    return this.children.filter(({ dataset }) => dataset.part);
  }
}

beforeEach(() => {
  const createElement = (/** @type {string} */ tag) => new Element(tag);
  const createTextNode = (/** @type {string} */ text) => Object.assign(new Element("#text"), { textContent: text });
  Object.assign(globalThis, { document: { createElement, createTextNode } });
});

/** @param {string[][]} rows */
function tableOf(rows) {
  const body = new Element("tbody");
  show(body, rows);
  return body;
}

/**
 * @param {Element} body
 * @param {string[][]} rows
 */
function show(body, rows) {
  showRows(/** @type {any} */ (body), rows);
}

/** @param {Element} body */
function textsOf(body) {
  return body.rows.map((row) => row.cells.map((cell) => cell.textContent));
}

const FAT = [
  ["Fat", "25\u00a0g", "25\u00a0%"],
  ["Water", "34\u00a0g", "34\u00a0%"],
];

test("a number and its unit stay on one line, but not in a file", () => {
  const [seen, file] = [new Element("span", { text: "finished" }), new Element("pre", { text: "finished" })];
  outputsOf([seen, file]).show({ finished: "2½ US tsp at 18 °C" });
  assert.deepEqual([seen.textContent, file.textContent], ["2½\u00a0US\u00a0tsp at 18\u00a0°C", "2½ US tsp at 18 °C"]);
});

test("the first cell of a row is its header", () => {
  const body = tableOf(FAT);
  assert.deepEqual(textsOf(body), FAT);
  assert.deepEqual(
    body.rows.map((row) => row.cells.map(({ tag, scope }) => tag + scope)),
    [
      ["throw", "td", "td"],
      ["throw", "td", "td"],
    ],
  );
});

test("a cell whose text stays is not touched", () => {
  const body = tableOf(FAT);
  show(body, [["Fat", "50\u00a0g", "25\u00a0%"], FAT[1] ?? []]);
  const writes = body.rows.map((row) => row.cells.map((cell) => cell.writes));
  assert.deepEqual(writes, [
    [1, 2, 1],
    [1, 1, 1],
  ]);
});

test("a table grows and shrinks with its rows, and a row with its cells", () => {
  const body = tableOf(FAT);
  const rowOfFat = body.rows[0];
  for (const rows of [[...FAT, ["Sugar", "34\u00a0g", "34\u00a0%"]], [["Fat", "25\u00a0g"]], [], FAT]) {
    show(body, rows);
    assert.deepEqual(textsOf(body), rows);
    if (rows.length > 2) assert.equal(body.rows[0], rowOfFat);
  }
});

/** A place for sections with a title, a list and a table, as the build prints it: two of them are there. */
function placeOf() {
  const template = new Element("template");
  const section = new Element("section");
  section.appendChild(new Element("h3", { part: "title" }));
  section.appendChild(new Element("tbody", { part: "rows" }));
  template.content = { firstElementChild: section };
  const place = new Element("div");
  place.appendChild(template);
  return place;
}

/**
 * @param {Element} place
 * @param {Record<string, string | string[][]>[]} sections
 */
function sectionsShown(place, sections) {
  showSections(/** @type {any} */ (place), sections);
  return place.children.slice(1).map(({ children: [title, body] }) => [title?.textContent, body && textsOf(body)]);
}

test("there are as many copies of the template as there are sections, each with its texts and rows", () => {
  const place = placeOf();
  const group = (/** @type {string} */ title) => ({ title, rows: [[title, "1\u00a0kg"]] });
  for (const titles of [["Group 1", "Group 2"], ["Group 1", "Group 2", "Group 3"], ["Group 3"], []]) {
    const shown = sectionsShown(place, titles.map(group));
    assert.deepEqual(shown, titles.map((title) => [title, [[title, "1\u00a0kg"]]]));
  }
  assert.equal(place.children[0]?.tag, "template");
});

test("a section that is there already is filled again, not replaced", () => {
  const place = placeOf();
  sectionsShown(place, [{ title: "Group 1", rows: [] }]);
  const [, first] = place.children;
  sectionsShown(place, [
    { title: "Group A", rows: [] },
    { title: "Group B", rows: [] },
  ]);
  assert.equal(place.children[1], first);
});

test("a text that a section does not have is empty", () => {
  assert.deepEqual(sectionsShown(placeOf(), [{ rows: [] }]), [["", []]]);
});

/**
 * The places of a calculator: a problem of each field, and the amount of milk as it is printed.
 *
 * @param {Element[]} places
 */
function outputsOf(places) {
  const calculator = { getAttribute: () => "batch" };
  const own = places.map((place) => Object.assign(place, { closest: () => calculator }));
  const kind = (/** @type {string} */ selector) => selector.slice("[data-".length, -1);
  const scope = { querySelectorAll: (/** @type {string} */ selector) => own.filter(({ dataset }) => kind(selector) in dataset) };
  return new Outputs(/** @type {any} */ (calculator), /** @type {any} */ (scope));
}

test("beside a refused amount is the one that counts until then, as Python wrote it last", () => {
  const problem = new Element("span", { problem: "amount.milk" });
  const outputs = outputsOf([problem, new Element("span", { text: "amount.milk" })]);
  const refusal = { path: ["amount", "milk"], problem: "'lots' is not an amount", remedy: "write it like `250 g`" };
  for (const amount of ["381 g", "762 g"]) {
    outputs.show({ "amount.milk": amount });
    outputs.showRefusal("amount.milk", refusal);
    assert.equal(problem.textContent.replaceAll("\u00a0", " "), `'lots' is not an amount: write it like \`250 g\`; ${amount} counts until then`);
  }
});

test("a refused field whose text is nowhere else has the problem and the remedy alone", () => {
  const problem = new Element("span", { problem: "ph" });
  outputsOf([problem]).showRefusal("ph", { path: ["ph"], problem: "15 is too much", remedy: "use 0 to 14" });
  assert.equal(problem.textContent, "15 is too much: use 0 to 14");
});

test("texts that are not known are cleared by their names and by what they begin with, and no others", () => {
  const names = ["why", "why.fat", "why.fat.more", "whyever", "tempering", "rows.bakers"];
  const places = names.map((text) => Object.assign(new Element("span", { text }), { textContent: "32 %" }));
  outputsOf(places).clear(["why", "rows.bakers", "tempering", "batch"]);
  assert.deepEqual(
    places.map(({ textContent }) => textContent),
    ["", "", "", "32 %", "", ""],
  );
});

test("a column of prose has its marks as elements, and paths are links only on the page that they lead from", () => {
  const body = new Element("tbody", { prose: "1" });
  show(body, [["1.1", "Stir *slowly*, see [curd](../curd/)", "2 * 3"]]);
  const cell = /** @type {Element} */ (body.rows[0]?.cells[1]);
  assert.deepEqual(cell.children.map(({ tag }) => tag), ["#text", "em", "#text", "a"]);
  assert.equal(body.rows[0]?.cells[2]?.textContent, "2 * 3");
  const elsewhere = new Element("tbody", { prose: "1", proseOf: "another page" });
  show(elsewhere, [["1.1", "[curd](../curd/) [x](https://example.org/)"]]);
  assert.deepEqual(elsewhere.rows[0]?.cells[1]?.children.map(({ tag }) => tag), ["#text", "#text", "a"]);
});
