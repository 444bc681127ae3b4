// The frame's side of <crumbcoat-card> (embed/host.js): the page in the frame works as always, and the element shows a copy of
// it in a page of another site. What is sent there are elements as data, never HTML; what comes back are events on fields and
// buttons of this page, and nothing else is accepted. Nothing of the reader's is in it: in this use the page keeps
// nothing on the device, and finds nothing there.
//
// A node is a text, or [id, name, whether it is SVG, attributes, children]; an element that was sent before is its id alone.

/** @typedef {string | number | [number, string, boolean, Record<string, string>, Sent[]]} Sent */
/** @typedef {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} Field */

const EVENTS = new Set(["input", "change", "click", "focusin", "focusout", "pointerdown"]);
const FIELDS = "input, select, textarea";
const UNSENT = new Set(["context", "data-digest", "data-scripts"]);
const LONGEST = 2000;

/** @param {MessagePort} port of the element in the page around the frame */
export function mirror(port) {
  new Mirror(port).begin();
}

class Mirror {
  #port;
  /** @type {Map<number, Element>} */
  #elements = new Map();
  /** @type {WeakMap<Node, number>} */
  #ids = new WeakMap();
  /** What the element knows to be in each field. @type {WeakMap<Element, string>} */
  #known = new WeakMap();

  /** @param {MessagePort} port */
  constructor(port) {
    this.#port = port;
  }

  async begin() {
    this.#port.postMessage({ sheets: await sheets() });
    const { body, documentElement } = document;
    this.#port.postMessage({ tree: this.#sent(body), lang: documentElement.lang });
    const watch = new MutationObserver((records) => this.#sayChanges(records));
    watch.observe(body, { subtree: true, childList: true, attributes: true, characterData: true });
    this.#port.addEventListener("message", ({ data }) => this.#hear(data));
    this.#port.start();
  }

  /**
   * @param {Node} node
   * @returns {Sent}
   */
  #sent(node) {
    if (!(node instanceof Element)) return node.textContent ?? "";
    const before = this.#ids.get(node);
    if (before) return before;
    const id = this.#elements.size + 1;
    this.#elements.set(id, node);
    this.#ids.set(node, id);
    if (isField(node)) this.#known.set(node, contentOf(node));
    return [id, node.localName, node instanceof SVGElement, attributesOf(node), this.#childrenOf(node)];
  }

  /** @param {Element} element */
  #childrenOf(element) {
    const shown = [...element.childNodes].filter((node) => node instanceof Element || node instanceof Text);
    return shown.map((node) => this.#sent(node));
  }

  /** @param {MutationRecord[]} records */
  #sayChanges(records) {
    /** @type {Map<Element, { attributes?: boolean, children?: boolean }>} */
    const changed = new Map();
    for (const { type, target } of records) {
      const element = target instanceof Element ? target : target.parentElement;
      if (!element?.isConnected || !this.#ids.has(element)) continue;
      changed.set(element, { ...changed.get(element), [type === "attributes" ? "attributes" : "children"]: true });
    }
    const changes = [...changed].map(([element, { attributes, children }]) => [
      this.#ids.get(element),
      attributes ? attributesOf(element) : null,
      children ? this.#childrenOf(element) : null,
    ]);
    if (changes.length) this.#port.postMessage({ changes });
    this.#sayFields();
  }

  /** What is in fields, where that is not what the element knows. */
  #sayFields() {
    const all = /** @type {NodeListOf<Field>} */ (document.querySelectorAll(FIELDS));
    const fields = [...all].filter((field) => this.#ids.has(field) && contentOf(field) !== this.#known.get(field));
    for (const field of fields) this.#known.set(field, contentOf(field));
    if (fields.length) this.#port.postMessage({ fields: fields.map((field) => [this.#ids.get(field), field.value, isTicked(field)]) });
  }

  /** @param {any} said by a page that is not trusted */
  #hear(said) {
    const { type, id, value, checked } = said ?? {};
    const element = this.#elements.get(id);
    if (!element?.isConnected || !EVENTS.has(type)) return;
    if (isField(element)) {
      if (typeof value !== "string" || value.length > LONGEST || typeof checked !== "boolean") return;
      if (!isBox(element)) element.value = value;
      else element.checked = checked;
      this.#known.set(element, contentOf(element));
    } else if (!(element instanceof HTMLButtonElement)) {
      return;
    }
    if (type === "click") /** @type {HTMLElement} */ (element).click();
    else element.dispatchEvent(new Event(type, { bubbles: true }));
    this.#sayFields();
  }
}

/**
 * The style sheets of the site as they are written: what browsers make of their rules (`cssText`) lacks declarations where a
 * shorthand holds a variable. All of the site: what is of another one cannot be read.
 */
function sheets() {
  const own = [...document.styleSheets].map(({ href }) => href ?? "").filter((href) => href.startsWith(location.origin));
  // The page has them already: they come out of the browser's cache, without a question to the host.
  return Promise.all(own.map(async (href) => (await fetch(href, { cache: "force-cache" })).text()));
}

/**
 * @param {Element} element
 * @returns {element is Field}
 */
function isField(element) {
  return element.matches(FIELDS);
}

/**
 * @param {Field} field
 * @returns {field is HTMLInputElement}
 */
function isBox(field) {
  return field.type === "checkbox" || field.type === "radio";
}

/** @param {Field} field */
function isTicked(field) {
  return isBox(field) && field.checked;
}

/** @param {Field} field */
function contentOf(field) {
  return `${isTicked(field)} ${field.value}`;
}

/** @param {Element} element */
function attributesOf(element) {
  const shown = [...element.attributes].filter(({ name }) => !UNSENT.has(name));
  return Object.fromEntries(shown.map(({ name, value }) => [name, absolute(name, value)]));
}

/**
 * An address as another page needs it; a place in this page, and any other value, as it is.
 *
 * @param {string} name
 * @param {string} value
 */
function absolute(name, value) {
  const resolved = (/** @type {string} */ address) => new URL(address, document.baseURI).href;
  if (name === "href" || name === "src") return value.startsWith("#") ? value : resolved(value);
  if (name !== "srcset") return value;
  return value
    .split(",")
    .map((part) => part.trim().replace(/^\S+/, resolved))
    .join(", ");
}
