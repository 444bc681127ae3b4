// How a timer is heard: by a sound, and by a notification when its page is hidden.

/** @import { Timer } from "./timer_clock.js" */

/** How often it sounds, and after how many ms again, if nobody answers. */
const SOUNDS = 6;
const BETWEEN_MS = 5_000;

/** Three tones: after how many s each, and how high in Hz. @type {[number, number][]} */
const TONES = [
  [0, 880],
  [0.22, 880],
  [0.44, 1175],
];

/** @type {AudioContext | null} */
let sound = null;

/** Those of this page; a service worker keeps its own. @type {Map<string, Notification>} */
const notifications = new Map();

/** Lets it be heard later: a browser allows no sound before the reader has touched the page. */
export function allowSound() {
  if (!globalThis.AudioContext) return;
  sound ??= new AudioContext();
  if (sound.state === "suspended") sound.resume();
}

/** Whether it would be heard in this page. */
export function isAudible() {
  return sound?.state === "running";
}

/**
 * Sounds, and again until somebody answers.
 *
 * @param {() => boolean} isAnswered
 */
export function ring(isAnswered, times = SOUNDS) {
  if (!times || isAnswered()) return;
  if (sound && isAudible()) for (const [afterS, pitchHz] of TONES) playTone(sound, sound.currentTime + afterS, pitchHz);
  setTimeout(ring, BETWEEN_MS, isAnswered, times - 1);
}

/**
 * @param {AudioContext} context
 * @param {number} startS
 * @param {number} pitchHz
 */
function playTone(context, startS, pitchHz) {
  const tone = new OscillatorNode(context, { frequency: pitchHz });
  const loudness = new GainNode(context, { gain: 0 });
  loudness.gain.setValueAtTime(0, startS);
  loudness.gain.linearRampToValueAtTime(0.3, startS + 0.02);
  loudness.gain.linearRampToValueAtTime(0, startS + 0.17);
  tone.connect(loudness).connect(context.destination);
  tone.start(startS);
  tone.stop(startS + 0.18);
}

/**
 * Shows a notification of a timer, where the reader allowed it. A later one replaces an earlier one of the same timer,
 * with a sound; a click on it leads to the recipe.
 *
 * @param {string} title
 * @param {Timer} timer
 */
export async function notify(title, { id, label, href }) {
  if (globalThis.Notification?.permission !== "granted") return;
  const options = { body: label, tag: id, renotify: true, data: { href } };
  const worker = await navigator.serviceWorker?.getRegistration();
  if (worker?.active) {
    await worker.showNotification(title, options); // The service worker answers a click on it.
    return;
  }
  const notification = new Notification(title, options);
  notifications.set(id, notification);
  notification.addEventListener("click", () => {
    focus();
    if (new URL(href, location.href).pathname !== location.pathname) location.assign(href);
  });
}

/**
 * Takes back the notification of a timer that somebody has answered.
 *
 * @param {string} id
 */
export async function withdraw(id) {
  notifications.get(id)?.close();
  notifications.delete(id);
  const worker = await navigator.serviceWorker?.getRegistration();
  for (const notification of (await worker?.getNotifications({ tag: id })) ?? []) notification.close();
}

/**
 * A button that asks the browser to allow notifications; null where it cannot or has been asked before.
 *
 * @param {(sentence: string) => void} say
 */
export function notificationButton(say) {
  if (globalThis.Notification?.permission !== "default" || !isSecureContext) return null;
  const button = document.createElement("button");
  button.type = "button";
  button.className = "cc-button cc-offer";
  button.textContent = "Notify me when this page is hidden";
  button.addEventListener("click", async () => {
    const answer = await Notification.requestPermission();
    if (answer === "default") return; // The question was put aside; it may be asked again.
    const isGranted = answer === "granted";
    say(isGranted ? "Timers now notify you when this page is hidden." : "This browser does not allow notifications. Timers still ring here.");
    button.remove();
  });
  return button;
}
