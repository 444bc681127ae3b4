// What the reader changed on a card, between the calculators, the history and the device. Knows no page.

/** @import { Moment } from "./card_history.js" */
/** @import { FormState } from "./form_state.js" */
/** @import { Calculators, Options, Refusal } from "./pending_state.js" */
/** @import { SavedCard } from "./saved_card.js" */

import { forAllRecipes, isEmpty, partOf, same, withNotesOf, withPart } from "./form_state.js";
import { PendingState } from "./pending_state.js";

/** @typedef {{ refused: FormState, cause: string, entry: number }} Change */

/** A state that is set; `veil` is the sentence while nothing of it can be shown. @typedef {Options & { veil?: string }} Setting */

/**
 * What it asks of the page.
 *
 * @typedef {object} Host
 * @property {() => Calculators} calculators those of the card that have a state of their own, by name
 * @property {() => void} show
 * @property {(sentence: string) => void} say "" takes the last sentence away
 * @property {(sentence: string) => void} veil hides all amounts, with a sentence that says why; "" shows them
 * @property {{ isFromLink: boolean }} visit what is remembered until the visit ends, also where the theme puts the page in again
 * @property {(state: FormState) => boolean} paint shows the texts that were kept of this state; false if there are none
 */

const ELSEWHERE = "This card was changed in another tab, and the change is shown here as well. Undo takes it back.";
const YOURS = "Working out your amounts…";
const OF_THE_LINK = "Working out the amounts of this link…";

const NOT_SAVED = "This browser saves nothing for this site. Copy a link to keep your changes.";

export class CardChanges {
  #saved;
  #history;
  #host;

  /** @type {PendingState | null} */
  #pending = null;

  /** Whose amounts are not shown yet; "" if those on the page are right. */
  #veiled = "";

  /** The calculator, and its number of what was typed last into one field; "" if something else came since. */
  #entry = "";

  /**
   * @param {SavedCard} saved
   * @param {Host} host
   */
  constructor(saved, host) {
    this.#saved = saved;
    this.#history = saved.history;
    this.#host = host;
  }

  get now() {
    return this.#history.now;
  }

  get canUndo() {
    return this.#history.past.length > 0;
  }

  get canRedo() {
    return this.#history.future.length > 0;
  }

  /** Whether a link was opened, and what it shows differs from the recipe as published. */
  get isFromLink() {
    return this.#host.visit.isFromLink && !this.isPublished;
  }

  /** Whether nothing is changed, aside from what counts for all recipes. */
  get isPublished() {
    const { now, typed } = this.#history;
    return same(now.state, forAllRecipes(now.state)) && isEmpty(typed);
  }

  /** Shows what was saved on this device. */
  restore() {
    const { state, typed } = this.#saved;
    this.#history.amend({ state });
    if (isEmpty(state) && isEmpty(typed)) return this.#veil("");
    /** @param {Refusal} refusal */
    const refused = ({ problem }) => {
      this.add({ state: {}, typed: {} });
      this.#host.say(`Your earlier changes no longer fit this recipe: ${problem}. It is shown as published.`);
    };
    // Units and the like that were chosen on another card leave the amounts as published.
    const isRight = same(state, forAllRecipes(state)) || this.#host.paint(state);
    return this.set(state, { typed, quiet: true, refused, veil: isRight ? "" : YOURS });
  }

  /**
   * Shows the state of a link; the notes about the batch stay.
   *
   * @param {FormState} state
   * @param {() => void} done
   */
  open(state, done) {
    /** @param {Refusal} refusal */
    const refused = ({ problem }) => this.refuseLink(problem);
    this.#host.visit.isFromLink = true;
    this.set(withNotesOf(state, this.now.state), { done, refused, veil: OF_THE_LINK });
  }

