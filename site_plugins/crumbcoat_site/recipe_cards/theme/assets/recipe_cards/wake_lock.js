// Keeps the screen on while bench view is open, for as long as the reader wants that; says whether it can.

/** @import { DeviceStore } from "./device.js" */

import { make } from "./elements.js";

/**
 * Fills `place` with a switch and a sentence. It ends with `end()`.
 *
 * @param {HTMLElement} place
 * @param {DeviceStore} device
 */
export function keepAwake(place, device) {
  if (!("wakeLock" in navigator)) {
    place.append(make("span", {}, "The screen may turn off: this browser cannot keep it on."));
    return { end() {} };
  }
  const box = make("input", { type: "checkbox", role: "switch" });
  const sentence = make("span", { role: "status" });
  box.checked = device.get("awake") !== false;
  place.append(make("label", {}, box, "Keep the screen on"), sentence);

  /** @type {WakeLockSentinel | null} */
  let lock = null;
  let isEnded = false;
  const isHeld = () => lock !== null && !lock.released;

  const show = () => {
    sentence.textContent = isHeld() ? "on" : box.checked ? "not active right now" : "off";
    place.dataset.awake = isHeld() ? "on" : "off";
  };
  const hold = async () => {
    if (!box.checked || isEnded || document.visibilityState !== "visible" || isHeld()) return show();
    try {
      const requested = await navigator.wakeLock.request("screen");
      if (isEnded || !box.checked) return requested.release();
      lock = requested;
      lock.addEventListener("release", show);
    } catch (error) {
      if (!(error instanceof DOMException)) throw error; // Refused: the battery is low, or the page is hidden.
    }
    return show();
  };
  box.addEventListener("change", async () => {
    device.set("awake", box.checked);
    if (!box.checked) await lock?.release();
    await hold();
  });
  document.addEventListener("visibilitychange", hold);
  hold();
  return {
    end() {
      isEnded = true;
      document.removeEventListener("visibilitychange", hold);
      lock?.release();
    },
  };
}
