// The bench: one step at a time, large, over the whole screen. It shows copies of what stands on the page, so that
// amounts are those of the page, and is made anew whenever they change. The place and the ticks are the reader's.
import { keepAwake } from "./wake_lock.js";
import { host } from "./timers.js";

const FRAME = `
<header class="cc-bench-head">
  <p class="cc-bench-where" role="status"></p>
  <button type="button" class="cc-button cc-bench-close">Leave the bench</button>
  <div class="cc-bench-bar" aria-hidden="true"></div>
</header>
<section class="cc-bench-body" aria-labelledby="bench-title" tabindex="-1"></section>
<footer class="cc-bench-foot">
  <div class="cc-bench-awake"></div>
  <nav aria-label="Steps">
    <button type="button" class="cc-button cc-bench-back"><span aria-hidden="true">‹</span><b>Back</b></button>
    <button type="button" class="cc-button cc-bench-done"></button>
    <button type="button" class="cc-button cc-bench-on"><b>Skip</b><span aria-hidden="true">›</span></button>
  </nav>
</footer>`;

/** Opens the bench where the reader was last; gives it with `open`, `refresh` and `close`. */
export function open(reader) {
  const bench = new Bench(reader);
  bench.show();
  return bench;
}

class Bench {
  #reader;
  #dialog = make("dialog", { class: "cc-bench", "aria-label": "The bench" });
  #steps;
  #answer = null; // The answer to the checkpoint in view: "right", or the number of a trouble.
  #awake;

  constructor(reader) {
    this.#reader = reader;
    this.#steps = [...reader.article.querySelectorAll(".cc-task")];
  }

  get open() {
    return this.#dialog.open;
  }

