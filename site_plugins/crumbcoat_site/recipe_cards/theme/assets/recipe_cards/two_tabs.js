// One history of a card that is open in two tabs: neither loses what was changed in the other.

/** @import { Moment } from "./card_history.js" */
/** @import { FormState } from "./form_state.js" */

import { sameMoment } from "./card_history.js";

/** @typedef {{ now: Moment, past: Moment[], future: Moment[] }} Record */

/**
 * Their history if nothing was changed here since both had the moment `before`. Otherwise what is shown has the changes of
 * both, field by field and tick by tick; where both changed the same one it is as here, and what they had is one step back.
 *
 * @param {Moment} before
 * @param {Moment} mine
 * @param {Record} theirs
 * @returns {Record}
 */
export function joined(before, mine, theirs) {
  if (sameMoment(before, mine)) return theirs;
  return { now: joinedMoment(before, mine, theirs.now), past: [...theirs.past, theirs.now], future: [] };
}

/**
 * @param {Moment} before
 * @param {Moment} mine
 * @param {Moment} theirs
 * @returns {Moment}
 */
function joinedMoment(before, mine, theirs) {
  const state = joinedFields(before.state, mine.state, theirs.state);
  const typed = joinedFields(before.typed ?? {}, mine.typed ?? {}, theirs.typed ?? {});
  const asFields = (/** @type {string[]} */ ticks) => Object.fromEntries(ticks.map((tick) => [tick, "set"]));
  const ticks = Object.keys(joinedFields(asFields(before.ticks), asFields(mine.ticks), asFields(theirs.ticks)));
  return Object.keys(typed).length ? { state, ticks, typed } : { state, ticks };
}

/**
 * @param {FormState} before
 * @param {FormState} mine
 * @param {FormState} theirs
 * @returns {FormState}
 */
function joinedFields(before, mine, theirs) {
  const joinedOnes = { ...theirs };
  for (const name of new Set([...Object.keys(before), ...Object.keys(mine)])) {
    const value = mine[name];
    if (value === before[name]) continue;
    if (value === undefined) Reflect.deleteProperty(joinedOnes, name);
    else joinedOnes[name] = value;
  }
  return joinedOnes;
}
