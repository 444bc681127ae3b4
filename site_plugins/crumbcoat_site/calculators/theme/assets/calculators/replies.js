// The replies of Python to one calculator: it sends only the texts that differ from the reply that the page shows.

/** @import { Edits, FormState, Reply } from "./edit_queue.js" */

export class Replies {
  #ask;

  /** The number of the reply that is shown. */
  #shown = 0;

  /** @param {(request: object) => Promise<any>} ask */
  constructor(ask) {
    this.#ask = ask;
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
    if (reply.error) return {};
    return reply.later ? { ...reply.texts, ...(await this.later(state)) } : reply.texts;
  }
}
