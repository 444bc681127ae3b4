// What the reader changes in one form, on its way to Python: one request at a time. What comes meanwhile is gathered, so
// that nothing typed is lost and the last word counts. Knows no page.
//
// What is typed into a field until it is left is one entry. It counts at a pause, and each time in place of what the same
// entry gave before: where the whole of it is refused, nothing is left of its first letters.

/** @typedef {Record<string, string>} FormState */
/** @typedef {Map<string, string>} Edits the new value of each field that was changed, by name */
/** @typedef {"edit" | "set"} Cause the reader changed fields; or a whole state was set, to undo something or to open a link */
/** @typedef {{ path: string[], problem: string, remedy: string, choices?: [string, string][] }} Refusal */
/** @typedef {{ state: FormState, texts: Record<string, any>, number: number, later?: string[], error?: undefined } | { error: Refusal }} Reply */

/** What is typed into one field until it is left: the state that it changes and what was last sent, once it was. */
/** @typedef {{ id: number, isOpen: boolean, before: FormState | null, value: string }} Entry */

/**
 * What the queue asks of the page. `entry` is the number of the entry that led to an answer, 0 for none.
 * @typedef {object} Host
 * @property {(state: FormState, edits: Edits) => Promise<Reply>} ask
 * @property {(reply: Exclude<Reply, { error: Refusal }>, edits: Edits, cause: Cause, entry: number) => void} accept
 * @property {() => Promise<void>} complete shows the texts that the answer accepted last left for later
 * @property {(names: string[]) => void} lose these texts will not come
 * @property {(refusal: Refusal, edits: Edits, cause: Cause, entry: number) => boolean} refuse false if the edits are not to be tried again
 * @property {(name: string, value: string) => boolean} holds whether a field still has this value
 * @property {(error: unknown) => boolean} fail false if what was asked may be asked again, at the next edit
 */

/** What is typed counts so long after the last key, or as soon as the field is left. */
export const PAUSE_MS = 400;

export class EditQueue {
  /** What the reader changed, as Python last wrote it. @type {FormState} */
  state = {};

  #host;

  /** A state that was set and is not sent yet, and what is typed in its fields besides. @type {{ state: FormState, typed: Edits } | null} */
  #wanted = null;

  /** A state that was set and is on its way. @type {FormState | null} */
  #setting = null;

  /** Typed since the last pause. @type {Edits} */
  #typing = new Map();

  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #pause;

  /** Since the last request. @type {Edits} */
  #waiting = new Map();

  /** With the request that is on its way. @type {Edits} */
  #sent = new Map();

  /** In fields, but not usable; another change may make them right. @type {Edits} */
  #refused = new Map();

  /** By the name of the field. @type {Map<string, Entry>} */
  #entries = new Map();

  /** The names of texts that were left for later. @type {string[]} */
  #missing = [];

  #lastEntry = 0;
  #isBusy = false;

  /** What is done once there is nothing on its way, some of it also if that fails. @type {{ action: () => void, isForced: boolean }[]} */
  #later = [];

  /** @param {Host} host */
  constructor(host) {
    this.#host = host;
  }

  /**
   * An edit that counts at once, and is an entry of its own: a tier that is removed twice is two tiers.
   *
   * @param {string} name
   * @param {string} value
   */
  add(name, value) {
    this.#entries.delete(name);
    this.#enter(name, value);
    this.#typing.delete(name);
    this.#waiting.set(name, value);
    this.flush();
  }

