// What one calculator asks of Python. It knows which reply the page shows, since Python sends only the texts that differ.
import { ask } from "./client.js";
import { contextOf } from "./context.js";

/** @import { Edits, FormState, Reply } from "./edit_queue.js" */

export class Replies {
  #calculator;

  /** The number of the reply that is shown. */
  #shown = 0;

  /** @param {HTMLElement} calculator */
  constructor(calculator) {
    this.#calculator = calculator;
  }

  /**
   * The reply to a state with edits; once it is there, the page shows it.
   *
   * @param {FormState} state
   * @param {Edits} edits
   * @returns {Promise<Reply>}
   */
  async to(state, edits) {
    /** @type {Reply} */
    const reply = await this.#ask({ state, edit: Object.fromEntries(edits), shown: this.#shown });
    if (!reply.error) this.#shown = reply.number;
    return reply;
  }

  /**
   * The texts that the reply to this state left for later; all of them if Python was started again meanwhile.
   *
   * @param {FormState} state
   * @returns {Promise<Record<string, any>>}
   */
  async later(state) {
    const { texts } = await this.#ask({ later: this.#shown });
    if (texts) return texts;
    this.#shown = 0;
    const reply = await this.to(state, new Map());
    return reply.error ? {} : reply.texts;
  }

  /**
   * @param {object} request
   * @returns {Promise<any>}
   */
  #ask(request) {
    return ask(contextOf(this.#calculator), { calculator: this.#calculator.getAttribute("name"), ...request });
  }
}
