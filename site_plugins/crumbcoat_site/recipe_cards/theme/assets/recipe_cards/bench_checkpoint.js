// A checkpoint in bench view, asked as a question: does it look right, or like one of the troubles? A trouble gives its
// remedy, and then the question comes again.

import { copyOf, textOf } from "./bench_screens.js";
import { find, findAll, make } from "./elements.js";

/**
 * "right", the number of a trouble, or null while the question is open.
 *
 * @typedef {"right" | number | null} Answer
 */

/**
 * @param {HTMLElement} checkpoint as it is on the page
 * @param {Answer} answer
 * @param {(answer: Answer) => void} onAnswer
 */
export function checkpointQuestion(checkpoint, answer, onAnswer) {
  const troubles = findAll(checkpoint, ".cc-troubles dl > div");
  const box = make("section", { class: "cc-question", "aria-labelledby": "bench-question" });
  const heading = (/** @type {string} */ text) => make("h3", { id: "bench-question", tabindex: "-1", "data-focus": "question" }, text);
  const title = (/** @type {string} */ text) => make("p", { class: "cc-checkpoint-title" }, text);
  const button = (/** @type {Answer} */ value, /** @type {string} */ label, kind = "") => {
    const made = make("button", { type: "button", class: `cc-button cc-answer ${kind}` }, make("span", {}, label));
    made.addEventListener("click", () => {
      note(checkpoint, value);
      onAnswer(value);
    });
    return made;
  };
  if (answer === null) {
    const signs = findAll(checkpoint, ".cc-passes li").map((sign) => make("li", {}, ...copyOf(sign).childNodes));
    box.append(title("Checkpoint"), heading("How does it look?"), button("right", "It looks right", "cc-answer-right"));
    if (signs.length) box.append(make("ul", { class: "cc-bench-signs" }, ...signs));
    box.append(...troubles.map((trouble, number) => button(number, textOf(trouble, "dt"), "cc-answer-trouble")));
  } else if (answer === "right") {
    box.classList.add("cc-question-right");
    box.append(heading("It looks right"), make("p", {}, "Continue when you are ready."), button(null, "Look again"));
  } else {
    const trouble = /** @type {HTMLElement} */ (troubles[answer]);
    box.classList.add("cc-question-remedy");
    box.append(
      title(textOf(trouble, "dt")),
      heading("It can still be rescued"),
      make("p", { class: "cc-remedy" }, ...copyOf(find(trouble, "dd")).childNodes),
      button(null, "Then look again"),
    );
  }
  return box;
}

/**
 * An answer is noted for the trial, where the card keeps one; what came of a remedy is chosen with it.
 *
 * @param {HTMLElement} checkpoint
 * @param {Answer} answer
 */
function note(checkpoint, answer) {
  const [right] = findAll(checkpoint, '[name^="trial.right."]', HTMLInputElement);
  if (answer === "right" && right && !right.checked) right.click();
  const seen = typeof answer === "number" && findAll(checkpoint, '[name^="trial.seen."]', HTMLSelectElement)[answer];
  if (!seen || seen.value) return;
  seen.value = "seen";
  seen.dispatchEvent(new Event("change", { bubbles: true }));
}
