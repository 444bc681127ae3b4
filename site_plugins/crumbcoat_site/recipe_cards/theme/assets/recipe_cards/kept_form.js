// What is chosen in the form of a calculator's own page, kept on the device over a reload: the recipe and the form state.

/** @import { DeviceStore } from "./device.js" */
/** @import { Calculator } from "./pending_state.js" */

/** @typedef {Record<string, string>} Texts */
/** @typedef {{ chosen: Texts, state: Texts }} Kept `chosen`: the address of a recipe, by the slot of the context */

/**
 * What the device kept; null if that cannot be read.
 *
 * @param {unknown} record
 * @returns {Kept | null}
 */
export function keptFrom(record) {
  const { chosen, state } = /** @type {Partial<Kept>} */ (record ?? {});
  return areTexts(chosen) && areTexts(state) ? { chosen, state } : null;
}

/**
 * @param {unknown} value
 * @returns {value is Texts}
 */
function areTexts(value) {
  return typeof value === "object" && value !== null && Object.values(value).every((text) => typeof text === "string");
}

/**
 * Keeps the form around a calculator from now on, and shows first what was kept.
 *
 * @param {HTMLElement & Calculator} calculator
 * @param {DeviceStore} device
 * @param {string} name in the store
 * @param {() => void} onShown what was kept is shown, or cannot be
 */
export function keepForm(calculator, device, name, onShown) {
  const selects = /** @type {NodeListOf<HTMLSelectElement>} */ (calculator.querySelectorAll("select[data-context-from]"));
  const kept = keptFrom(device.get(name));
  let step = kept ? "recipe" : "";
  calculator.addEventListener("recipe-state", (event) => {
    const { state } = /** @type {CustomEvent} */ (event).detail;
    if (step === "recipe") return showState();
    save(state);
    return end();
  });
  for (const type of ["recipe-refused", "recipe-unavailable"]) calculator.addEventListener(type, () => end());
  for (const select of selects) select.addEventListener("error", () => end());

  /** A recipe that is chosen and on its way is not that of the state. @param {Texts} state */
  function save(state) {
    const chosen = Object.fromEntries([...selects].map(({ dataset, value }) => [dataset.contextFrom, dataset.shown ?? value]));
    device.set(name, { chosen, state });
  }
  function end() {
    step = "";
    onShown();
  }
  function showState() {
    step = "state";
    calculator.restore(kept?.state ?? {}, {});
  }
  if (!kept) return save(calculator.state);
  const changed = [...selects].filter(({ dataset, value, options }) => {
    const wanted = kept.chosen[dataset.contextFrom ?? ""];
    return wanted !== value && [...options].some((option) => option.value === wanted);
  });
  for (const select of changed) {
    select.value = kept.chosen[select.dataset.contextFrom ?? ""] ?? "";
    select.dispatchEvent(new Event("change", { bubbles: true }));
  }
  return changed.length ? undefined : showState();
}
