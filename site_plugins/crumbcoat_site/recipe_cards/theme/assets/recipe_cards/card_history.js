// What a reader did on one card, with undo and redo.

/** @import { FormState } from "./form_state.js" */

/**
 * A card at one moment: what was changed in its forms, and the ticks that are set.
 *
 * @typedef {{ state: FormState, ticks: string[] }} Moment
 */

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

  /**
   * A change. One that continues the last, as letters typed into one field do, is not a step of its own.
   *
   * @param {Partial<Moment>} change
   * @param {boolean} continues
   */
  add(change, continues = false) {
    if (!continues || !this.past.length) this.past = [...this.past, this.now].slice(-MOST_STEPS_BACK);
    this.amend(change);
    this.future = [];
  }

  /**
   * A change that is not a separate step, so that undo and redo do not see it.
   *
   * @param {Partial<Moment>} change
   */
  amend(change) {
    this.now = { ...this.now, ...change };
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
  const { state, ticks } = /** @type {Record<string, unknown>} */ (value ?? {});
  return typeof state === "object" && state !== null && areTexts(Object.values(state)) && Array.isArray(ticks) && areTexts(ticks);
}

/** @param {unknown[]} values */
function areTexts(values) {
  return values.every((value) => typeof value === "string");
}
