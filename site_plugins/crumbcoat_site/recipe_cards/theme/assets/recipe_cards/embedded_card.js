// A card in a frame of another page (the page `embed/` below each card): which colours it has, how high it is, and where
// its links lead. It trusts nothing of a page of another site, and says nothing to it but numbers. In a <whole-card>, which
// only a page of its own site can have around it, it has the colours of that page and sets its own height.
//
//   ?scheme=dark, ?scheme=light   the colours; without it those that the browser prefers
//   ?slot=2                       changes are kept apart from those of the same card in another frame of the page
//   ?mirror                       <crumbcoat-card> shows a copy of the page (mirror.js); nothing is kept
//
// All other scripts of the site are in `data-scripts`, and are loaded when somebody is about to touch the card, or at once
// if the address has a state or this device has kept something. This is an entry point: nothing imports it.

const asked = new URLSearchParams(location.search);
const frame = /** @type {HTMLIFrameElement | null} */ (globalThis.frameElement);
const wholeCard = /** @type {HTMLElement | null | undefined} */ (frame?.closest("whole-card"));
const prefersDark = matchMedia("(prefers-color-scheme: dark)");

const { dataset } = document.body;

/** The scheme that the page was made with, and that for dark pages; "" if the site has none. */
const light = dataset.mdColorScheme ?? "";
const dark = dataset.dark ?? "";

function paint() {
  const scheme = wholeCard ? getComputedStyle(wholeCard).colorScheme : asked.get("scheme");
  const isChosen = wholeCard || scheme === "dark" || scheme === "light";
  const isDark = isChosen ? scheme === "dark" : prefersDark.matches;
  dataset.mdColorScheme = (isDark && dark) || light;
  delete dataset.unscripted;
}

// --- several frames of one page

/** How many frames with this card the page has up to this one, or the next number that none of them has taken. */
function freeSlot() {
  const taken = new Set();
  let slot = 1;
  let isBefore = true;
  for (let at = 0; at < parent.length; at += 1) {
    const other = /** @type {Window} */ (parent[at]);
    if (other === self) isBefore = false;
    else if (isSameCard(other)) {
      taken.add(other.document.body?.dataset.slot);
      if (isBefore) slot += 1;
    }
  }
  while (taken.has(String(slot))) slot += 1;
  return String(slot);
}

/** Frames of other sites cannot be asked. @param {Window} other */
function isSameCard(other) {
  try {
    return other.location.pathname === location.pathname;
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return false;
  }
}

/** What is kept of this card on the device has a name of its own in the second frame, and so on. */
function takeSlot() {
  const slot = asked.get("slot") ?? "";
  dataset.slot = /^\d{1,3}$/.test(slot) ? slot : freeSlot();
  const reader = /** @type {HTMLElement | null} */ (document.querySelector("recipe-reader"));
  if (reader && dataset.slot !== "1") reader.dataset.recipe += `@${dataset.slot}`;
}

// --- the page around the frame

/** @param {{ height: number } | { goTo: number }} message nothing about the reader: any page may hear it */
function say(message) {
  if (parent !== self) parent.postMessage({ crumbcoat: 1, ...message }, "*");
}

function sayHeight() {
  const height = Math.ceil(document.body.getBoundingClientRect().height);
  if (frame && wholeCard) {
    frame.style.height = `${height}px`;
    wholeCard.dataset.live = "";
  } else {
    say({ height });
  }
}

/** Where an element is from the upper edge of the card, even if the frame has scrolled. @param {Element} place */
function sayPlace(place) {
  const edge = document.documentElement.getBoundingClientRect().top;
  if (wholeCard) place.scrollIntoView();
  else say({ goTo: Math.floor(place.getBoundingClientRect().top - edge) });
}

/**
 * Links lead out of the frame, but to what is in this card: the page around it scrolls there, since the frame does not. What
 * the device keeps is there on a page of the same site, and need not be in the address of the card.
 *
 * @param {Event} event
 */
