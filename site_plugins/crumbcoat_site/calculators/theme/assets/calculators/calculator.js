// <recipe-calculator name="batch" context="…" data-digest="…" data-state="printed"><form id="…">…</form></recipe-calculator>
//
// Keeps a printed page in step with what the reader changes in the form. Python (crumbcoat_calc.bridge) computes every text; this
// script carries edits there and texts back, and knows no number. Fields belong to the form, wherever they stand, by
// the standard `form` attribute. Outputs stand anywhere in the same article:
//
//   data-text="name"      the text itself        tbody data-rows="name"   rows of cells, the first a row header
//   data-picture="name"   an SVG picture         data-problem="field"     what is wrong with a field; "" for the rest
//   data-sections="name"  as many copies of the <template> inside as there are sections; in each, data-part="name" is a
//                         text or a tbody of rows
//   a data-download="name" the text as a file to save
//   data-progress         how far the start is, or why there is none
//
// `context` is what the reader does not edit, such as the recipe, as JSON; `data-digest` names each field of it and the
// digest of its content ("recipe:3f2a…,prices:90b1…"). Without a `context` the first one in the same article counts.
// A field without a name but with data-context-from="recipe" holds the address of a card.json: the recipe of that card
// becomes the field `recipe` of the context.
// `data-follows="batch"`: this calculator takes over the state of that one in the same article whenever it changed,
// fields of its own aside.
//
// <button type="button" data-hand-to="batch" data-field="finished_mass" data-text-of="cake.mass_needed"> hands the text
// of that name, which stands in it, to a field of the calculator `batch`, as if it were typed there.
//
// `state` holds what the reader changed, in Python's canonical form, or is set to compute anew (to undo, to open a
// link); the event `recipe-state` ({ detail: { state, cause } }) tells of every change of it, cause "edit" or "set";
// `recipe-refused` ({ detail: { cause, path, problem, remedy } }) of what could not be used, and may be prevented.
import { ask, status, warm } from "./client.js";
import { showRows, showSections } from "./rows.js";

class RecipeCalculator extends HTMLElement {
  #state = {};
  #wanted = null; // A state that was set and is not computed yet.
  #edits = new Map(); // What the reader changed since the last request, the latest of each field.
  #told = new WeakMap(); // The value that each field last told by "input".
  #sent = new Map(); // The edits of the request that is under way.
  #refused = new Map(); // What stands in fields but could not be used; another change may make it right.
  #busy = false;
  #texts = {};
  #shown = 0; // The number of the reply that is shown; Python sends only the texts that differ from it.
  #outputs = null;
  #following = 0; // The timer that waits before this one follows another.

  connectedCallback() {
    for (const type of ["input", "change", "click", "focusin", "focusout", "pointerdown", "reset", "submit"]) {
      document.addEventListener(type, this);
    }
    document.addEventListener("recipe-state", this);
    status.addEventListener("state", this);
    status.addEventListener("progress", this);
    this.#showStatus();
    whenIdle(warm);
  }

  disconnectedCallback() {
    for (const type of ["input", "change", "click", "focusin", "focusout", "pointerdown", "reset", "submit"]) {
      document.removeEventListener(type, this);
    }
    document.removeEventListener("recipe-state", this);
    clearTimeout(this.#following);
    status.removeEventListener("state", this);
    status.removeEventListener("progress", this);
  }

  get form() {
    return this.querySelector("form");
  }

  get #context() {
    const scope = this.closest("article") ?? document;
    const source = this.hasAttribute("context") ? this : scope.querySelector("recipe-calculator[context]");
    return { digest: source.dataset.digest, content: source.getAttribute("context") };
  }

