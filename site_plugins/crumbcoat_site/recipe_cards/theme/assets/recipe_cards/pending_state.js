// A state that was set on a card, from when it is sent to the calculators until each of them has computed its part.

/** @import { FormState } from "./form_state.js" */

import { isEmpty, ownerOf, partOf, same } from "./form_state.js";

/**
 * What a calculator could not use.
 *
 * @typedef {{ problem: string }} Refusal
 */

/**
 * @typedef {object} Options
 * @property {boolean} [exact] the calculators give the state back as it is, since it once came from them
 * @property {FormState} [typed] what is typed in fields besides, and could not be used
 * @property {boolean} [quiet] it is not a change by the reader, and not a step to undo
 * @property {() => void} [done]
 * @property {(refusal: Refusal) => void} [refused]
 */

/**
 * What is asked of a calculator: its state, what is typed in its fields and could not be used or is not computed yet, and
 * to set state and typed.
 *
 * @typedef {object} Calculator
 * @property {FormState} state
 * @property {FormState} unsettled
 * @property {(state: FormState, typed: FormState) => void} restore
 */

/** @typedef {Map<string, Calculator>} Calculators */

export class PendingState {
  /** @type {Options} */
  options;

  /** Whether a part of it has arrived and is a step to undo, so that the next part belongs to the same step. */
  isNoted = false;

  /** The parts that are not computed yet, by calculator. @type {Map<string, { state: FormState, typed: FormState }>} */
  #parts = new Map();

  /**
   * @param {FormState} state
   * @param {Calculators} calculators all of the card
   * @param {PendingState | null} previous a state that was set before and is not computed yet
   * @param {Options} options
   */
  constructor(state, calculators, previous, options) {
    this.options = options;
    for (const [name, calculator] of calculators) {
      const part = { state: partOf(state, name), typed: partOf(options.typed ?? {}, name) };
      const isThere = same(part.state, calculator.state) && isEmpty(calculator.unsettled) && isEmpty(part.typed);
      if (previous?.waitsFor(name) || !isThere) this.#parts.set(name, part);
    }
  }

  /**
   * A field that no calculator of the card has; undefined if there is none.
   *
   * @param {FormState} state
   * @param {Calculators} calculators
   */
  static unknownField(state, calculators) {
    return Object.keys(state).find((field) => !calculators.has(ownerOf(field)[0]));
  }

  get isComplete() {
    return !this.#parts.size;
  }

  /** @param {Calculators} calculators */
  send(calculators) {
    for (const [name, { state, typed }] of [...this.#parts]) calculators.get(name)?.restore(state, typed);
  }

  /** @param {string} name */
  waitsFor(name) {
    return this.#parts.has(name);
  }

  /**
   * Whether an answer belongs to a request that was on its way when this state was set. It must not be kept.
   *
   * @param {string} name
   * @param {FormState} part
   * @param {string} cause
   */
  isOvertaken(name, part, cause) {
    const wanted = this.#parts.get(name)?.state;
    if (!wanted) return false;
    return cause === "edit" || (this.options.exact === true && !same(part, wanted));
  }

  /** @param {string} name */
  arrived(name) {
    this.#parts.delete(name);
  }
}
