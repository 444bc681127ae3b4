// For a page of another site that shows cards of this one. A classic script, whose address never changes: the page needs
// no more than `script-src` and `frame-src` of the site in its policy, and no inline style. Each card brings it along.
//
// <iframe src="https://site/card/embed/">: it gets the height that its card asks for. All that is taken from a message is
// two numbers, and only from the frame itself and if it shows a page of a site whose script is here.
//
// <crumbcoat-card src="https://site/card/embed/" scheme="dark" font="page">…</crumbcoat-card>: the card in a shadow root. Its
// page works in a hidden frame and says what it shows as data (mirror.js): elements by name, with attributes and texts. They
// are made here one by one, out of those that a card may have: no HTML is read, and no style or script of the page is
// touched. What is in the element shows until then, and where scripts do not run.

/** @typedef {string | number | [number, string, boolean, Record<string, string>, Sent[]]} Sent */
/** @typedef {{ value: string, checked: boolean }} Given */

(() => {
  const NAME = "crumbcoat-card";
  // Asked so, since in the page an `<img name="currentScript">` would be `document.currentScript`.
  const { origin } = new URL(Reflect.get(Document.prototype, "currentScript", document).src);
  const page = /** @type {Record<symbol, Set<string>>} */ (/** @type {unknown} */ (globalThis));
  const sites = (page[Symbol.for("crumbcoat")] ??= new Set());
  sites.add(origin);
  if (customElements.get(NAME)) return;

  // --- frames

  const MOST_PX = 60_000;

  /** @param {unknown} number */
  const isNumber = (number) => typeof number === "number" && Math.abs(number) <= MOST_PX;

  addEventListener("message", ({ data, origin: from, source }) => {
    if (!sites.has(from) || data?.crumbcoat !== 1) return;
    const frames = [...document.querySelectorAll("iframe")];
    const frame = frames.find(({ contentWindow }) => contentWindow === source);
    if (!frame) return;
    if (isNumber(data.height) && data.height > 0) frame.style.setProperty("height", `${data.height}px`, "important");
    if (getComputedStyle(frame).borderStyle === "inset") frame.style.border = "0"; // Browsers' own, and nobody's wish.
    if (isNumber(data.goTo)) scrollBy(0, frame.getBoundingClientRect().top + data.goTo);
  });

  // --- the element

  /** Elements of a card, and of a drawing in it; in the place of any other one there is a plain one. */
  const HTML =
    /^(a|b|br|button|caption|code|datalist|dd|details|div|dl|dt|em|fieldset|fig(caption|ure)|h[1-6]|i|img|input|label|legend|li|ol|optgroup|option|output|p|picture|section|select|small|source|span|strong|su[bp]|summary|t(able|body|d|extarea|foot|h|head|ime|r)|ul)$/;
  const SVG = /^(circle|clipPath|defs|desc|ellipse|g|line|linearGradient|path|pattern|poly(gon|line)|rect|stop|svg|text|title|tspan)$/;
  const SAFE = /^(#|https?:\/\/)/;
  const EVENTS = ["input", "change", "click", "focusin", "focusout", "pointerdown"];

  const OWN = `
    crumbcoat-reset { all: initial; display: block; }
    crumbcoat-page, crumbcoat-body { display: block; }
    :is([data-do="timer"], [data-do="print"], [data-do="link"]) { display: none; }
    crumbcoat-page[data-font] .cc-card { --cc-face: var(--crumbcoat-font); --cc-sans: var(--crumbcoat-font); }
    crumbcoat-page[data-font] :is(h1, h2, h3) { font-family: var(--crumbcoat-font); }`;

  /** A style sheet of a document for a shadow root; what was the size of its root is not that of the page. @param {string} text */
  const adopted = (text) => {
    const sheet = new CSSStyleSheet();
    const own = text
      .replace(/@(media|container)[^{]*/g, (head) => head.replace(/([\d.]+)rem/g, (_, size) => `${size * 20}px`))
      .replace(/(?<![\w-])(-?[\d.]+)rem(?![\w-])/g, "calc($1*var(--crumbcoat-rem))")
      .replace(/(?<![\w.#-])(:root|html)(?![\w-])/g, "crumbcoat-page")
      .replace(/(?<![\w.#-])body(?![\w-])/g, "crumbcoat-body");
    sheet.replaceSync(own);
    return sheet;
  };

  /** @param {string} name @param {boolean} isDrawn */
  const newElement = (name, isDrawn) => {
    if (isDrawn) return document.createElementNS("http://www.w3.org/2000/svg", SVG.test(name) ? name : "g");
    return document.createElement(name === "body" ? "crumbcoat-body" : HTML.test(name) ? name : "div");
  };

  /** @param {Element} element @param {Record<string, string>} attributes */
  const dress = (element, attributes) => {
    for (const name of element.getAttributeNames()) if (!(name in attributes)) element.removeAttribute(name);
    for (const [name, value] of Object.entries(attributes)) {
      const isAddress = /^(href|src|srcset)$/i.test(name);
      if (/^on|action$|^srcdoc$|:/i.test(name) || (isAddress && !SAFE.test(value))) continue;
      if (name === "style") /** @type {HTMLElement} */ (element).style.cssText = value; // Not an inline style to a policy.
      else if (element.getAttribute(name) !== value) element.setAttribute(name, value);
    }
  };

  class Card extends HTMLElement {
    static observedAttributes = ["scheme", "font"];

    /** @type {Map<number, Element>} */
    #elements = new Map();
    /** @type {WeakMap<Element, number>} */
    #ids = new WeakMap();
    /** What the card has in a field that the reader is in. @type {WeakMap<Element, Given>} */
    #given = new WeakMap();
    /** @type {MessagePort | null} */
    #port = null;
    #root = this.attachShadow({ mode: "open" });
    #page = document.createElement("crumbcoat-page");
    #prefersDark = matchMedia("(prefers-color-scheme: dark)");
    #paint = () => this.attributeChangedCallback();

    constructor() {
      super();
      this.#root.append(document.createElement("slot"));
      for (const type of EVENTS) this.#root.addEventListener(type, (event) => this.#pass(event));
    }

    connectedCallback() {
      const address = new URL(this.getAttribute("src") ?? "", location.href);
      if (!sites.has(address.origin)) return;
      address.searchParams.set("mirror", "");
      const frame = document.createElement("iframe");
      frame.style.cssText = "position:absolute;width:1px;height:1px;border:0;opacity:0";
      frame.inert = true;
      frame.ariaHidden = "true";
      frame.loading = "lazy";
      frame.onload = () => this.#meet(frame, address.origin);
      frame.src = address.href;
      this.#root.replaceChildren(frame, document.createElement("slot")); // At the top, where a reader comes to it first.
      this.#prefersDark.addEventListener("change", this.#paint);
    }

    disconnectedCallback() {
      this.#prefersDark.removeEventListener("change", this.#paint);
      this.#port?.close();
    }

    attributeChangedCallback() {
      const body = this.#page.firstElementChild;
      if (!(body instanceof HTMLElement)) return;
      const { dataset } = body;
      const { style } = this.#page;
      const scheme = this.getAttribute("scheme");
      dataset.light ??= dataset.mdColorScheme;
      const isDark = scheme ? scheme === "dark" : this.#prefersDark.matches;
      dataset.mdColorScheme = (isDark && dataset.dark) || dataset.light;
      this.#page.toggleAttribute("data-font", this.getAttribute("font") === "page");
      style.setProperty("--crumbcoat-font", getComputedStyle(this.parentElement ?? this).fontFamily);
      style.setProperty("--crumbcoat-rem", getComputedStyle(this.#page).fontSize);
    }

    /** @param {HTMLIFrameElement} frame @param {string} site */
    #meet(frame, site) {
      const { port1, port2 } = new MessageChannel();
      this.#port?.close();
      this.#port = port1;
      this.#elements.clear();
      port1.onmessage = ({ data }) => this.#hear(data);
      frame.contentWindow?.postMessage({ crumbcoat: 1 }, site, [port2]);
    }

    /** @param {{ sheets?: string[], tree?: Sent, lang?: string, changes?: any[], fields?: any[] }} said */
    #hear({ sheets, tree, lang, changes = [], fields = [] }) {
      if (sheets) this.#root.adoptedStyleSheets = [...sheets, OWN].map(adopted);
      if (tree) this.#begin(tree, lang ?? "");
      for (const [id, attributes, children] of changes) {
        const element = this.#elements.get(id);
        if (element && attributes) dress(element, attributes);
        if (element && children) element.replaceChildren(...children.map(this.#made));
      }
      for (const [id, value, checked] of fields) {
        const field = this.#elements.get(id);
        if (!field) continue;
        this.#given.set(field, { value, checked });
        if (field !== this.#root.activeElement) Object.assign(field, { value, checked });
      }
    }

    /** @param {Sent} tree @param {string} lang */
    #begin(tree, lang) {
      const reset = document.createElement("crumbcoat-reset");
      Object.assign(this.#page, { lang, dir: "ltr" });
      Object.assign(this.#page.dataset, { calculator: "", reader: "" });
      this.#page.replaceChildren(this.#made(tree));
      reset.append(this.#page);
      this.#root.lastElementChild?.replaceWith(reset);
      this.#paint();
    }

    /** @param {Sent} node @returns {Element | string} */
    #made = (node) => {
      if (!Array.isArray(node)) return (typeof node === "number" && this.#elements.get(node)) || String(node);
      const [id, name, isDrawn, attributes, children] = node;
      const element = newElement(name, isDrawn);
      this.#elements.set(id, element);
      this.#ids.set(element, id);
      dress(element, attributes);
      element.append(...children.map(this.#made));
      return element;
    };

    /** @param {Event} event */
    #pass(event) {
      const { type, target } = event;
      if (!(target instanceof Element)) return;
      if (type === "click") this.#goTo(event, target.closest("a"));
      const control = /** @type {HTMLInputElement | null} */ (target.closest(type === "click" ? "button" : "input,select,textarea,button"));
      if (!control) return;
      this.#port?.postMessage({ type, id: this.#ids.get(control), value: control.value ?? "", checked: Boolean(control.checked) });
      const given = this.#given.get(control);
      if (type === "focusout" && given) Object.assign(control, given);
    }

    /** To a place in the card, which the address of the page does not lead to. @param {Event} event @param {HTMLAnchorElement | null} link */
    #goTo(event, link) {
      const place = link?.getAttribute("href")?.startsWith("#") && this.#root.getElementById(link.hash.slice(1));
      if (!place) return;
      event.preventDefault();
      for (let fold = place.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
      place.scrollIntoView();
    }
  }

  customElements.define(NAME, Card);
})();
