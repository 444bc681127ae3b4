// Timers: several at once, the same ones on every page of the site. Here they are started, kept and rung; timer_clock.js
// knows when, timer_tray.js shows them, timer_alarm.js makes them heard.

/** @import { DeviceStore } from "./device.js" */
/** @import { Rings, Timer } from "./timer_clock.js" */
/** @import { Act } from "./timer_tray.js" */

import { find } from "./elements.js";
import { allowSound, isAudible, notificationButton, notify, ring, withdraw } from "./timer_alarm.js";
import { isOf, newTimer, nextRingText, oneMinuteMore, pausedOrResumed, ringsDue, timerOf, timersFrom } from "./timer_clock.js";
import { TimerTray } from "./timer_tray.js";

const NAME = "timers";
const LOOK_EVERY_MS = 500;

/** @type {Promise<Timers> | null} */
let opened = null;

/**
 * The timers of this visit, with their tray on the page and their style sheet loaded.
 *
 * @param {DeviceStore} device
 */
export function openTimers(device) {
  opened ??= loadStyles().then(() => new Timers(device));
  return opened;
}

/** The style sheet of the tray and of bench view. Without it, both still work. */
function loadStyles() {
  return new Promise((resolve) => {
    const sheet = document.createElement("link");
    Object.assign(sheet, { rel: "stylesheet", onload: resolve, onerror: resolve });
    sheet.href = new URL("bench.css", import.meta.url).href;
    document.head.append(sheet);
  });
}

/** From this page to its card: a page below a card shows it in another site's page. */
function cardPath() {
  return document.querySelector("recipe-reader[data-card]")?.getAttribute("data-card") ?? "";
}

/**
 * The place of a step of this page.
 *
 * @param {string | undefined} step
 */
function addressOf(step) {
  return `${new URL(cardPath(), location.href).pathname}#step-${step}`;
}

export class Timers {
  /** Called when a timer was started, changed or dismissed. @type {(() => void) | null} */
  onChange = null;

  #device;
  #tray = new TimerTray((act, id) => this.#act(act, id));

  /** @type {Timer[]} */
  #timers;

  /** What this page could not make heard, by timer and ring: it is left for one look to a tab or a frame that can. */
  #left = new Set();

  /** The page's title as it is without timers, and as they made it. */
  #plainTitle = "";
  #title = "";

  /** @param {DeviceStore} device */
  constructor(device) {
    this.#device = device;
    this.#timers = this.#saved;
    this.#tray.moveTo(document.body);
    const button = notificationButton((sentence) => this.#tray.say(sentence));
    if (button) this.#tray.element.append(button);
    device.whenChangedElsewhere(NAME, () => {
      this.#timers = this.#saved;
      this.#look();
    });
    const isOn = () => this.#timers.length > 0;
    for (const type of ["pointerdown", "keydown"]) addEventListener(type, () => isOn() && allowSound());
    setInterval(() => isOn() && this.#look(), LOOK_EVERY_MS);
    this.#look();
  }

  /**
   * Starts the timer of a step, or shows the one that it has already.
   *
   * @param {DOMStringMap} step what the button of its timer says
   * @param {boolean} isInFrame as high as the page, so that the edge of the window is out of sight
   */
  start({ step, label = "", shortest, longest }, isInFrame = false) {
    if (isInFrame) this.showIn(find(document, `#step-${step}`));
    const now = Date.now();
    allowSound();
    const timed = { label, href: addressOf(step), shortestS: Number(shortest), longestS: Number(longest) };
    const present = timerOf(this.#timers, timed, now);
    if (present) {
      this.#tray.goTo(present, now);
      return;
    }
    this.#save([...this.#timers, newTimer({ ...timed, id: `${now}-${this.#timers.length}` }, now)]);
    this.#tray.say(`Timer started: ${label}.`);
  }

  /** @param {DOMStringMap} step of which there may be a timer already */
  isTimed({ step, label = "" }) {
    return this.#timers.some((timer) => isOf(timer, { label, href: addressOf(step) }));
  }

  /**
   * Shows the tray in another element: in an open dialog, nothing outside it can be reached.
   *
   * @param {Element} element
   */
  showIn(element) {
    this.#tray.moveTo(element);
  }

  get #saved() {
    return timersFrom(this.#device.get(NAME));
  }

  /** @param {Timer[]} timers */
  #save(timers) {
    this.#timers = timers;
    this.#device.set(NAME, timers);
    this.#look();
    this.onChange?.();
  }

  /** Rings for those whose time has come, and shows all. */
  #look() {
    const now = Date.now();
    for (const timer of this.#timers) {
      const due = ringsDue(timer, now);
      if (due > timer.rung && this.#isToRingHere(`${timer.id} ${due}`)) this.#ring(timer, due);
    }
    this.#tray.show(this.#timers, now);
    this.#showTitle(nextRingText(this.#timers, now));
  }

  /** @param {string} due */
  #isToRingHere(due) {
    const isLeft = this.#left.has(due);
    this.#left.add(due);
    return isLeft || isAudible();
  }

  /**
   * @param {Timer} timer
   * @param {Rings} due
   */
  #ring(timer, due) {
    const { id, label } = timer;
    const isRungElsewhere = this.#saved.some((saved) => saved.id === id && saved.rung >= due);
    this.#timers = this.#timers.map((other) => (other.id === id ? { ...timer, rung: due } : other));
    this.#device.set(NAME, this.#timers);
    const title = due === 2 ? "Time is up" : "Check now: the shortest time is up";
    this.#tray.alert(`${title}. ${label}.`);
    if (isRungElsewhere) return; // Another tab of the site is sounding already.
    ring(() => !this.#timers.some((other) => other.id === id && other.rung === due && !other.left));
    if (document.visibilityState === "hidden") notify(title, timer);
  }

  /**
   * @param {Act} act
   * @param {string} id
   */
  #act(act, id) {
    allowSound();
    withdraw(id);
    const timer = this.#timers.find((other) => other.id === id);
    if (!timer) return;
    const now = Date.now();
    const changed = { pause: pausedOrResumed, more: oneMinuteMore, dismiss: () => null }[act](timer, now);
    if (act === "more") this.#tray.say(`One minute added: ${timer.label}.`);
    if (act === "dismiss") this.#tray.say(`Timer dismissed: ${timer.label}.`);
    this.#save(this.#timers.flatMap((other) => (other.id === id ? (changed ?? []) : other)));
  }

  /**
   * The page's title says so too, for a reader who looks at another tab.
   *
   * @param {string} text
   */
  #showTitle(text) {
    if (document.title !== this.#title) this.#plainTitle = document.title;
    this.#title = text ? `${text} · ${this.#plainTitle}` : this.#plainTitle;
    if (document.title !== this.#title) document.title = this.#title;
  }
}
