// What a reader changed: kept on this device, told in a link, undone and done again. Knows no page and no number.

import { PREFIX } from "./recipe_reader.js";

const MOST_RECIPES = 60;
const MOST_STEPS_BACK = 40;
const LONGEST_LINK = 4000;

/** The fields that a reader sets once for all recipes. */
const EVERYWHERE = ["units", "scale", "eggs", "cake:lengths"];

const memory = new Map(); // Stands in for the device's store where that is blocked or full.

/** What is kept under a name; null if nothing, or nothing that can be read. */
export function kept(name) {
  if (memory.has(name)) return structuredClone(memory.get(name));
  try {
    return JSON.parse(localStorage.getItem(PREFIX + name));
  } catch (error) {
    if (error instanceof SyntaxError || error instanceof DOMException) return null;
    throw error;
  }
}

/** Keeps something under a name; false if it will be gone with this page. */
export function keep(name, value) {
  memory.set(name, structuredClone(value));
  const written = JSON.stringify(value);
  for (;;) {
    try {
      localStorage.setItem(PREFIX + name, written);
      memory.delete(name);
      forgetOldest(name, MOST_RECIPES);
      return true;
    } catch (error) {
      if (!(error instanceof DOMException)) throw error;
      if (error.name !== "QuotaExceededError" || !forgetOldest(name, 1)) return false;
    }
  }
}

/** Forgets the recipe that was not used for longest, if there are more than so many; never the one in hand. */
function forgetOldest(inHand, most) {
  const start = `${PREFIX}recipe:`;
  const keys = Object.keys(localStorage).filter((key) => key.startsWith(start));
  if (keys.length <= most) return false;
  const used = (key) => kept(key.slice(PREFIX.length))?.used ?? 0;
  const [oldest] = keys.filter((key) => key !== PREFIX + inHand).sort((one, other) => used(one) - used(other));
  if (oldest) localStorage.removeItem(oldest);
  return Boolean(oldest);
}

/** Calls back when another tab keeps something under this name. */
export function whenKeptElsewhere(name, call) {
  addEventListener("storage", (event) => event.key === PREFIX + name && call());
}

/** A state as text for a link: `factor=2&amount.butter=300`; the order is that of Python's canonical form. */
export function linkText(state) {
  const written = (text) => encodeURIComponent(text).replaceAll("%20", "+").replaceAll("%3A", ":");
  return Object.entries(state)
    .map((pair) => pair.map(written).join("="))
    .join("&");
}

/** The state that a link's fragment tells; null if it tells none. Throws a RangeError if it cannot be read. */
export function stateIn(fragment) {
  const text = fragment.replace(/^#/, "");
  if (!text.includes("=")) return null;
  if (text.length > LONGEST_LINK) throw new RangeError("it is too long");
  const state = {};
  for (const part of text.split("&")) {
    const [name, value, more] = part.split("=").map(decoded);
    if (!name || value === undefined || more !== undefined) throw new RangeError("a part of it is missing");
    if (Object.hasOwn(state, name)) throw new RangeError(`${name} stands in it twice`);
    state[name] = value;
  }
  return state;
}

function decoded(text) {
  try {
    return decodeURIComponent(text.replaceAll("+", " "));
  } catch {
    throw new RangeError("a letter of it is damaged");
  }
}

/** Whether two states are the same, whatever the order of their fields. */
export function same(one, other) {
  const sorted = (state) => JSON.stringify(Object.entries(state).sort());
  return sorted(one) === sorted(other);
}

/** The fields of a state that hold for all recipes. */
export function everywhere(state) {
  return Object.fromEntries(Object.entries(state).filter(([name]) => EVERYWHERE.includes(name)));
}

/** The calculator that a field belongs to, and its name there; the first calculator, the batch, is not named. */
export function owner(name) {
  const at = name.indexOf(":");
  return at < 0 ? ["batch", name] : [name.slice(0, at), name.slice(at + 1)];
}

/** The fields of one calculator in the state of the whole page. */
export function part(state, calculator) {
  const named = Object.entries(state).map(([name, value]) => [...owner(name), value]);
  return Object.fromEntries(named.filter(([of]) => of === calculator).map(([, name, value]) => [name, value]));
}

/** The state of the whole page with that of one calculator in it. */
export function withPart(state, calculator, its) {
  const others = Object.entries(state).filter(([name]) => owner(name)[0] !== calculator);
  const prefix = calculator === "batch" ? "" : `${calculator}:`;
  const own = Object.entries(its).map(([name, value]) => [prefix + name, value]);
  return Object.fromEntries(prefix ? [...others, ...own] : [...own, ...others]);
}

/** What was done to one recipe, back and forth. An entry is { state, ticks }. */
export class Changes {
  constructor({ now, past = [], future = [] }) {
    Object.assign(this, { now, past, future });
  }

  /** Notes a change; one that continues the last, as letters typed into one field do, is not a step of its own. */
  add(entry, continues = false) {
    if (!continues || !this.past.length) this.past = [...this.past, this.now].slice(-MOST_STEPS_BACK);
    this.now = entry;
    this.future = [];
  }

  back() {
    if (!this.past.length) return null;
    this.future = [this.now, ...this.future];
    this.now = this.past.at(-1);
    this.past = this.past.slice(0, -1);
    return this.now;
  }

  forth() {
    if (!this.future.length) return null;
    this.past = [...this.past, this.now];
    [this.now, ...this.future] = this.future;
    return this.now;
  }
}