  get state() {
    return { ...this.#state };
  }

  set state(state) {
    this.#edits.clear();
    this.#wanted = { ...state };
    this.#work();
  }

  handleEvent(event) {
    if (event.target === status) return this.#showStatus();
    if (event.type === "recipe-state") return this.#follow(event);
    const field = event.target.closest?.("input, select, textarea, button");
    if (event.target === this.form) {
      if (event.type === "submit") event.preventDefault();
      if (event.type === "reset") this.state = {};
      return undefined;
    }
    if (event.type === "click" && field?.dataset.handTo === this.getAttribute("name")) return this.#take(field.dataset, field);
    if (event.type === "pointerdown" && this.contains(event.target)) warm();
    if (!field || field.form !== this.form) return undefined;
    if (event.type === "focusin" || event.type === "pointerdown") warm();
    if (event.type === "change" && field.dataset.contextFrom) this.#takeRecipe(field).catch((error) => this.#showStatus(error.message));
    // What a field told by "input" it does not mean anew when it is left: other fields may have changed it since.
    const again = event.type === "change" && this.#told.get(field) === field.value && field.type !== "checkbox";
    if (event.type === "input") this.#told.set(field, field.value);
    if ((event.type === "input" || event.type === "change") && field.name && !again) {
      this.#edits.set(field.name, valueOf(field));
      this.#work();
    }
    if (event.type === "focusout") this.#fill(field, null);
    return undefined;
  }

  /** The recipe of the card.json that a field names takes its place in the context, and the reader's changes go. */
  async #takeRecipe(field) {
    const card = field.value && (await (await fetch(new URL(field.value, document.baseURI))).json());
    const slot = field.dataset.contextFrom;
    const content = { ...JSON.parse(this.getAttribute("context")), [slot]: card ? card.recipe : null };
    const digests = this.dataset.digest.split(",").filter((part) => !part.startsWith(`${slot}:`));
    this.setAttribute("context", JSON.stringify(content));
    this.dataset.digest = [...digests, `${slot}:${card ? card.recipe_digest : "none"}`].sort().join(",");
    this.state = {};
  }

  /** Waits until the other is at rest, since it has to answer within a frame. */
  #follow({ target, detail }) {
    const { follows } = this.dataset;
    if (!follows || target.getAttribute("name") !== follows || !this.closest("article")?.contains(target)) return;
    clearTimeout(this.#following);
    this.#following = setTimeout(() => {
      const own = Object.entries(this.#state).filter(([name]) => this.form.elements[name]);
      const typed = new Map([...this.#refused, ...this.#sent, ...this.#edits]); // It stands in fields, not in the state.
      this.state = { ...detail.state, ...Object.fromEntries(own) };
      this.#edits = typed;
    }, 200);
  }

  /** An edit that a button hands over. */
  #take({ field, textOf }, button) {
    const text = button.querySelector(`[data-text="${textOf}"]`)?.textContent;
    if (!text) return;
    this.#edits.set(field, text);
    this.#work();
  }

  /** One request at a time; what comes meanwhile is gathered, so that nothing typed is lost and the last word counts. */
  async #work() {
    if (this.#busy) return;
    this.#busy = true;
    try {
      while (this.#wanted || this.#edits.size) {
        const wanted = this.#wanted;
        const edits = wanted ? new Map() : this.#edits;
        this.#wanted = null;
        if (!wanted) this.#edits = new Map();
        const done = await this.#send(wanted ?? this.#state, edits, wanted ? "set" : "edit");
        // One field of several was refused: each goes by itself, so that the others count.
        if (!done && edits.size > 1) {
          for (const edit of edits) {
            if (!this.#wanted && !this.#edits.has(edit[0])) await this.#send(this.#state, new Map([edit]), "edit");
          }
        }
        if (done && !wanted) await this.#tryAgain();
      }
    } catch (error) {
      this.#showStatus(error.message);
    } finally {
      this.#busy = false;
    }
  }

  /** What was refused may be right now, as a tier is once the one below it is wider; and that may make others right. */
  async #tryAgain() {
    for (let accepted = true; accepted; ) {
      accepted = false;
      for (const [name, value] of [...this.#refused]) {
        const stands = [...this.form.elements].some((field) => field.name === name && valueOf(field) === value);
        if (!stands) this.#refused.delete(name);
        else if (this.#wanted || this.#edits.has(name)) continue;
        else accepted = (await this.#send(this.#state, new Map([[name, value]]), "edit")) || accepted;
      }
    }
  }

  async #send(state, edits, cause) {
    this.#sent = edits;
    const edit = Object.fromEntries(edits);
    const reply = await ask(this.#context, { calculator: this.getAttribute("name"), state, edit, shown: this.#shown });
    this.#sent = new Map();
    if (reply.error) {
      const refused = new CustomEvent("recipe-refused", {
        bubbles: !this.dataset.follows, cancelable: true, detail: { cause, ...reply.error },
      });
      if (edits.size < 2 && this.dispatchEvent(refused)) this.#refuse(reply.error, edits);
      return false;
    }
    if (cause === "set") this.#refused.clear();
    for (const name of edits.keys()) {
      this.#refused.delete(name);
      this.#complain(name, "");
    }
    if (cause === "set") for (const field of this.form.elements) this.#complain(field.name, "");
    this.#complain("", "");
    this.#state = reply.state;
    this.#shown = reply.number;
    this.#show(reply.texts, cause === "set");
    const detail = { state: this.state, cause };
    this.dispatchEvent(new CustomEvent("recipe-state", { bubbles: !this.dataset.follows, detail }));
    return true;
  }

  /** Told beside the field that was touched: there it can be mended, and what is typed there stays. */
  #refuse({ path, problem, remedy }, edits) {
    for (const [name, value] of edits) this.#refused.set(name, value);
    this.#complain([...edits.keys()][0] ?? path.join("."), `${problem}: ${remedy}`);
  }

  /** Marks a field with a problem, or clears it with "". */
  #complain(name, sentence) {
    for (const field of this.form.elements) {
      if (!name || field.name !== name) continue;
      field.setCustomValidity?.(sentence);
      if (sentence) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }
    const { problems } = this.#places();
    const place = problems.get(name) ?? (sentence || !name ? problems.get("") : undefined);
    if (place && place.textContent !== sentence) place.textContent = sentence;
  }

  #show(texts, all) {
    this.#texts = { ...this.#texts, ...texts };
    const { named, pictures, tables, sections, files } = this.#places();
    for (const [name, text] of Object.entries(texts)) {
      for (const output of named.get(name) ?? []) if (output.textContent !== text) output.textContent = text;
      for (const output of pictures.get(name) ?? []) if (output.innerHTML !== text) output.innerHTML = text;
      for (const output of tables.get(name) ?? []) showRows(output, text);
      for (const output of sections.get(name) ?? []) showSections(output, text);
      for (const link of files.get(name) ?? []) {
        link.href = `data:application/yaml;charset=utf-8,${encodeURIComponent(text)}`;
        link.hidden = !text;
      }
    }
    for (const field of this.form.elements) this.#fill(field, all ? null : document.activeElement);
  }