  show() {
    const dialog = this.#dialog;
    dialog.innerHTML = FRAME;
    this.#reader.element.append(dialog);
    dialog.addEventListener("close", () => this.#left());
    dialog.addEventListener("keydown", (event) => this.#key(event));
    this.#part("close").addEventListener("click", () => dialog.close());
    this.#part("back").addEventListener("click", () => this.#go(-1));
    this.#part("on").addEventListener("click", () => this.#go(1));
    this.#part("done").addEventListener("click", () => this.#done());
    swipes(this.#part("body"), (by) => this.#go(by));
    this.#awake = keepAwake(this.#part("awake"));
    dialog.showModal();
    host(dialog);
    if (location.hash !== "#bench") history.replaceState(history.state, "", "#bench");
    this.refresh();
    this.#part("body").focus();
  }

  close() {
    if (this.#dialog.open) this.#dialog.close();
  }

  #left() {
    host(document.body);
    this.#awake.end();
    if (location.hash === "#bench") history.replaceState(history.state, "", location.pathname + location.search);
    this.#dialog.remove();
    if (this.#reader.isConnected) this.#reader.article.querySelector('[data-do="bench"]').focus();
  }

  #part(name) {
    return this.#dialog.querySelector(`.cc-bench-${name}`);
  }

  /** 0 is the ingredients, then the steps, at last the end. */
  get #at() {
    return Math.min(this.#reader.place, this.#steps.length + 1);
  }

  #go(by) {
    let to = this.#at + by;
    while (this.#steps[to - 1] && isOut(this.#steps[to - 1])) to += by; // What is left out is passed over.
    to = Math.max(0, Math.min(to, this.#steps.length + 1));
    if (to === this.#at) return;
    this.#answer = null;
    this.#reader.place = to;
    this.refresh();
    this.#part("body").scrollTop = 0;
  }

  #done() {
    const step = this.#steps[this.#at - 1];
    if (this.#at > this.#steps.length) return this.#dialog.close();
    if (step && !this.#reader.ticks.includes(tickOf(step))) this.#reader.tick(tickOf(step), true);
    return this.#go(1);
  }

  #key(event) {
    const typed = event.target.matches("input:not([type=checkbox])");
    if (typed || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "ArrowRight" || event.key === "ArrowLeft") {
      event.preventDefault();
      this.#go(event.key === "ArrowRight" ? 1 : -1);
    }
  }

  refresh() {
    if (!this.open) return;
    const at = this.#at;
    const body = this.#part("body");
    const focus = document.activeElement?.dataset?.focus;
    const step = this.#steps[at - 1];
    body.className = `cc-bench-body ${step ? "cc-bench-step" : at ? "cc-bench-end" : "cc-bench-first"}`;
    body.replaceChildren(make("div", {}, ...(step ? this.#step(step) : at ? this.#end() : this.#first())));
    if (focus) body.querySelector(`[data-focus="${focus}"]`)?.focus();
    this.#part("back").setAttribute("aria-disabled", at === 0);
    this.#part("on").setAttribute("aria-disabled", at > this.#steps.length);
    const done = step ? (this.#reader.ticks.includes(tickOf(step)) ? "Next" : "Done, next") : at ? "Leave" : "Begin";
    this.#part("done").textContent = done;
    this.#where(step);
  }

  #where(step) {
    const stages = [...this.#reader.article.querySelectorAll(".cc-steps")];
    const stage = stages.findIndex((list) => list.contains(step ?? null));
    const number = step ? [...step.parentElement.children].indexOf(step) + 1 : 0;
    const inStage = step ? step.parentElement.children.length : 0;
    const text = step ? `Stage ${stage + 1} of ${stages.length}, step ${number} of ${inStage}` : this.#at ? "The end" : "Before you begin";
    const where = this.#part("where");
    if (where.textContent !== text) where.textContent = text;
    this.#part("bar").replaceChildren(
      ...stages.map((list, at) => {
        const marks = [...list.children].map((one) =>
          make("i", { class: one === step ? "here" : this.#reader.ticks.includes(tickOf(one)) ? "done" : "" }),
        );
        return make("span", { class: at === stage ? "here" : "" }, ...marks);
      }),
    );
  }

  #first() {
    const rows = [...this.#reader.article.querySelectorAll(".cc-ingredients [data-tick]")].map((box) => {
      const row = box.closest("tr");
      const body = row.parentElement;
      const out = isOut(body);
      const parts = [...body.querySelectorAll(".cc-portion")].map((portion) => [...portion.cells].map((cell) => cell.textContent.trim()).join(" "));
      const words = make("span", { class: "cc-bench-words" }, make("b", {}, textOf(row, ".cc-ingredient")));
      const notes = [textOf(row, ".cc-preparation"), textOf(row, ".cc-household"), parts.join(" · ")];
      for (const note of notes) if (note) words.append(make("small", {}, note));
      return out ? null : this.#tickRow(box.dataset.tick, make("span", { class: "cc-amount" }, textOf(row, ".cc-printed")), words);
    });
    return [
      make("h2", { id: "bench-title" }, "Set everything out"),
      make("p", { class: "cc-bench-hint" }, "Weigh each ingredient and tick it off. Ticks are kept on this device."),
      make("ul", { class: "cc-bench-list" }, ...rows.filter(Boolean)),
    ];
  }

  #tickRow(name, ...words) {
    const box = make("input", { type: "checkbox", "data-tick": name, "data-focus": name });
    box.checked = this.#reader.ticks.includes(name);
    return make("li", {}, make("label", {}, box, ...words));
  }

  #step(step) {
    const copies = (selector) => [...step.querySelectorAll(selector)].map((part) => copyOf(part));
    const title = step.closest(".cc-stage").dataset.title;
    const [doing] = copies(".cc-doing");
    const side = make("div", { class: "cc-bench-side" }, ...copies(".cc-photo"), ...copies(".cc-margin"));
    const left = make("div", { class: "cc-bench-main" }, make("h2", { id: "bench-title" }, title), doing);
    const point = step.querySelector(".cc-checkpoint");
    if (point) left.append(this.#question(point));
    left.append(make("ul", { class: "cc-bench-list" }, this.#tickRow(tickOf(step), make("b", {}, "This step is done"))));
    return [left, side];
  }

  /** The checkpoint as a question: right, or like one of the troubles; a remedy, and then the question again. */
  #question(point) {
    const troubles = [...point.querySelectorAll(".cc-troubles dl > div")];
    const box = make("section", { class: "cc-question", "aria-labelledby": "bench-question" });
    const head = (text) => make("h3", { id: "bench-question", tabindex: "-1", "data-focus": "question" }, text);
    const answer = (value, label, kind) => {
      const button = make("button", { type: "button", class: `cc-button cc-answer ${kind}` }, make("span", {}, label));
      button.addEventListener("click", () => {
        this.#answer = value;
        this.refresh();
        this.#dialog.querySelector('[data-focus="question"]').focus();
      });
      return button;
    };
    if (this.#answer === null) {
      box.append(make("p", { class: "cc-checkpoint-title" }, "Checkpoint"), head("How does it look?"));
      const signs = [...point.querySelectorAll(".cc-passes li")].map((sign) => make("li", {}, sign.textContent));
      box.append(answer("right", "It looks right", "cc-answer-right"));
      if (signs.length) box.append(make("ul", { class: "cc-bench-signs" }, ...signs));
      troubles.forEach((trouble, at) => box.append(answer(at, textOf(trouble, "dt"), "cc-answer-trouble")));
    } else if (this.#answer === "right") {
      box.classList.add("cc-question-right");
      box.append(head("It looks right"), make("p", {}, "Go on when you are ready."), answer(null, "Look again", ""));
    } else {
      const trouble = troubles[this.#answer];
      box.classList.add("cc-question-remedy");
      box.append(
        make("p", { class: "cc-checkpoint-title" }, textOf(trouble, "dt")),
        head("It can still be rescued"),
        make("p", { class: "cc-remedy" }, textOf(trouble, "dd")),
        answer(null, "Then look again", ""),
      );
    }
    return box;
  }

  #end() {
    const again = make("button", { type: "button", class: "cc-button", "data-focus": "again" }, "Start again");
    again.addEventListener("click", () => {
      this.#reader.startAgain();
      this.#part("body").focus();
    });
    const made = textOf(this.#reader.article, ".cc-ingredients tfoot .cc-amount");
    const left = this.#steps.filter((step) => !isOut(step) && !this.#reader.ticks.includes(tickOf(step))).length;
    return [
      make("h2", { id: "bench-title" }, "That is the whole batch"),
      make("p", { class: "cc-bench-made" }, made),
      make("p", { class: "cc-bench-hint" }, left ? "Some steps are not ticked; go back to see which." : "Every step is ticked."),
      again,
    ];
  }
}

/** Whether an ingredient or a step is left out. */
function isOut(part) {
  return Boolean(part.querySelector(".cc-left-out")?.textContent);
}

function tickOf(step) {
  return step.querySelector("[data-tick]").dataset.tick;
}

function textOf(scope, selector) {
  return scope.querySelector(selector)?.textContent.trim().replace(/\s+/g, " ") ?? "";
}

/** A copy of a part of the page that answers to nobody there. */
function copyOf(part) {
  const copy = part.cloneNode(true);
  for (const one of [copy, ...copy.querySelectorAll("*")]) {
    for (const name of ["id", "data-text", "data-rows", "data-picture"]) one.removeAttribute(name);
    if (one.localName === "img") one.loading = "eager";
  }
  return copy;
}

function make(tag, attributes, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) if (value !== "") element.setAttribute(name, value);
  element.append(...children);
  return element;
}

/** A sideways stroke of one finger, but not on a page made larger, which it moves; the buttons do the same. */
function swipes(element, go) {
  let start = null;
  element.addEventListener("touchstart", (event) => {
    start = event.touches.length === 1 && visualViewport.scale < 1.05 ? event.touches[0] : null;
  }, { passive: true });
  element.addEventListener("touchcancel", () => (start = null), { passive: true });
  element.addEventListener("touchend", (event) => {
    const [end] = event.changedTouches;
    const across = start && end.clientX - start.clientX;
    const down = start && end.clientY - start.clientY;
    if (start && Math.abs(across) > 80 && Math.abs(across) > 3 * Math.abs(down)) go(across < 0 ? 1 : -1);
    start = null;
  }, { passive: true });
}
