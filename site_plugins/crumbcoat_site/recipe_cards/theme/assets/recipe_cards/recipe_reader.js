// <recipe-reader data-recipe="folder/name"> is in the article of a recipe: what the reader can do with the card. Its
// code (reader.js) is loaded at the first touch, or at once if this device has saved something of this site or the
// address has a fragment: someone who only reads a card loads none of it. What is done meanwhile is passed on.
//
// <whole-card src="folder/name/embed/"> is on another page around a card in short, which a frame with the whole one replaces.
// <kept-form> is around a calculator that has a page of its own, whose form outlasts a reload (kept_form.js).
// <movable-point> is a picture with a point to move (movable_point.js).
// <class-links> has a link and a code for the phones of each group (class_links.js), <class-results> what they found
// (class_files.js); handouts outside the theme have handout.js.
//
// This is the entry point: nothing imports it, and it hands to others what they need to know.

/** @import { Reader } from "./reader.js" */

/** What this site saves on the device has names that begin so; the file is in assets/recipe_cards/<digest>/. */
const PREFIX = `crumbcoat:1:${new URL("../../../", import.meta.url).pathname}:`;

const HEARD = ["pointerdown", "focusin", "click", "change", "recipe-state", "recipe-refused", "recipe-unavailable"];

/** What shows amounts: it is hidden (`aria-busy`) until they are those of the link or of the reader's own changes. */
const AMOUNTS = ["text", "rows", "sections", "picture"].map((kind) => `[data-${kind}]`).concat(":is(input, select)[name]").join();

class RecipeReader extends HTMLElement {
  #connection = new AbortController();

  /** @type {Reader | null} */
  #reader = null;
  #isLoading = false;

  /** What happened before the reader's code was there, and whether a box was ticked then. @type {[Event, unknown][]} */
  #early = [];

  connectedCallback() {
    this.#connection = new AbortController();
    const { signal } = this.#connection;
    for (const type of HEARD) this.article.addEventListener(type, this, { signal });
    document.addEventListener("keydown", this, { signal });
    for (const type of ["hashchange", "pagehide", "pageshow", "storage"]) addEventListener(type, this, { signal });
    for (const place of this.article.querySelectorAll("[data-link]")) place.textContent = this.address;
    if (location.hash.includes("=") || hasChanged(this.dataset.recipe ?? "")) this.isVeiled = true;
    if (location.hash || hasSaved("")) this.#load();
  }

  disconnectedCallback() {
    this.#connection.abort();
    this.#reader?.leave();
    this.#reader = null;
    this.#early = [];
  }

  /** The address of the card, which may be shown on a page below it. */
  get address() {
    return new URL(this.dataset.card ?? "", location.origin + location.pathname).href;
  }

  get isVeiled() {
    return this.article.querySelector(`[aria-busy="true"]:is(${AMOUNTS})`) !== null;
  }

  set isVeiled(isVeiled) {
    veil(this.article, isVeiled);
  }

  get article() {
    return this.closest("article") ?? document.body;
  }

  /** @param {Event} event */
  handleEvent(event) {
    if (event instanceof KeyboardEvent && !event.ctrlKey && !event.metaKey) return;
    if (event instanceof StorageEvent && event.key !== `${PREFIX}recipe:${this.dataset.recipe}`) return;
    if (this.#reader) {
      this.#reader.handleEvent(event);
    } else if (!event.type.startsWith("page")) {
      this.#early.push([event, /** @type {HTMLInputElement} */ (event.target).checked]);
      this.#load();
    }
  }

  async #load() {
    if (this.#isLoading) return;
    this.#isLoading = true;
    const modules = await this.#modules();
    this.#isLoading = false;
    const early = this.#early;
    this.#early = [];
    if (!modules || !this.isConnected) return;
    const [{ Reader }, { deviceStore }] = modules;
    this.#reader = new Reader(this, deviceStore(PREFIX));
    for (const [event, checked] of early) {
      // The box as it was at that moment: the new reader has just cleared it.
      if (typeof checked === "boolean") /** @type {HTMLInputElement} */ (event.target).checked = checked;
      this.#reader.handleEvent(event);
    }
  }