  /**
   * An edit that counts at a pause.
   *
   * @param {string} name
   * @param {string} value
   */
  type(name, value) {
    this.#enter(name, value);
    this.#typing.set(name, value);
    clearTimeout(this.#pause);
    this.#pause = setTimeout(() => this.flush(), PAUSE_MS);
  }

  /** What is typed counts now. */
  flush() {
    clearTimeout(this.#pause);
    for (const [name, value] of this.#typing) this.#waiting.set(name, value);
    this.#typing.clear();
    this.#work();
  }

  /** What is typed from now on is another entry, even in the same field. */
  leave() {
    for (const entry of this.#entries.values()) entry.isOpen = false;
  }

  /**
   * Sets a whole state, and what is typed in fields without counting; what was typed and not sent yet is dropped.
   *
   * @param {FormState} state
   * @param {FormState} typed
   */
  set(state, typed = {}) {
    clearTimeout(this.#pause);
    for (const edits of [this.#typing, this.#waiting, this.#entries]) edits.clear();
    this.#wanted = { state: { ...state }, typed: new Map(Object.entries(typed)) };
    this.#work();
  }

  /**
   * Sets a whole state, and tries everything again that is in fields and not in a state yet.
   *
   * @param {FormState} state
   */
  setBelowEdits(state) {
    /** @type {Edits} */
    const open = new Map();
    for (const [name, { isOpen, before, value }] of this.#entries) if (isOpen && before) open.set(name, value);
    const typed = new Map([...open, ...Object.entries(this.unsettled)]);
    this.set(state);
    for (const [name, value] of typed) this.#enter(name, value);
    this.#waiting = typed;
  }

  /** Whether an edit of this field is waiting for its answer. @param {string} name */
  isPending(name) {
    return this.#typing.has(name) || this.#waiting.has(name) || this.#sent.has(name);
  }

  /** Whether nothing is on its way, and nothing about to be. */
  get isAtRest() {
    return !this.#isBusy && !this.#wanted && !this.#waiting.size;
  }

  /** Do this now, or once everything before it is answered: "larger" pressed three times is three sizes. @param {() => void} action */
  atRest(action) {
    this.#later.push({ action, isForced: false });
    this.#work();
  }

  /** Until everything is answered that is typed by now, or Python is gone. @returns {Promise<void>} */
  rest() {
    return new Promise((resolve) => {
      this.#later.push({ action: resolve, isForced: true });
      this.flush();
    });
  }

  /** The state without what is still being typed; the one that was set last, if it is not answered yet. */
  get settled() {
    const entry = [...this.#entries.values()].find(({ isOpen, before }) => isOpen && before);
    return this.#wanted?.state ?? this.#setting ?? entry?.before ?? this.state;
  }

  /** What is typed in fields and could not be used. @returns {FormState} */
  get refused() {
    return Object.fromEntries(this.#refused);
  }

  /** What is typed in fields and not in the state, for whatever reason. @returns {FormState} */
  get unsettled() {
    return Object.fromEntries([...this.#refused, ...(this.#wanted?.typed ?? []), ...this.#sent, ...this.#waiting, ...this.#typing]);
  }

  /**
   * @param {string} name
   * @param {string} value
   */
  #enter(name, value) {
    const entry = this.#entries.get(name);
    if (entry && (entry.isOpen || this.isPending(name))) return;
    this.#lastEntry += 1;
    this.#entries.set(name, { id: this.#lastEntry, isOpen: true, before: null, value });
  }

  async #work() {
    if (this.#isBusy) return;
    this.#isBusy = true;
    try {
      while (this.#wanted || this.#waiting.size || this.#missing.length) await this.#next();
    } catch (error) {
      if (this.#missing.length) this.#host.lose(this.#missing);
      this.#missing = [];
      for (const { action, isForced } of this.#later.splice(0)) if (isForced) action();
      if (!this.#host.fail(error)) this.#waiting = new Map([...this.#sent, ...this.#waiting]);
    } finally {
      this.#isBusy = false;
    }
    while (this.isAtRest && this.#later.length) this.#later.shift()?.action();
  }

  async #next() {
    if (this.#wanted) {
      const { state, typed } = this.#wanted;
      this.#wanted = null;
      this.#setting = state;
      if (await this.#send(state, new Map(), "set", 0, typed)) await this.#retry(0);
      return;
    }
    if (!this.#waiting.size) {
      await this.#host.complete();
      this.#missing = [];
      return;
    }
    const edits = this.#waiting;
    this.#waiting = new Map();
    const [name = ""] = edits.keys();
    const entry = edits.size === 1 ? (this.#entries.get(name)?.id ?? 0) : 0;
    const isAccepted = entry ? await this.#sendEntry(edits) : await this.#send(this.state, edits, "edit", 0);
    if (isAccepted) await this.#retry(entry);
    else if (edits.size > 1) await this.#sendSingly(edits);
  }

  /** One of several was refused: each goes by itself, so that the others count. @param {Edits} edits */
  async #sendSingly(edits) {
    for (const edit of edits) {
      if (!this.#wanted && !this.#waiting.has(edit[0])) await this.#sendEntry(new Map([edit]));
    }
  }

  /**
   * One edit, on the state before its entry; that comes back if the edit is refused.
   *
   * @param {Edits} edit
   */
  async #sendEntry(edit) {
    const [[name, value] = ["", ""]] = edit;
    const entry = this.#entries.get(name);
    const before = entry?.before ?? this.state;
    if (entry) entry.value = value;
    for (const other of this.#entries.values()) other.before = other === entry ? before : null;
    const id = entry?.id ?? 0;
    if (await this.#send(before, edit, "edit", id)) return true;
    if (before === this.state || this.#wanted) return false;
    await this.#send(before, new Map(), "edit", id);
    if (entry) entry.before = null;
    return false;
  }

  /**
   * What was refused may be right now, as a tier is once the one below it is wider; and that may make others right.
   *
   * @param {number} entry
   */
  async #retry(entry) {
    for (let isAccepted = true; isAccepted; ) {
      isAccepted = false;
      for (const [name, value] of [...this.#refused]) {
        if (!this.#host.holds(name, value)) this.#refused.delete(name);
        else if (this.#wanted || this.#waiting.has(name)) continue;
        else isAccepted = (await this.#send(this.state, new Map([[name, value]]), "edit", entry)) || isAccepted;
      }
      if (isAccepted) for (const open of this.#entries.values()) open.before = null;
    }
  }

  /**
   * @param {FormState} state
   * @param {Edits} edits
   * @param {Cause} cause
   * @param {number} entry
   * @param {Edits} typed what is in fields besides, if a state is set
   */
  async #send(state, edits, cause, entry, typed = new Map()) {
    this.#sent = new Map([...edits, ...typed]);
    const reply = await this.#host.ask(state, edits);
    this.#sent = new Map();
    this.#setting = null;
    if (reply.error) {
      const wasRefused = new Map(this.#refused);
      for (const [name, value] of edits) this.#refused.set(name, value);
      if (!this.#host.refuse(reply.error, edits, cause, entry)) this.#refused = wasRefused;
      return false;
    }
    if (cause === "set") this.#refused = typed;
    for (const name of edits.keys()) this.#refused.delete(name);
    this.state = reply.state;
    this.#missing = reply.later ?? [];
    this.#host.accept(reply, edits, cause, entry);
    return true;
  }
}
