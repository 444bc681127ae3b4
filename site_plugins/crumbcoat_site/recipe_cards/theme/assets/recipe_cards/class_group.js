// The group of a class that a device is in: its number and the clock of its plan, from a link (texts/class_links.py), and what
// the group found. It stays on the device.

/** @import { DeviceStore } from "./device.js" */
/** @import { FormState } from "./form_state.js" */

import { partOf, withPart } from "./form_state.js";

/** What the fields of a link begin with that are about the class: no calculator has them. */
const CLASS = "class";

/** @typedef {{ group: string, at: string, found: Record<string, string> }} Kept */

export class ClassGroup {
  #device;
  #name;

  /**
   * @param {DeviceStore} device
   * @param {string} recipe
   */
  constructor(device, recipe) {
    this.#device = device;
    this.#name = `class:${recipe}`;
  }

  /** @returns {Kept} */
  get #kept() {
    const { group, at, found } = /** @type {Partial<Kept>} */ (this.#device.get(this.#name) ?? {});
    return { group: String(group ?? ""), at: String(at ?? ""), found: typeof found === "object" ? (found ?? {}) : {} };
  }

  /** "" without a class. */
  get number() {
    return this.#kept.group;
  }

  get title() {
    return this.number && `Group ${this.number}`;
  }

  /** What is in the fields of "What we found", by name. */
  get found() {
    return this.#kept.found;
  }

  set found(found) {
    this.#device.set(this.#name, { ...this.#kept, found });
  }

  /**
   * The rest of the state of a link, once the group is taken out of it. Throws a RangeError, as `stateFromLink` does.
   *
   * @param {FormState | null} state
   */
  join(state) {
    const { group, at = "", ...others } = state ? partOf(state, CLASS) : {};
    if (!state || group === undefined) return state;
    if (!/^[1-9]\d?$/.test(group) || !/^([\d*]{0,6}\.)*[\d*]{0,6}$/.test(at) || Object.keys(others).length) {
      throw new RangeError("what it says of the class is damaged");
    }
    const { found } = this.number === group ? this.#kept : { found: {} };
    this.#device.set(this.#name, { group, at, found });
    return withPart(state, CLASS, {});
  }

  leave() {
    this.#device.set(this.#name, null);
  }

  /**
   * When the plan of the class has a step, in words; "" if it says nothing of it.
   *
   * @param {number} step counted from 0
   */
  clockOf(step) {
    const [, lesson, hours, minutes] = this.#kept.at.split(".")[step]?.match(/^(?:(\d+)\*)?(\d\d)(\d\d)$/) ?? [];
    if (!hours) return "";
    return `In the plan of the class: ${lesson ? `lesson ${lesson}, ` : ""}${hours}:${minutes}`;
  }
}