  /** The code; null, with a message to the reader, if it cannot be loaded. */
  async #modules() {
    try {
      return await Promise.all([import("./reader.js"), import("./device.js")]);
    } catch (error) {
      if (!(error instanceof TypeError)) throw error;
      const sentence = "This part of the page could not be loaded. Try again when you are online.";
      for (const place of this.article.querySelectorAll("[data-message]")) place.textContent = sentence;
      this.isVeiled = false;
      return null;
    }
  }
}

/**
 * @param {HTMLElement} scope
 * @param {boolean} isVeiled whether its amounts are hidden
 */
function veil(scope, isVeiled) {
  for (const place of scope.querySelectorAll(AMOUNTS)) {
    if (isVeiled) place.setAttribute("aria-busy", "true");
    else place.removeAttribute("aria-busy");
  }
}

/**
 * Whether this device has saved anything of this site under a name that begins so. device.js says how it saves; it is
 * not asked, since it would have to be loaded first.
 *
 * @param {string} name
 */
function hasSaved(name) {
  try {
    return Object.entries(localStorage).some(([key, value]) => key.startsWith(PREFIX + name) && value !== "[]");
  } catch (error) {
    if (error instanceof DOMException) return false; // The browser saves nothing for this site.
    throw error;
  }
}

/**
 * Whether this device has saved changes of a recipe, other than ticks.
 *
 * @param {string} recipe
 */
function hasChanged(recipe) {
  try {
    return Object.keys(JSON.parse(localStorage[`${PREFIX}recipe:${recipe}`] ?? "{}").now?.state ?? {}).length > 0;
  } catch (error) {
    if (error instanceof DOMException || error instanceof SyntaxError) return false;
    throw error;
  }
}

async function showTimers() {
  const [{ openTimers }, { deviceStore }] = await Promise.all([import("./timers.js"), import("./device.js")]);
  await openTimers(deviceStore(PREFIX));
}

class KeptForm extends HTMLElement {
  #isKnown = false;

  connectedCallback() {
    const name = `form:${location.pathname}`;
    if (this.#isKnown) return;
    if (hasSaved(name)) {
      veil(this, true);
      this.#keep(name);
    } else {
      this.addEventListener("recipe-state", () => this.#keep(name), { once: true });
    }
  }

  /** @param {string} name */
  async #keep(name) {
    this.#isKnown = true;
    try {
      const [{ keepForm }, { deviceStore }] = await Promise.all([import("./kept_form.js"), import("./device.js")]);
      await customElements.whenDefined("recipe-calculator");
      keepForm(/** @type {any} */ (this.querySelector("recipe-calculator")), deviceStore(PREFIX), name, () => veil(this, false));
    } catch (error) {
      if (!(error instanceof TypeError)) throw error;
      veil(this, false);
    }
  }
}

/** The point of a picture that can be moved in it; without its code the point can still be moved by fields. */
class MovablePoint extends HTMLElement {
  #isKnown = false;

  async connectedCallback() {
    if (this.#isKnown) return;
    this.#isKnown = true;
    try {
      const { movePoint } = await import("./movable_point.js");
      if (this.isConnected) movePoint(this);
    } catch (error) {
      if (!(error instanceof TypeError)) throw error;
    }
  }
}

/** Without its code there is no link: the fold stays empty. */
class ClassLinks extends HTMLElement {
  async connectedCallback() {
    const { showLinks } = await import("./class_links.js");
    showLinks(this);
  }
}

/** Without its code, codes can still be pasted. */
class ClassResults extends HTMLElement {
  async connectedCallback() {
    const { takeResults } = await import("./class_files.js");
    takeResults(this);
  }
}

/** The frame says itself when it can be seen, and how high it is (embedded_card.js): until then the card in short shows. */
class WholeCard extends HTMLElement {
  connectedCallback() {
    if (this.querySelector("iframe")) return;
    const frame = document.createElement("iframe");
    Object.assign(frame, { title: this.dataset.title, loading: "lazy", src: this.getAttribute("src") });
    this.append(frame);
  }
}

customElements.define("recipe-reader", RecipeReader);
customElements.define("whole-card", WholeCard);
customElements.define("kept-form", KeptForm);
customElements.define("movable-point", MovablePoint);
customElements.define("class-links", ClassLinks);
customElements.define("class-results", ClassResults);
document.documentElement.dataset.reader = ""; // For style sheets: what needs this script is of use now.
if (hasSaved("timers")) showTimers();
addEventListener("storage", ({ key }) => key === `${PREFIX}timers` && showTimers()); // Such as one of a card in a frame here.
