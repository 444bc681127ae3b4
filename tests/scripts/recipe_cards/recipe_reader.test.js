// The element of a card comes and goes with the article: it listens only while it is in the page.
import assert from "node:assert/strict";
import { test } from "node:test";

const article = Object.assign(new EventTarget(), { querySelectorAll: () => [] });
const root = { dataset: /** @type {Record<string, string>} */ ({}) };
const page = Object.assign(new EventTarget(), { documentElement: root });
const window = new EventTarget();

/** What recipe_reader.js asks of an element. */
class HTMLElement extends EventTarget {
  dataset = { recipe: "cream" };

  closest() {
    return article;
  }
}

/** @typedef {HTMLElement & { connectedCallback(): void, disconnectedCallback(): void, handleEvent(event: Event): void }} RecipeReader */

/** @type {(new () => RecipeReader)[]} */
const defined = [];

Object.assign(globalThis, {
  HTMLElement,
  addEventListener: window.addEventListener.bind(window),
  customElements: { define: (/** @type {string} */ _, /** @type {new () => RecipeReader} */ element) => defined.push(element) },
  document: page,
  localStorage: {},
  location: { hash: "", origin: "https://lantern.example", pathname: "/cream/" },
});
await import("../../../site_plugins/crumbcoat_site/recipe_cards/theme/assets/recipe_cards/recipe_reader.js");

test("style sheets can see that the script is there", () => {
  assert.equal(root.dataset.reader, "");
});

test("an element hears the page from when it comes until it leaves, however often", () => {
  const [RecipeReader] = defined;
  assert.ok(RecipeReader);
  const element = new RecipeReader();
  /** @type {string[]} */
  const heard = [];
  element.handleEvent = ({ type }) => void heard.push(type);
  const happened = () => {
    article.dispatchEvent(new Event("click"));
    page.dispatchEvent(new Event("keydown"));
    window.dispatchEvent(new Event("hashchange"));
    return heard.splice(0);
  };
  assert.deepEqual(happened(), []);
  for (const visit of ["the first time", "again"]) {
    element.connectedCallback();
    assert.deepEqual(happened(), ["click", "keydown", "hashchange"], visit);
    element.disconnectedCallback();
    assert.deepEqual(happened(), [], visit);
  }
});
