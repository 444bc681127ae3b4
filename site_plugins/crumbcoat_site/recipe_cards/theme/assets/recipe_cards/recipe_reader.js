// <recipe-reader data-recipe="folder/name"> stands in the article of a recipe: the reader's side of the card. What is
// behind it (reader.js) is fetched at the first touch, or at once where this device kept something of this site or a
// link tells something: whoever only reads a card fetches none of it. What happens meanwhile is handed on.
const ROOT = new URL("../../../", import.meta.url).pathname;

/** Under what this site keeps things on the device; this file stands in assets/recipe_cards/<digest>/. */
export const PREFIX = `crumbcoat:1:${ROOT}:`;

const HEARD = ["pointerdown", "focusin", "click", "change", "recipe-state", "recipe-refused"];

class RecipeReader extends HTMLElement {
  #left = null;
  #reader = null;
  #coming = false;
  #early = []; // What was heard before the reader's side was there.

  connectedCallback() {
    this.#left = new AbortController();
    const { signal } = this.#left;
    for (const type of HEARD) this.article.addEventListener(type, this, { signal });
    document.addEventListener("keydown", this, { signal });
    addEventListener("hashchange", this, { signal });
    for (const place of this.article.querySelectorAll("[data-link]")) place.textContent = location.origin + location.pathname;
    if (location.hash || keeps("")) this.#fetch();
  }

  disconnectedCallback() {
    this.#left.abort();
    this.#reader?.leave();
    this.#reader = null;
    this.#early = [];
  }

  get article() {
    return this.closest("article") ?? document.body;
  }

  handleEvent(event) {
    if (event.type === "keydown" && !event.ctrlKey && !event.metaKey) return;
    if (this.#reader) {
      this.#reader.handleEvent(event);
    } else {
      this.#early.push([event, event.target.checked]);
      this.#fetch();
    }
  }

  async #fetch() {
    if (this.#coming) return;
    this.#coming = true;
    try {
      const { Reader } = await import("./reader.js");
      if (!this.isConnected) return;
      this.#reader = new Reader(this);
      for (const [event, checked] of this.#early) {
        if (checked !== undefined) event.target.checked = checked; // As it was then: the new reader knew of no tick.
        this.#reader.handleEvent(event);
      }
    } catch (error) {
      if (!(error instanceof TypeError)) throw error;
      const sentence = "What is behind the buttons could not be fetched. Try again when there is a network.";
      for (const place of this.article.querySelectorAll("[data-tell]")) place.textContent = sentence;
    } finally {
      this.#coming = false;
      this.#early = [];
    }
  }
}

/** Whether this device keeps anything of this site under a name that begins so. */
function keeps(name) {
  try {
    return Object.entries(localStorage).some(([key, value]) => key.startsWith(PREFIX + name) && value !== "[]");
  } catch {
    return false; // The browser keeps nothing for this site.
  }
}

customElements.define("recipe-reader", RecipeReader);
if (keeps("timers")) import("./timers.js");
