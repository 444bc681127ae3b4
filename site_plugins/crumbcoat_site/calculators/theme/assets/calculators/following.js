// A calculator that follows another one: it takes over that one's state, fields of its own aside, once that one is at rest.

/** @import { FormState } from "./edit_queue.js" */

/** How long another calculator must be at rest before one that follows it computes: it has to answer within a frame. */
const FOLLOW_AFTER_MS = 200;

export class Following {
  #isOwn;
  #take;

  /** What the other one had last. @type {FormState} */
  #state = {};

  /** What waits until the followed calculator is at rest. @type {ReturnType<typeof setTimeout> | undefined} */
  #waiting;

  /**
   * @param {(name: string) => boolean} isOwn whether the follower has a field of this name
   * @param {(state: FormState) => void} take takes a state over
   */
  constructor(isOwn, take) {
    this.#isOwn = isOwn;
    this.#take = take;
  }

  get isWaiting() {
    return this.#waiting !== undefined;
  }

  /** The other calculator has changed. @param {FormState} state */
  hear(state) {
    this.stop();
    this.#waiting = setTimeout(() => {
      this.#waiting = undefined;
      this.#state = state;
      this.#take(state);
    }, FOLLOW_AFTER_MS);
  }

  stop() {
    clearTimeout(this.#waiting);
    this.#waiting = undefined;
  }

  /** Until what was heard is taken over. */
  async rest() {
    // eslint-disable-next-line no-promise-executor-return
    if (this.isWaiting) await new Promise((resolve) => setTimeout(resolve, FOLLOW_AFTER_MS));
  }

  /** The fields of the follower itself. @param {FormState} state @returns {FormState} */
  own(state) {
    return Object.fromEntries(Object.entries(state).filter(([name]) => this.#isOwn(name)));
  }

  /** The state of the other calculator as well. @param {FormState} own @returns {FormState} */
  whole(own) {
    return { ...this.#state, ...own };
  }
}
