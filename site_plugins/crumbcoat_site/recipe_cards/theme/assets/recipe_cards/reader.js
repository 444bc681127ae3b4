// The reader's side of a card, for its <recipe-reader> (recipe_reader.js): it keeps what the reader changed there. Buttons anywhere in the article say with `data-do` what they are for:
//
//   undo  redo  published     one change back, one forth, all back      bench   work through it (bench.js)
//   link  print               a link to what is shown; paper            timer   start a timer (timers.js)
//
// A checkbox with `data-tick="name"` is a tick. `[data-tell]` is where sentences go, `[data-link]` the link on paper.
import { Changes, everywhere, keep, kept, linkText, owner, part, same, stateIn, withPart } from "./state.js";

const TYPED = "input:not([type=checkbox], [type=radio], [readonly])";

export class Reader {
  element;
  #changes = null;
  #settle = null; // What to do when the states that were set are computed, or one was refused; `waiting` for whom.
  #field = null; // The field that the last edit came from, while it has the focus.
  #bench = null;
  #place = 0;

  constructor(element) {
    this.element = element;
    const record = kept(this.#name()) ?? {};
    const now = record.now ?? { state: {}, ticks: [] };
    this.#changes = new Changes({ ...record, now });
    this.#place = record.place ?? 0;
    this.#arrive(true);
  }

  leave() {
    this.#bench?.close();
  }

  handleEvent(event) {
    const { type, target } = event;
    if (type === "change" || type === "focusin") this.#field = null;
    if (type === "click") this.#press(target.closest?.("[data-do]"));
    if (type === "change" && target.dataset.tick) this.tick(target.dataset.tick, target.checked);
    if (type === "recipe-state") this.#heard(event);
    if (type === "recipe-refused") this.#refused(event);
    if (type === "keydown") this.#key(event);
    if (type === "hashchange") this.#arrive();
  }

  get article() {
    return this.element.article;
  }

  get isConnected() {
    return this.element.isConnected;
  }

  get ticks() {
    return this.#changes.now.ticks;
  }

  get place() {
    return this.#place;
  }

  /** Where the reader stands in the method. */
  set place(place) {
    this.#place = place;
    this.#save();
  }

  tick(name, on) {
    const ticks = this.ticks.filter((one) => one !== name);
    this.#note({ ticks: on ? [...ticks, name] : ticks });
  }

  /** All ticks off and back to the beginning; the amounts stay. */
  startAgain() {
    this.#place = 0;
    this.#note({ ticks: [] });
    this.tell("All ticks are taken off. Undo brings them back.");
  }

  tell(sentence) {
    for (const place of this.article.querySelectorAll("[data-tell]")) place.textContent = sentence;
  }

  #name() {
    return `recipe:${this.element.dataset.recipe}`;
  }