  /** Gives a field its text, unless the reader is in it or it holds something that must be mended first. */
  #fill(field, busy) {
    const text = this.#texts[field.name];
    if (text === undefined || field === busy || field.validity?.customError) return;
    if (this.#edits.has(field.name) || this.#sent.has(field.name)) return;
    if (field.type === "checkbox" || field.type === "radio") field.checked = field.value === text;
    else if (field.value !== text) field.value = text;
  }

  #places() {
    if (this.#outputs) return this.#outputs;
    const scope = this.closest("article") ?? document;
    const ours = (output) => [null, this].includes(output.closest("recipe-calculator"));
    const by = (attribute) => {
      const found = [...scope.querySelectorAll(`[data-${attribute}]`)].filter(ours);
      return Map.groupBy
        ? Map.groupBy(found, (output) => output.dataset[attribute])
        : found.reduce((map, output) => {
            const name = output.dataset[attribute];
            return map.set(name, [...(map.get(name) ?? []), output]);
          }, new Map());
    };
    const problems = new Map([...by("problem")].map(([name, [first]]) => [name, first]));
    this.#outputs = { named: by("text"), pictures: by("picture"), tables: by("rows"), sections: by("sections"), files: by("download"), problems };
    return this.#outputs;
  }

  #showStatus(sentence = status.sentence) {
    const { state, loaded, total } = status;
    this.dataset.state = state === "idle" ? "printed" : state;
    const progress = this.querySelector("[data-progress]");
    if (!progress) return;
    const kilobytes = (bytes) => Math.ceil(bytes / 1000).toLocaleString("en");
    const fetching = `Fetching the calculator: ${kilobytes(loaded)} of ${kilobytes(total)} kB`;
    const starting = loaded < total ? fetching : "Starting the calculator";
    progress.textContent = { idle: "", starting: total ? starting : "Starting the calculator", live: "" }[state] ?? sentence;
  }
}

/** What a form gives for a field; nothing for a box that is not ticked. */
function valueOf(field) {
  return field.type === "checkbox" && !field.checked ? "" : field.value;
}

/** Begins when the page is done and nobody waits for it; never where the reader asked to save data or the line is slow. */
function whenIdle(begin) {
  const line = navigator.connection;
  if (line?.saveData || /2g|3g/.test(line?.effectiveType ?? "")) return;
  const wait = () => (globalThis.requestIdleCallback ? requestIdleCallback(begin) : setTimeout(begin, 2000));
  if (document.readyState === "complete") wait();
  else addEventListener("load", wait, { once: true });
}

customElements.define("recipe-calculator", RecipeCalculator);
