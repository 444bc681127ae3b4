// Keeps the screen awake while the bench is open, as long as the reader wants it; says so, also where it cannot.
import { keep, kept } from "./state.js";

/** Fills `place` with a switch and a sentence; ends with `end()`. */
export function keepAwake(place) {
  const sentence = document.createElement("span");
  if (!("wakeLock" in navigator)) {
    sentence.textContent = "The screen may go dark here: this browser cannot keep it on.";
    place.append(sentence);
    return { end() {} };
  }
  const label = document.createElement("label");
  const box = document.createElement("input");
  box.type = "checkbox";
  box.setAttribute("role", "switch");
  box.checked = kept("awake") ?? true;
  sentence.setAttribute("role", "status");
  label.append(box, "Keep the screen on");
  place.append(label, sentence);
  let lock = null;
  let ended = false;

  const say = () => {
    const held = lock && !lock.released;
    sentence.textContent = held ? "on" : box.checked ? "not on just now" : "off";
    place.dataset.awake = held ? "on" : "off";
  };
  const hold = async () => {
    if (!box.checked || ended || document.visibilityState !== "visible" || (lock && !lock.released)) return say();
    try {
      const got = await navigator.wakeLock.request("screen");
      if (ended || !box.checked) return got.release();
      lock = got;
      lock.addEventListener("release", say);
    } catch (error) {
      if (!(error instanceof DOMException)) throw error; // Refused: the battery is low, or the page is hidden.
    }
    return say();
  };
  box.addEventListener("change", async () => {
    keep("awake", box.checked);
    if (!box.checked) await lock?.release();
    await hold();
  });
  document.addEventListener("visibilitychange", hold);
  hold();
  return {
    end() {
      ended = true;
      document.removeEventListener("visibilitychange", hold);
      lock?.release();
    },
  };
}