function onLink({ target }) {
  const link = target instanceof Element ? target.closest("a") : null;
  if (!link?.href) return;
  const { hash, pathname, origin } = new URL(link.href);
  const place = hash && document.getElementById(hash.slice(1));
  const isHere = origin === location.origin && pathname === location.pathname;
  if (isHere && place) requestAnimationFrame(() => setTimeout(sayPlace, 0, place)); // After the height, if that grows.
  else if (!isHere) Object.assign(link, wholeCard ? { target: "_top" } : { target: "_blank", rel: "noopener" });
  if (wholeCard && link.dataset.cardLink !== undefined && hasKept()) link.hash = link.dataset.cardLink;
}

// --- scripts when they are needed

const SIGNS = ["pointermove", "pointerdown", "focusin", "keydown", "click", "input", "change"];

/** What was pressed before the scripts were there. @type {HTMLButtonElement[]} */
let early = [];
/** @type {Promise<void> | null} */
let loading = null;

/** @param {Event} event */
function onSign({ type, target }) {
  const button = target instanceof Element ? target.closest("button") : null;
  if (type === "click" && button) early.push(button);
  loading ??= load();
}

async function load() {
  try {
    const scripts = (dataset.scripts ?? "").split(" ");
    await Promise.all(scripts.map((script) => import(new URL(script, location.href).href)));
    for (const type of SIGNS) document.removeEventListener(type, onSign, true);
    for (const field of document.querySelectorAll("input, select")) {
      if (isChanged(field)) field.dispatchEvent(new Event("input", { bubbles: true }));
    }
    for (const button of early) button.click();
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    const sentence = "This part of the page could not be loaded. Try again when you are online.";
    for (const place of document.querySelectorAll("[data-message]")) place.textContent = sentence;
    loading = null;
  }
  early = [];
}

/** Whether a field differs from what the page was made with. @param {Element} field */
function isChanged(field) {
  if (field instanceof HTMLSelectElement) {
    const published = [...field.options].findIndex(({ defaultSelected }) => defaultSelected);
    return field.selectedIndex !== Math.max(published, 0);
  }
  if (!(field instanceof HTMLInputElement) || field.readOnly) return false;
  return field.value !== field.defaultValue || field.checked !== field.defaultChecked;
}

/** Whether this device has kept something of the site. */
function hasKept() {
  try {
    return Object.keys(localStorage).some((name) => name.startsWith("crumbcoat:1:"));
  } catch (error) {
    if (error instanceof DOMException) return false; // The browser keeps nothing for this site.
    throw error;
  }
}

// --- a copy of the page in another one

/** From here on what is kept lasts as long as the page, and nothing is found: the page around it sees all that is in it. */
function keepNothing() {
  /** @type {Map<string, string>} */
  const kept = new Map();
  const value = {
    getItem: (/** @type {string} */ name) => kept.get(name) ?? null,
    setItem: (/** @type {string} */ name, /** @type {string} */ text) => void kept.set(name, text),
    removeItem: (/** @type {string} */ name) => void kept.delete(name),
  };
  Object.defineProperty(globalThis, "localStorage", { value });
}

/** @param {MessageEvent} event */
async function onMessage({ data, source, ports: [port] }) {
  if (source !== parent || data?.crumbcoat !== 1 || !port) return;
  removeEventListener("message", onMessage);
  const { mirror } = await import("./mirror.js");
  mirror(port);
}

if (asked.has("mirror")) {
  keepNothing();
  addEventListener("message", onMessage);
}
paint();
prefersDark.addEventListener("change", paint);
if (wholeCard) {
  document.documentElement.dataset.wholeCard = "";
  new MutationObserver(paint).observe(wholeCard.ownerDocument.body, { attributeFilter: ["data-md-color-scheme"] });
}
takeSlot();
document.addEventListener("click", onLink, true);
new ResizeObserver(sayHeight).observe(document.body);
Object.assign(document.documentElement.dataset, { calculator: "", reader: "" }); // What needs scripts shows: they come.
for (const type of SIGNS) document.addEventListener(type, onSign, true);
if (location.hash || hasKept()) loading = load();
