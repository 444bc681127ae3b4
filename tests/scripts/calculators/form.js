// A form without a page, and without Python, for tests of its edits.
import { setImmediate } from "node:timers/promises";

import { EditQueue } from "../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/edit_queue.js";

/** @typedef {import("../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/edit_queue.js").FormState} FormState */

/**
 * A form whose Python takes over each edit, and refuses those of which `isWrong` says so. It answers when the test lets
 * it, so that edits can be made meanwhile.
 */
export class Form {
  /** What was asked, in order. @type {{ state: FormState, edit: FormState }[]} */
  asked = [];
  /** What the page was asked to show, in order. @type {string[]} */
  shown = [];
  /** The entry that led to each answer. @type {number[]} */
  entries = [];
  /** What is typed in the fields, where it is not the state's. @type {FormState} */
  typed = {};
  /** Whether Python leaves some texts for later. */
  hasLater = false;
  /** @type {unknown} */
  failure = null;
  /** Whether Python is gone when it is asked for what it left for later. */
  isGone = false;
  /** Whether what failed may be asked again. */
  canRetry = false;

  /** @type {(() => void)[]} */
  #unanswered = [];

  /** @param {(edit: FormState, state: FormState) => boolean} isWrong */
  constructor(isWrong = () => false) {
    this.queue = new EditQueue({
      ask: async (state, edits) => {
        const edit = Object.fromEntries(edits);
        this.asked.push({ state, edit });
        await this.#turn();
        if ("break" in edit) throw new Error("the worker is gone");
        if (isWrong(edit, { ...state, ...edit })) return { error: { path: Object.keys(edit), problem: "no", remedy: "yes" } };
        return { state: { ...state, ...edit }, texts: {}, number: this.asked.length, ...(this.hasLater && { later: ["why.fat"] }) };
      },
      complete: async () => {
        await this.#turn();
        if (this.isGone) throw new Error("the worker is gone");
        this.shown.push(`later ${JSON.stringify(this.queue.state)}`);
      },
      accept: ({ state }, _edits, cause, entry) => {
        this.entries.push(entry);
        this.shown.push(`${cause} ${JSON.stringify(state)}`);
      },
      refuse: ({ path }, edits, _cause, entry) => {
        if (edits.size > 1) return false;
        this.entries.push(entry);
        return Boolean(this.shown.push(`refused ${path.join()}`));
      },
      holds: (name, value) => this.typed[name] === value,
      lose: (names) => this.shown.push(`lost ${names.join()}`),
      fail: (error) => {
        this.failure = error;
        return !this.canRetry;
      },
    });
  }

  /**
   * @param {string} name
   * @param {string} value
   */
  type(name, value) {
    this.typed[name] = value;
    this.queue.add(name, value);
  }

  /**
   * Types a letter, so that the field has this text.
   *
   * @param {string} name
   * @param {string} value
   */
  enter(name, value) {
    this.typed[name] = value;
    this.queue.type(name, value);
  }

  /** Until the test lets Python answer. */
  #turn() {
    return new Promise((resolve) => {
      this.#unanswered.push(() => resolve(undefined));
    });
  }

  /** Lets Python answer the request that is on its way. */
  async answer() {
    this.#unanswered.shift()?.();
    await setImmediate();
  }

  /** Lets Python answer until nothing is on its way. */
  async answerAll() {
    while (this.#unanswered.length) await this.answer();
  }

  get edits() {
    return this.asked.map(({ edit }) => edit);
  }
}
