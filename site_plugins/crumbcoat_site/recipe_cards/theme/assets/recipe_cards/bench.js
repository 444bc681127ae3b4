// Bench view: one step at a time, large, over the whole screen. It shows copies of what is on the page, so that amounts
// are those of the page, and is built again whenever they change. The reader (reader.js) keeps the place and the ticks.

/** @import { Answer } from "./bench_checkpoint.js" */
/** @import { ClassGroup } from "./class_group.js" */
/** @import { DeviceStore } from "./device.js" */
/** @import { Timers } from "./timers.js" */

import { enterBench, leaveBench } from "./bench_address.js";
import { checkpointQuestion } from "./bench_checkpoint.js";
import { endScreen, ingredientsScreen, isLeftOut, stepScreen, tickOf } from "./bench_screens.js";
import { find, findAll, make } from "./elements.js";
import { onSwipe } from "./swipe.js";
import { keepAwake } from "./wake_lock.js";

/**
 * What bench view needs of the reader's side of the card (reader.js).
 *
 * @typedef {object} Card
 * @property {HTMLElement} element
 * @property {HTMLElement} article
 * @property {boolean} isConnected
 * @property {readonly string[]} ticks
 * @property {number} place
 * @property {(name: string, on: boolean) => void} tick
 * @property {(timed: DOMStringMap) => void} startTimer
 * @property {() => void} startAgain
 * @property {ClassGroup} group
 */

const DIALOG = `
<header class="cc-bench-head">
  <p class="cc-bench-where" role="status"></p>
  <button type="button" class="cc-button cc-bench-close">Leave bench view</button>
  <div class="cc-bench-bar" aria-hidden="true"></div>
</header>
<section class="cc-bench-body" aria-labelledby="bench-title" tabindex="-1"></section>
<footer class="cc-bench-foot">
  <div class="cc-bench-awake"></div>
  <nav aria-label="Steps">
    <button type="button" class="cc-button cc-bench-back"><span aria-hidden="true">‹</span><b>Back</b></button>
    <button type="button" class="cc-button cc-bench-done"></button>
    <button type="button" class="cc-button cc-bench-on"><b>Skip</b><span aria-hidden="true">›</span></button>
  </nav>
</footer>`;

export class Bench {
  #card;
  #timers;
  #awake;
  #dialog = make("dialog", { class: "cc-bench", "aria-label": "Bench view" });
  #steps;

  /** To the checkpoint that is shown. @type {Answer} */
  #answer = null;

  /** What has the focus once it is closed; null for the button that opened it. @type {HTMLElement | null} */
  #focusAfter = null;

