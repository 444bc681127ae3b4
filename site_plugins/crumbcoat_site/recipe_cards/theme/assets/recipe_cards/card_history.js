// What a reader did on one card, with undo and redo.

/** @import { FormState } from "./form_state.js" */

/**
 * A card at one moment: what was changed in its forms, the ticks that are set, and what is typed in fields but could not
 * be used, if anything is.
 *
 * @typedef {{ state: FormState, ticks: string[], typed?: FormState }} Moment
 */

import { same } from "./form_state.js";

const MOST_STEPS_BACK = 40;

export class CardHistory {
  now;
  past;
  future;

  /** @param {{ now: Moment, past: Moment[], future: Moment[] }} record as `record` gives it */
  constructor({ now, past, future } = { now: { state: {}, ticks: [] }, past: [], future: [] }) {
    this.now = now;
    this.past = past;
    this.future = future;
  }

  /** Everything, as plain data. */
  get record() {
    return { now: this.now, past: this.past, future: this.future };
  }

  /** What is typed in fields at this moment and could not be used. */
  get typed() {
    return this.now.typed ?? {};
  }

  /**
   * A change. One that continues the last, as letters typed into one field do, is not a step of its own; and if it takes
   * that back, there is no step left.
   *
   * @param {Partial<Moment>} change
   * @param {boolean} continues
   */
  add(change, continues = false) {
    if (!continues || !this.past.length) this.past = [...this.past, this.now].slice(-MOST_STEPS_BACK);
    this.amend(change);
    this.future = [];
    const before = this.past.at(-1);
    if (continues && before && sameMoment(before, this.now)) this.past = this.past.slice(0, -1);
  }

  /**
   * A change that is not a separate step, so that undo and redo do not see it.
   *
   * @param {Partial<Moment>} change
   */
  amend(change) {
    const { typed = {}, ...now } = { ...this.now, ...change };
    this.now = Object.keys(typed).length ? { ...now, typed } : now;
  }

  /**
   * Another history in place of this one, as of another tab.
   *
   * @param {{ now: Moment, past: Moment[], future: Moment[] }} record
   */
  become({ now, past, future }) {
    this.now = now;
    this.past = past.slice(-MOST_STEPS_BACK);
    this.future = future;
  }

  /** One step back; null if there is none. */
  undo() {
    const before = this.past.at(-1);
    if (!before) return null;
    this.future = [this.now, ...this.future];
    this.past = this.past.slice(0, -1);
    this.now = before;
    return before;
  }

  /** One step forward; null if there is none. */
  redo() {
    const [after, ...rest] = this.future;
    if (!after) return null;
    this.past = [...this.past, this.now];
    this.future = rest;
    this.now = after;
    return after;
  }
}

/**
 * @param {Moment} one
 * @param {Moment} other
 */
export function sameMoment(one, other) {
  const isTicked = one.ticks.length === other.ticks.length && one.ticks.every((tick) => other.ticks.includes(tick));
  return isTicked && same(one.state, other.state) && same(one.typed ?? {}, other.typed ?? {});
}

/**
 * The history in what the device kept; an empty one if that cannot be read.
 *
 * @param {unknown} kept
 */
export function historyFrom(kept) {
  const { now, past, future } = /** @type {Record<string, unknown>} */ (kept ?? {});
  return isMoment(now) && areMoments(past) && areMoments(future) ? new CardHistory({ now, past, future }) : new CardHistory();
}

/**
 * @param {unknown} value
 * @returns {value is Moment[]}
 */
function areMoments(value) {
  return Array.isArray(value) && value.every(isMoment);
}

/**
 * @param {unknown} value
 * @returns {value is Moment}
 */
function isMoment(value) {
  const { state, ticks, typed = {} } = /** @type {Record<string, unknown>} */ (value ?? {});
  return isState(state) && isState(typed) && Array.isArray(ticks) && areTexts(ticks);
}

/** @param {unknown} value */
function isState(value) {
  return typeof value === "object" && value !== null && areTexts(Object.values(value));
}

/** @param {unknown[]} values */
function areTexts(values) {
  return values.every((value) => typeof value === "string");
}
