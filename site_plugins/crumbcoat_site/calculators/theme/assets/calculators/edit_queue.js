// What the reader changes in one form, on its way to Python: one request at a time. What comes meanwhile is gathered, so
// that nothing typed is lost and the last word counts. Knows no page.

/** @typedef {Record<string, string>} FormState */
/** @typedef {Map<string, string>} Edits the new value of each field that was changed, by name */

/**
 * "edit": the reader changed fields; "set": a whole state was set, to undo something or to open a link.
 *
 * @typedef {"edit" | "set"} Cause
 */

/** @typedef {{ path: string[], problem: string, remedy: string }} Refusal */
/** @typedef {{ state: FormState, texts: Record<string, any>, number: number, error?: undefined } | { error: Refusal }} Reply */

/**
 * What the queue asks of the page.
 *
 * @typedef {object} Host
 * @property {(state: FormState, edits: Edits) => Promise<Reply>} ask
 * @property {(reply: Exclude<Reply, { error: Refusal }>, edits: Edits, cause: Cause) => void} accept
 * @property {(refusal: Refusal, edits: Edits, cause: Cause) => boolean} refuse false if the edits are not to be tried again
 * @property {(name: string, value: string) => boolean} holds whether a field still has this value
 * @property {(error: unknown) => void} fail
 */

export class EditQueue {
  /** What the reader changed, as Python last wrote it. @type {FormState} */
  state = {};

  #host;

  /** A state that was set and is not sent yet. @type {FormState | null} */
  #wanted = null;

  /** Since the last request. @type {Edits} */
  #waiting = new Map();

  /** With the request that is on its way. @type {Edits} */
  #sent = new Map();

  /** In fields, but not usable; another change may make them right. @type {Edits} */
  #refused = new Map();

  #isBusy = false;

  /** @param {Host} host */
  constructor(host) {
    this.#host = host;
  }

  /**
   * @param {string} name
   * @param {string} value
   */
  add(name, value) {
    this.#waiting.set(name, value);
    this.#work();
  }

  /**
   * Sets a whole state; what was typed and not sent yet is dropped.
   *
   * @param {FormState} state
   */
  set(state) {
    this.#waiting.clear();
    this.#wanted = { ...state };
    this.#work();
  }

  /**
   * Sets a whole state, and tries everything again that is in fields and not in a state yet.
   *
   * @param {FormState} state
   */
  setBelowEdits(state) {
    const typed = new Map([...this.#refused, ...this.#sent, ...this.#waiting]);
    this.set(state);
    this.#waiting = typed;
  }

  /**
   * Whether an edit of this field is waiting for its answer.
   *
   * @param {string} name
   */
  isPending(name) {
    return this.#waiting.has(name) || this.#sent.has(name);
  }

  async #work() {
    if (this.#isBusy) return;
    this.#isBusy = true;
    try {
      while (this.#wanted || this.#waiting.size) await this.#next();
    } catch (error) {
      this.#host.fail(error);
    } finally {
      this.#isBusy = false;
    }
  }

  async #next() {
    if (this.#wanted) {
      const wanted = this.#wanted;
      this.#wanted = null;
      await this.#send(wanted, new Map(), "set");
      return;
    }
    const edits = this.#waiting;
    this.#waiting = new Map();
    if (await this.#send(this.state, edits, "edit")) await this.#retry();
    else if (edits.size > 1) await this.#sendSingly(edits);
  }

  /**
   * One of several was refused: each goes by itself, so that the others count.
   *
   * @param {Edits} edits
   */
  async #sendSingly(edits) {
    for (const [name, value] of edits) {
      if (!this.#wanted && !this.#waiting.has(name)) await this.#send(this.state, new Map([[name, value]]), "edit");
    }
  }

  /** What was refused may be right now, as a tier is once the one below it is wider; and that may make others right. */
  async #retry() {
    for (let isAccepted = true; isAccepted; ) {
      isAccepted = false;
      for (const [name, value] of [...this.#refused]) {
        if (!this.#host.holds(name, value)) this.#refused.delete(name);
        else if (this.#wanted || this.#waiting.has(name)) continue;
        else isAccepted = (await this.#send(this.state, new Map([[name, value]]), "edit")) || isAccepted;
      }
    }
  }

  /**
   * @param {FormState} state
   * @param {Edits} edits
   * @param {Cause} cause
   */
  async #send(state, edits, cause) {
    this.#sent = edits;
    const reply = await this.#host.ask(state, edits);
    this.#sent = new Map();
    if (reply.error) {
      const isKept = this.#host.refuse(reply.error, edits, cause);
      if (isKept) for (const [name, value] of edits) this.#refused.set(name, value);
      return false;
    }
    if (cause === "set") this.#refused.clear();
    for (const name of edits.keys()) this.#refused.delete(name);
    this.state = reply.state;
    this.#host.accept(reply, edits, cause);
    return true;
  }
}