  /** The calculators of the card that have a state of their own, by name. */
  get #calculators() {
    const all = [...this.article.querySelectorAll("recipe-calculator:not([data-follows])")];
    return new Map(all.map((one) => [one.getAttribute("name"), one]));
  }

  /** Shows what the link tells, or else what is kept. */
  #arrive(first = false) {
    if (location.hash === "#bench") this.#openBench();
    if (first) this.#show();
    try {
      const told = stateIn(location.hash);
      const refused = ({ problem }) => this.#cannotUse(problem);
      if (told) return this.#set(told, { done: () => this.#forgetLink(), refused });
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      return this.#cannotUse(error.message);
    }
    const state = { ...(kept("everywhere") ?? {}), ...this.#changes.now.state };
    if (!first || !Object.keys(state).length) return undefined;
    return this.#set(state, {
      quiet: true,
      refused: ({ problem }) => {
        this.#note({ state: {} });
        this.tell(`What you changed here earlier no longer fits this recipe: ${problem}. It stands as published.`);
      },
    });
  }

  #cannotUse(problem) {
    const state = kept("everywhere") ?? {};
    if (!same(state, this.#changes.now.state)) this.#note({ state });
    const earlier = this.#changes.past.length ? " What you had here is not lost: Undo brings it back." : "";
    const done = () => this.tell(`The link could not be used: ${problem}. The recipe stands as published.${earlier}`);
    this.#set(state, { done });
  }

  /** A link that is shown and kept need not stay in the address, where it would undo later changes at a reload. */
  #forgetLink() {
    if (this.#save()) history.replaceState(history.state, "", location.pathname + location.search);
  }

  /**
   * Computes a state anew, by those calculators that stand otherwise. `final`: what will come is this very state, so
   * that others on the way are passed over; `quiet`: it is no change of its own.
   */
  async #set(state, { final = false, quiet = false, done = null, refused = null } = {}) {
    const calculators = this.#calculators;
    const stranger = Object.keys(state).find((name) => !calculators.has(owner(name)[0]));
    if (stranger) return refused?.({ problem: `there is nothing here that ${stranger} could change` });
    await customElements.whenDefined("recipe-calculator");
    const waiting = new Map();
    for (const [name, calculator] of calculators) {
      const its = part(state, name);
      if (!same(its, calculator.state ?? {}) || this.#settle?.waiting.has(name)) waiting.set(name, its);
    }
    this.#settle = { waiting, final, quiet, done, refused, noted: false };
    for (const [name, its] of waiting) calculators.get(name).state = its;
    if (!waiting.size) this.#finish();
    return undefined;
  }

  #finish() {
    const { done } = this.#settle;
    this.#settle = null;
    this.#show();
    done?.();
  }

  #heard({ target, detail: { state: its, cause } }) {
    const name = target.getAttribute("name");
    const settle = this.#settle;
    const waited = settle?.waiting.get(name);
    if (waited && (cause === "edit" || (settle.final && !same(its, waited)))) return; // On its way when another was set.
    const { activeElement } = document;
    const field = cause === "edit" && activeElement?.matches(TYPED) ? activeElement.name : null;
    const state = withPart(this.#changes.now.state, name, its);
    if (waited && settle.quiet) {
      this.#changes.now = { ...this.#changes.now, state };
    } else if (!same(state, this.#changes.now.state)) {
      this.#note({ state }, waited ? settle.noted : field !== null && field === this.#field);
      if (waited) settle.noted = true;
    }
    this.#field = field;
    if (cause === "edit") keep("everywhere", everywhere(state));
    if (waited) settle.waiting.delete(name);
    if (waited && !settle.waiting.size) this.#finish();
    else this.#show();
  }

  #refused(event) {
    if (event.detail.cause !== "set" || !this.#settle) return;
    event.preventDefault();
    const { refused } = this.#settle;
    this.#settle = null;
    refused?.(event.detail);
  }

  #note(change, continues = false) {
    this.#changes.add({ ...this.#changes.now, ...change }, continues);
    this.tell("");
    this.#save();
    this.#show();
  }

  #save() {
    const { now, past, future } = this.#changes;
    const saved = keep(this.#name(), { now, past, future, place: this.#place, used: Date.now() });
    if (!saved) this.tell("This browser keeps nothing for this site. The link keeps your changes.");
    return saved;
  }

  #move(entry, before) {
    if (!entry) return;
    this.tell("");
    this.#save();
    this.#show();
    if (same(entry.state, before.state)) return;
    keep("everywhere", everywhere(entry.state));
    this.#set(entry.state, { final: true });
  }

  #press(button) {
    if (!button || button.getAttribute("aria-disabled") === "true") return;
    const { now } = this.#changes;
    const acts = {
      undo: () => this.#move(this.#changes.back(), now),
      redo: () => this.#move(this.#changes.forth(), now),
      published: () => this.#set(everywhere(now.state)),
      link: () => this.#share(),
      print: () => print(),
      bench: () => this.#openBench(),
      timer: () => this.#startTimer(button),
    };
    acts[button.dataset.do]?.();
  }

  #key(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    if (event.target.closest?.(`${TYPED}, textarea, [contenteditable]`)) return;
    const key = event.key.toLowerCase();
    if (key !== "z" && key !== "y") return;
    event.preventDefault();
    const { now } = this.#changes;
    const entry = key === "y" || event.shiftKey ? this.#changes.forth() : this.#changes.back();
    this.#move(entry, now);
  }

  get #address() {
    const text = linkText(this.#changes.now.state);
    return location.origin + location.pathname + (text && `#${text}`);
  }

  async #share() {
    const field = this.element.querySelector("[data-share]");
    field.value = this.#address;
    field.parentElement.hidden = false;
    try {
      await navigator.clipboard.writeText(field.value);
      this.tell("The link is copied. It brings back the amounts that you see.");
    } catch {
      field.select();
      this.tell("Copy this link. It brings back the amounts that you see.");
    }
  }

  async #openBench() {
    const { open } = await import("./bench.js");
    if (!this.isConnected || this.#bench?.open) return;
    this.#bench = open(this);
  }

  async #startTimer({ dataset }) {
    const { start } = await import("./timers.js");
    const step = this.article.querySelector(`#step-${dataset.step}`);
    start({
      label: dataset.label,
      href: `${location.pathname}#${step.id}`,
      shortest: Number(dataset.shortest),
      longest: Number(dataset.longest),
    });
  }

  /** Puts ticks, buttons and the link on paper in step. */
  #show() {
    const { now, past, future } = this.#changes;
    for (const box of this.article.querySelectorAll("[data-tick]")) box.checked = now.ticks.includes(box.dataset.tick);
    const idle = {
      undo: !past.length,
      redo: !future.length,
      published: same(now.state, everywhere(now.state)),
    };
    for (const [act, off] of Object.entries(idle)) {
      for (const button of this.article.querySelectorAll(`[data-do="${act}"]`)) button.setAttribute("aria-disabled", off);
    }
    for (const place of this.article.querySelectorAll("[data-link]")) place.textContent = this.#address;
    const share = this.element.querySelector("[data-share]");
    if (share.value !== this.#address) share.parentElement.hidden = true;
    this.#bench?.refresh();
  }
}