  /**
   * Opens it where the reader was last.
   *
   * @param {Card} card
   * @param {Timers} timers
   * @param {DeviceStore} device
   */
  constructor(card, timers, device) {
    this.#card = card;
    this.#timers = timers;
    this.#steps = findAll(card.article, ".cc-task");
    const dialog = this.#dialog;
    dialog.innerHTML = DIALOG;
    card.element.append(dialog);
    dialog.addEventListener("close", () => this.#onClose());
    dialog.addEventListener("keydown", (event) => this.#onKey(event));
    this.#part("close").addEventListener("click", () => dialog.close());
    this.#part("back").addEventListener("click", () => this.#turn(-1));
    this.#part("on").addEventListener("click", () => this.#turn(1));
    this.#part("done").addEventListener("click", () => this.#done());
    onSwipe(this.#part("body"), (step) => this.#turn(step));
    this.#awake = keepAwake(this.#part("awake"), device);
    timers.onChange = () => this.#showDone();
    dialog.showModal();
    Object.assign(document.documentElement.style, { overflow: "hidden", overscrollBehaviorX: "none" });
    timers.showIn(dialog);
    enterBench();
    this.refresh();
    this.#part("body").focus();
  }

  get isOpen() {
    return this.#dialog.open;
  }

  close() {
    if (this.isOpen) this.#dialog.close();
  }

  async #onClose() {
    Object.assign(document.documentElement.style, { overflow: "", overscrollBehaviorX: "" });
    this.#timers.onChange = null;
    this.#timers.showIn(document.body);
    this.#awake.end();
    this.#dialog.remove();
    await leaveBench();
    if (this.#card.isConnected) (this.#focusAfter ?? find(this.#card.article, '[data-do="bench"]')).focus();
  }

  /** @param {string} name */
  #part(name) {
    return find(this.#dialog, `.cc-bench-${name}`);
  }

  /** The number of the screen: 0 is the ingredients, then come the steps, then the end. */
  get #place() {
    return Math.min(this.#card.place, this.#steps.length + 1);
  }

  /** The step that is shown, if one is. */
  get #step() {
    return this.#steps[this.#place - 1];
  }

  /** @param {1 | -1} step */
  #turn(step) {
    let place = this.#place + step;
    for (let next; (next = this.#steps[place - 1]) && isLeftOut(next); ) place += step;
    place = Math.max(0, Math.min(place, this.#steps.length + 1));
    if (place === this.#place) return;
    this.#answer = null;
    this.#card.place = place;
    this.refresh();
    for (const scrolled of [this.#part("body"), this.#dialog]) scrolled.scrollTop = 0;
  }

  #done() {
    const step = this.#step;
    if (this.#place > this.#steps.length) return this.#dialog.close();
    if (step && !this.#isTicked(step)) {
      const timed = this.#timedNext(step);
      this.#card.tick(tickOf(step), true);
      if (timed) this.#card.startTimer(timed);
    }
    return this.#turn(1);
  }

  /** @param {KeyboardEvent} event */
  #onKey(event) {
    const isTyped = event.target instanceof Element && event.target.matches("input:not([type=checkbox]), select");
    if (isTyped || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key !== "ArrowRight" && event.key !== "ArrowLeft") return;
    event.preventDefault();
    this.#turn(event.key === "ArrowRight" ? 1 : -1);
  }

  /** @param {HTMLElement} step */
  #isTicked(step) {
    return this.#card.ticks.includes(tickOf(step));
  }

  /** Shows everything as it is now on the page. */
  refresh() {
    if (!this.isOpen) return;
    const place = this.#place;
    const step = this.#step;
    const body = this.#part("body");
    const focus = document.activeElement instanceof HTMLElement ? document.activeElement.dataset.focus : undefined;
    const kind = step ? "step" : place ? "end" : "first";
    body.className = `cc-bench-body cc-bench-${kind}`;
    body.replaceChildren(make("div", {}, ...this.#screen(step)));
    if (focus) findAll(body, `[data-focus="${focus}"]`)[0]?.focus();
    this.#part("back").setAttribute("aria-disabled", String(place === 0));
    this.#part("on").setAttribute("aria-disabled", String(place > this.#steps.length));
    this.#showDone();
    this.#showPlace(step);
  }

  /** What the large button does: what goes on by itself is timed from when its step is done. */
  #showDone() {
    const step = this.#step;
    const timed = step && this.#timedNext(step);
    const done = timed ? `Done, start ${timed.lasts}` : step && !this.#isTicked(step) ? "Done, next" : "Next";
    this.#part("done").textContent = step ? done : this.#place ? "Finish" : "Begin";
  }

  /**
   * The timer that starts when a step is marked as done, if one does: its step has none yet.
   *
   * @param {HTMLElement} step
   */
  #timedNext(step) {
    const [goesOn] = findAll(step, "[data-do=timer][data-unattended]");
    const timed = this.#isTicked(step) ? undefined : goesOn?.dataset;
    return timed && !this.#timers.isTimed(timed) ? timed : undefined;
  }

  /** @param {HTMLElement | undefined} step */
  #screen(step) {
    const { article, ticks } = this.#card;
    const next = this.#steps.slice(this.#place).find((other) => !isLeftOut(other));
    const clock = this.#card.group.clockOf(this.#place - 1);
    if (step) return stepScreen(step, next, ticks, clock, (checkpoint) => this.#question(checkpoint));
    if (!this.#place) return ingredientsScreen(article, ticks);
    return endScreen(article, this.#steps, ticks, () => {
      this.#card.startAgain();
      this.#part("body").focus();
    }, (selector) => this.#goTo(selector));
  }

  /** To a folded part of the page. @param {string} selector */
  #goTo(selector) {
    const part = find(this.#card.article, selector, HTMLDetailsElement);
    part.open = true;
    this.#focusAfter = find(part, "summary");
    this.#dialog.close();
  }

  /** @param {HTMLElement} checkpoint */
  #question(checkpoint) {
    return checkpointQuestion(checkpoint, this.#answer, (answer) => {
      this.#answer = answer;
      this.refresh();
      find(this.#dialog, '[data-focus="question"]').focus();
    });
  }

  /**
   * In words, and as a bar with a mark for each step.
   *
   * @param {HTMLElement | undefined} shown
   */
  #showPlace(shown) {
    const stages = findAll(this.#card.article, ".cc-steps").map((list) => findAll(list, ":scope > *"));
    const at = stages.findIndex((steps) => shown && steps.includes(shown));
    const stage = stages[at];
    const step = shown && stage ? `Stage ${at + 1} of ${stages.length}, step ${stage.indexOf(shown) + 1} of ${stage.length}` : "";
    const { title } = this.#card.group;
    const text = [...(title ? [title] : []), step || (this.#place ? "The end" : "Before you begin")].join(": ");
    const where = this.#part("where");
    if (where.textContent !== text) where.textContent = text; // It is read aloud when it changes.
    const mark = (/** @type {HTMLElement} */ task) => make("i", { class: task === shown ? "here" : this.#isTicked(task) ? "done" : "" });
    const bars = stages.map((steps) => make("span", { class: steps === stage ? "here" : "" }, ...steps.map(mark)));
    this.#part("bar").replaceChildren(...bars);
  }
}
