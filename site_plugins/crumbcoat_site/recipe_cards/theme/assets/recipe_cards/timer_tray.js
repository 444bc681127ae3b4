// The tray of timers, at the edge of every page: a row for each, with its clock and its buttons.

/** @import { Timer } from "./timer_clock.js" */

import { find, make } from "./elements.js";
import { reading } from "./timer_clock.js";

/** @typedef {"pause" | "more" | "dismiss"} Act */
/** @typedef {{ row: HTMLElement, clock: HTMLElement, words: HTMLElement, pause: HTMLButtonElement }} Row */

const ROW = `
  <p><a></a></p>
  <p class="cc-clock"><span role="timer"></span> <small></small></p>
  <p class="cc-timer-do"><button type="button" class="cc-button" data-act="pause"></button>
  <button type="button" class="cc-button" data-act="more">Add 1 min</button>
  <button type="button" class="cc-button" data-act="dismiss">Dismiss</button></p>`;

/** @type {[Act, string][]} */
const ACTS = [
  ["pause", "pause or resume"],
  ["more", "add one minute to"],
  ["dismiss", "dismiss"],
];

export class TimerTray {
  element = make("section", { class: "cc-card cc-tray", "aria-label": "Timers" });

  #list = make("ul", {});
  #status = make("p", { class: "cc-unseen", role: "status" });
  #alert = make("p", { class: "cc-unseen", role: "alert" });
  #onAct;

  /** @type {Map<string, Row>} */
  #rows = new Map();

  /** @param {(act: Act, id: string) => void} onAct what a button was pressed for, and on which timer */
  constructor(onAct) {
    this.#onAct = onAct;
    this.element.append(this.#list, this.#status, this.#alert);
  }

  /**
   * Puts the tray into another element: in an open dialog, nothing outside it can be reached.
   *
   * @param {Element} element
   */
  moveTo(element) {
    element.append(this.element);
  }

  /** @param {string} sentence */
  say(sentence) {
    this.#status.textContent = sentence;
  }

  /** @param {string} sentence one that must not be missed */
  alert(sentence) {
    this.#alert.textContent = sentence;
  }

  /**
   * Moves the focus to a timer's row, which scrolls it into view.
   *
   * @param {Timer} timer
   * @param {number} now
   */
  goTo(timer, now) {
    const { clock, phase } = reading(timer, now);
    this.say(`The timer is ${phase === "paused" ? "paused" : "running"} already, at ${clock}: ${timer.label}.`);
    this.#rows.get(timer.id)?.row.focus();
  }

  /**
   * @param {readonly Timer[]} timers
   * @param {number} now
   */
  show(timers, now) {
    for (const [id, { row }] of this.#rows) {
      if (timers.some((timer) => timer.id === id)) continue;
      row.remove();
      this.#rows.delete(id);
    }
    for (const timer of timers) this.#showTimer(timer, now);
    this.element.hidden = !timers.length;
    // What gets the focus scrolls clear of the tray.
    document.documentElement.style.scrollPaddingBottom = timers.length ? `calc(${this.element.offsetHeight}px + 1rem)` : "";
  }

  /**
   * @param {Timer} timer
   * @param {number} now
   */
  #showTimer(timer, now) {
    const { row, clock, words, pause } = this.#rows.get(timer.id) ?? this.#add(timer);
    const shown = reading(timer, now);
    row.dataset.phase = shown.phase;
    clock.textContent = shown.clock;
    words.textContent = shown.words;
    pause.textContent = shown.phase === "paused" ? "Resume" : "Pause";
    pause.hidden = shown.phase === "over";
  }

  /** @param {Timer} timer */
  #add({ id, href, label }) {
    const row = make("li", { tabindex: "-1" });
    row.innerHTML = ROW;
    const link = find(row, "a", HTMLAnchorElement);
    link.href = href;
    link.textContent = label;
    for (const [act, words] of ACTS) {
      const button = find(row, `[data-act="${act}"]`);
      button.setAttribute("aria-description", `${words} ${label}`);
      button.addEventListener("click", () => this.#onAct(act, id));
    }
    const pause = find(row, '[data-act="pause"]', HTMLButtonElement);
    const added = { row, clock: find(row, "[role=timer]"), words: find(row, "small"), pause };
    this.#rows.set(id, added);
    this.#list.append(row);
    return added;
  }
}