  /**
   * The recipe as published, where a link cannot be used.
   *
   * @param {string} problem
   */
  refuseLink(problem) {
    const state = this.#saved.forAllRecipes;
    this.#host.visit.isFromLink = false;
    this.#veil("");
    if (!same(state, this.now.state) || !isEmpty(this.#history.typed)) this.add({ state, typed: {} });
    const earlier = this.canUndo ? " Your own changes are not lost: Undo brings them back." : "";
    const done = () => this.#host.say(`The link could not be used: ${problem}. The recipe is shown as published.${earlier}`);
    this.set(state, { done });
  }

  /** All changes back, aside from what counts for all recipes. */
  publish() {
    this.#host.visit.isFromLink = false;
    this.set(forAllRecipes(this.now.state));
  }

  /**
   * Has a state computed, by those calculators whose part of it changes.
   *
   * @param {FormState} state
   * @param {Setting} options
   */
  set(state, { veil = "", ...options } = {}) {
    const calculators = this.#host.calculators();
    const unknown = PendingState.unknownField(state, calculators);
    if (unknown) return options.refused?.({ problem: `this card has no field ${unknown}` });
    const pending = new PendingState(state, calculators, this.#pending, options);
    this.#pending = pending;
    this.#veil(veil);
    pending.send(calculators);
    return pending.isComplete && this.#pending === pending ? this.#finish(pending) : undefined;
  }

  /** @param {PendingState} pending */
  #finish({ options }) {
    this.#pending = null;
    this.#veil("");
    this.#host.show();
    options.done?.();
  }

  /** @param {string} sentence */
  #veil(sentence) {
    this.#veiled = sentence;
    this.#host.veil(sentence);
  }

  /** Python cannot run here: what the build printed is shown, and no longer taken for anything else. */
  unavailable() {
    const whose = { [YOURS]: "your own", [OF_THE_LINK]: "those of the link" }[this.#veiled];
    this.#pending = null;
    this.#veil("");
    if (whose) this.#host.say(`The calculator could not start here. The amounts are those of the recipe as published, not ${whose}.`);
  }

  /**
   * A calculator has computed a state.
   *
   * @param {string} name
   * @param {Change & { state: FormState }} change
   */
  computed(name, { state: part, refused, cause, entry }) {
    const pending = this.#pending?.waitsFor(name) ? this.#pending : null;
    if (pending?.isOvertaken(name, part, cause)) return;
    const { now, typed: typedNow } = this.#history;
    const state = withPart(now.state, name, part);
    const typed = withPart(typedNow, name, refused);
    if (cause === "set" && !pending && same(state, now.state) && same(typed, typedNow)) return;
    if (pending?.options.quiet) {
      this.#history.amend({ state, typed });
    } else if (!same(state, now.state) || !same(typed, typedNow)) {
      this.add({ state, typed }, pending ? pending.isNoted : this.#continues(name, entry));
      if (pending) pending.isNoted = true;
    }
    this.#entry = `${name} ${entry}`;
    if (cause === "edit") this.#saved.saveForAllRecipes();
    pending?.arrived(name);
    if (pending?.isComplete) this.#finish(pending);
    else this.#host.show();
  }

  /**
   * A calculator could not use a state, or what is typed in a field; that is kept as well, and can be undone. True if
   * nobody else need say so.
   *
   * @param {string} name
   * @param {Change & Refusal} change
   */
  refused(name, { refused: part, cause, entry, problem }) {
    if (cause === "set") {
      const pending = this.#pending;
      this.#pending = null;
      if (pending) this.#veil("");
      pending?.options.refused?.({ problem });
      return pending !== null;
    }
    const typed = withPart(this.#history.typed, name, part);
    if (!this.#pending?.waitsFor(name) && !same(typed, this.#history.typed)) {
      this.add({ typed }, this.#continues(name, entry));
      this.#entry = `${name} ${entry}`;
    }
    return false;
  }

  /**
   * Whether an answer is to more letters of the entry that the last change came from.
   *
   * @param {string} name of the calculator
   * @param {number} entry
   */
  #continues(name, entry) {
    return entry !== 0 && `${name} ${entry}` === this.#entry;
  }

  /**
   * @param {Partial<Moment>} change
   * @param {boolean} continues
   */
  add(change, continues = false) {
    this.#history.add(change, continues);
    this.#entry = "";
    this.#host.say("");
    this.save();
    this.#host.show();
  }

  /**
   * Shows another moment of the history.
   *
   * @param {"undo" | "redo"} which
   */
  move(which) {
    if (which === "undo") this.#noteTyped();
    const before = this.now;
    const moment = this.#history[which]();
    if (!moment) return;
    this.#entry = "";
    this.#host.visit.isFromLink = false;
    this.#host.say("");
    this.save();
    this.#host.show();
    const { state, typed = {} } = moment;
    if (same(state, before.state) && same(typed, before.typed ?? {})) return;
    this.#saved.saveForAllRecipes();
    this.set(state, { typed, exact: true });
  }

  /** What is typed and not computed yet is a step as well: the one that Undo takes back first. */
  #noteTyped() {
    if (!this.#pending && !same(this.#typedNow, this.#history.typed)) this.#history.add({ typed: this.#typedNow });
  }

  /** What is in fields and not in the state: refused, or not computed yet. */
  get #typedNow() {
    let { typed } = this.#history;
    for (const [name, { unsettled }] of this.#host.calculators()) typed = withPart(typed, name, unsettled);
    return typed;
  }

  /** Takes over what another tab has changed, together with what was changed here. */
  meet() {
    const before = this.now;
    if (!this.#saved.takeOver()) return;
    const { state, typed = {} } = this.now;
    this.#host.show();
    if (same(state, before.state) && same(typed, before.typed ?? {})) return;
    // What is typed here and not computed yet is tried again.
    let tried = typed;
    for (const [name, { unsettled }] of this.#host.calculators()) tried = withPart(tried, name, { ...partOf(typed, name), ...unsettled });
    this.set(state, { typed: tried, exact: true, quiet: true, done: () => this.#host.say(ELSEWHERE) });
  }

  /** False, and a sentence, if the card will be gone with this page. */
  save() {
    this.meet();
    const isSaved = this.#saved.save();
    if (!isSaved) this.#host.say(NOT_SAVED);
    return isSaved;
  }

  /** The page goes: what is typed and not computed yet is kept, and tried when the card is opened again. */
  leave() {
    const typed = this.#typedNow;
    if (same(typed, this.#history.typed)) return;
    this.#history.amend({ typed });
    this.#saved.save();
  }
}
