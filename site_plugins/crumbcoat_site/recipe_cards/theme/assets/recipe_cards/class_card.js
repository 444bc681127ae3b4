// The card on a phone of a class: the group's number, what it found, kept on the device, and the code for the teacher.

/** @import { ClassGroup } from "./class_group.js" */
/** @import { FormState } from "./form_state.js" */

import { codeOf } from "./class_code.js";
import { copyOrSelect } from "./clipboard.js";
import { find, findAll } from "./elements.js";
import { notForAllRecipes } from "./form_state.js";
import { save, share, today } from "./trial.js";

/** Parts that work already. @type {WeakSet<HTMLElement>} */
const known = new WeakSet();

/**
 * @param {HTMLElement} article
 * @param {ClassGroup} group
 * @param {() => FormState} changes what is changed on the card
 */
export function showGroup(article, group, changes) {
  const part = partOf(article);
  if (part) show(part, group, changes);
}

/**
 * @param {HTMLElement} part
 * @param {ClassGroup} group
 * @param {() => FormState} changes
 */
function show(part, group, changes) {
  const fields = /** @type {(HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement)[]} */ (findAll(part, "[data-found]"));
  const name = (/** @type {HTMLElement} */ field) => field.dataset.found ?? "";
  const say = (/** @type {string} */ sentence) => (find(part, ".cc-class-said").textContent = sentence);
  for (const place of findAll(part, ".cc-class-group")) place.textContent = `${group.title}: what we found`;
  const { found } = group;
  for (const field of fields) field.value = found[name(field)] ?? (field instanceof HTMLSelectElement ? (field.options[0]?.value ?? "") : "");
  if (known.has(part)) return;
  known.add(part);
  part.addEventListener("input", () => {
    group.found = Object.fromEntries(fields.map((field) => [name(field), field.value]));
    find(part, ".cc-class-given").hidden = true;
    say("");
  });
  part.addEventListener("click", ({ target }) => {
    const button = target instanceof Element ? target.closest("button") : null;
    if (button) press(button.dataset.class ?? "");
  });

  /** @param {string} what */
  async function press(what) {
    const place = find(part, ".cc-class-code");
    const text = place.textContent;
    if (what === "give") give();
    if (what === "copy") say((await copyOrSelect(place)) ? "Copied. Paste it into a message to your teacher." : "Copy the text that is selected.");
    if (what === "save") save(`group-${group.number}.txt`, text, "text/plain");
    if (what === "share") say(await share(`Group ${group.number}`, text));
    if (what === "leave") leave();
  }

  function give() {
    const wrong = fields.find((field) => !field.checkValidity());
    if (wrong) {
      wrong.focus();
      return say(`${wrong.closest("label")?.querySelector("span")?.textContent}: write ${wrong.title}.`);
    }
    if (!fields.some((field) => !(field instanceof HTMLSelectElement) && field.value.trim())) return say("Write down first what you found.");
    const values = Object.fromEntries(fields.map((field) => [name(field), field.value]));
    const state = Object.entries(notForAllRecipes(changes())).map(([field, value]) => [`card.${field.replace(":", "/")}`, value]);
    const head = { title: part.dataset.title ?? "", group: group.number, made: moment() };
    if (!values["cup_weighs"]?.trim()) delete values["cup"];
    find(part, ".cc-class-code").textContent = codeOf({ ...head, ...Object.fromEntries(state), ...values });
    find(part, ".cc-class-given").hidden = false;
    find(part, '[data-class="share"]').hidden = !("share" in navigator);
    return say("");
  }

  function leave() {
    group.leave();
    part.remove();
  }
}

/**
 * The part of the card that is about the group, put into the page when it is first asked for; null if the card has none.
 *
 * @param {HTMLElement} article
 */
function partOf(article) {
  const template = article.querySelector("template[data-class-card]");
  if (!(template instanceof HTMLTemplateElement)) return null;
  if (!article.querySelector(".cc-class-card")) template.after(template.content.cloneNode(true));
  return find(article, ".cc-class-card");
}

/** The date and the time of day on the device: of two codes of a group the later one counts. */
export function moment(now = new Date()) {
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  return `${today(now)}T${two(now.getHours())}:${two(now.getMinutes())}:${two(now.getSeconds())}`;
}
