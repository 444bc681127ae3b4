// Timers: several at once, on every page of the site, told by their end in absolute time, so that a reload or another
// page changes nothing. A step with a range of times rings at its shorter time, to look, and at its longer.
import { keep, kept, whenKeptElsewhere } from "./state.js";

const MINUTE = 60_000;
const RINGS = 6; // How often it sounds, if nobody answers.
const BETWEEN = 5_000;

/** { id, label, href, first, last, told, left }: ends in ms; `told` of them were rung; `left` [ms, ms] while paused. */
let timers = kept("timers") ?? [];
let sound = null;
let title = ""; // What this module made of the document's title, and what it was.
let plain = "";

const tray = document.createElement("section");
tray.className = "cc-tray";
tray.setAttribute("aria-label", "Timers");
tray.innerHTML = `<ul></ul><p class="cc-unseen" role="status"></p><p class="cc-unseen" role="alert"></p>`;
const list = tray.querySelector("ul");
const [calm, loud] = tray.querySelectorAll("p");
const views = new Map();
const notices = new Map();

/** Starts one; the times are in s. */
export function start({ label, href, shortest, longest }) {
  const now = Date.now();
  wakeSound();
  const timer = { id: `${now}-${timers.length}`, label, href, first: now + shortest * 1000, last: now + longest * 1000, told: 0, left: null };
  timers.push(timer);
  save();
  calm.textContent = `Timer started: ${label}.`;
}

/** Puts the tray into another element: only what is in an open dialog can be reached. */
export function host(element) {
  element.append(tray);
}

function save() {
  keep("timers", timers);
  look();
}

/** Shows all, and rings for those whose time has come. */
function look() {
  const now = Date.now();
  for (const timer of timers) {
    if (timer.left) continue;
    const due = now >= timer.last ? 2 : now >= timer.first ? 1 : 0;
    if (due <= timer.told) continue;
    const elsewhere = (kept("timers") ?? []).find(({ id }) => id === timer.id);
    timer.told = due;
    keep("timers", timers);
    ring(timer, elsewhere?.told >= due);
  }
  for (const [id, view] of views) {
    if (timers.some((timer) => timer.id === id)) continue;
    view.row.remove();
    views.delete(id);
  }
  for (const timer of timers) show(timer, now);
  tray.hidden = !timers.length;
  document.documentElement.classList.toggle("cc-timing", timers.length > 0);
  document.documentElement.style.setProperty("--cc-tray", `${tray.offsetHeight}px`);
  showTitle(now);
}

function phase(timer, now) {
  if (timer.left) return "paused";
  if (now < timer.first) return "running";
  return now < timer.last ? "look" : "over";
}

function show(timer, now) {
  const view = views.get(timer.id) ?? build(timer);
  const at = phase(timer, now);
  const [first, last] = timer.left ?? [timer.first - now, timer.last - now];
  view.row.dataset.phase = at;
  view.clock.textContent = clock(at === "look" || (at === "paused" && first <= 0) ? last : first > 0 ? first : -last);
  view.note.textContent = {
    running: last > first ? `, then look; at most ${clock(last)}` : "",
    look: "to go at most: look now",
    over: "over",
    paused: "paused",
  }[at];
  view.pause.textContent = timer.left ? "Go on" : "Pause";
  view.pause.hidden = at === "over";
}

function build(timer) {
  const row = document.createElement("li");
  row.innerHTML = `
    <p><a></a></p>
    <p class="cc-clock"><span role="timer"></span> <small></small></p>
    <p class="cc-timer-do"><button type="button" class="cc-button"></button>
    <button type="button" class="cc-button">1 min more</button>
    <button type="button" class="cc-button">Dismiss</button></p>`;
  const link = row.querySelector("a");
  link.href = timer.href;
  link.textContent = timer.label;
  const [pause, more, dismiss] = row.querySelectorAll("button");
  for (const [button, words] of [[pause, "pause or go on"], [more, "one minute more"], [dismiss, "dismiss"]]) {
    button.setAttribute("aria-description", `${words}: ${timer.label}`);
  }
  const its = (act) => () => {
    wakeSound();
    const found = timers.find(({ id }) => id === timer.id);
    if (found) act(found, Date.now());
    withdraw(timer.id);
    save();
  };
  pause.addEventListener("click", its((one, now) => {
    if (one.left) [one.first, one.last, one.left] = [now + one.left[0], now + one.left[1], null];
    else one.left = [one.first - now, one.last - now];
  }));
  more.addEventListener("click", its((one, now) => {
    if (one.left) {
      one.left = one.left.map((left) => (left > 0 ? left + MINUTE : left));
    } else if (now >= one.last) {
      Object.assign(one, { first: now + MINUTE, last: now + MINUTE, told: 0 });
    } else {
      if (now < one.first) one.first += MINUTE;
      one.last += MINUTE;
    }
    calm.textContent = `One minute more: ${one.label}.`;
  }));
  dismiss.addEventListener("click", its((one) => {
    timers = timers.filter(({ id }) => id !== one.id);
    calm.textContent = `Timer dismissed: ${one.label}.`;
  }));
  const view = { row, clock: row.querySelector("[role=timer]"), note: row.querySelector("small"), pause };
  views.set(timer.id, view);
  list.append(row);
  return view;
}

/** 65 000 ms is 1:05; more than an hour 1:00:05. A part of a second counts as one that is still to go. */
function clock(ms) {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  const two = (number) => String(number).padStart(2, "0");
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor(seconds / 60) % 60;
  return hours ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
}

/** The nearest end stands in the title, for those who look at another tab. */
function showTitle(now) {
  if (document.title !== title) plain = document.title;
  const at = (timer) => (now < timer.first ? timer.first : timer.last);
  const running = timers.filter((timer) => !timer.left).sort((one, other) => at(one) - at(other));
  const [next] = running;
  const words = next && (phase(next, now) === "over" ? "Time is up" : clock(at(next) - now));
  title = next ? `${words} · ${plain}` : plain;
  if (document.title !== title) document.title = title;
}

function ring(timer, toldElsewhere) {
  const words = timer.told === 2 ? "Time is up" : "The shorter time is over: look now";
  loud.textContent = `${words}. ${timer.label}.`;
  if (toldElsewhere) return;
  beep(timer.id, timer.told, RINGS);
  if (document.visibilityState === "hidden") notify(words, timer);
}

function wakeSound() {
  if (!globalThis.AudioContext) return;
  sound ??= new AudioContext();
  if (sound.state === "suspended") sound.resume();
}

/** Three short tones, again and again until somebody answers or it has sounded often enough. */
function beep(id, told, times) {
  const timer = timers.find((one) => one.id === id);
  if (!timer || timer.told !== told || timer.left || !times) return;
  if (sound?.state === "running") {
    for (const [at, pitch] of [[0, 880], [0.22, 880], [0.44, 1175]]) {
      const tone = new OscillatorNode(sound, { frequency: pitch });
      const loudness = new GainNode(sound, { gain: 0 });
      const begin = sound.currentTime + at;
      loudness.gain.setValueAtTime(0, begin);
      loudness.gain.linearRampToValueAtTime(0.3, begin + 0.02);
      loudness.gain.linearRampToValueAtTime(0, begin + 0.17);
      tone.connect(loudness).connect(sound.destination);
      tone.start(begin);
      tone.stop(begin + 0.18);
    }
  }
  setTimeout(beep, BETWEEN, id, told, times - 1);
}

/** A notice of a timer: a later one takes the place of an earlier one, aloud. A click on it leads to the recipe. */
async function notify(words, { id, label, href }) {
  if (globalThis.Notification?.permission !== "granted") return;
  const told = { body: label, tag: id, renotify: true, data: { href } };
  const worker = await navigator.serviceWorker?.getRegistration();
  if (worker?.active) return worker.showNotification(words, told); // A click is answered by the service worker.
  const notice = new Notification(words, told);
  notices.set(id, notice);
  notice.addEventListener("click", () => {
    focus();
    if (new URL(href, location).pathname !== location.pathname) location.assign(href);
  });
}

/** Takes back the notice of a timer that somebody has answered. */
async function withdraw(id) {
  notices.get(id)?.close();
  notices.delete(id);
  const worker = await navigator.serviceWorker?.getRegistration();
  for (const notice of (await worker?.getNotifications({ tag: id })) ?? []) notice.close();
}

/** A button to be told also when the page is hidden, where that is possible and not yet decided. */
function offerNotices() {
  if (globalThis.Notification?.permission !== "default" || !isSecureContext) return;
  const offer = document.createElement("button");
  offer.type = "button";
  offer.className = "cc-button cc-offer";
  offer.textContent = "Tell me also when this page is hidden";
  offer.addEventListener("click", async () => {
    const answer = await Notification.requestPermission();
    if (answer === "default") return; // The question was put aside; it may be asked again.
    calm.textContent =
      answer === "granted" ? "Timers will tell you also when this page is hidden." : "This browser lets no timer tell you when the page is hidden.";
    offer.remove();
  });
  tray.append(offer);
}

/** The style sheet of the tray and of the bench; who imports this module has it. */
await new Promise((done) => {
  const sheet = Object.assign(document.createElement("link"), { rel: "stylesheet", onload: done, onerror: done });
  sheet.href = new URL("bench.css", import.meta.url);
  document.head.append(sheet);
});
document.body.append(tray);
offerNotices();
whenKeptElsewhere("timers", () => {
  timers = kept("timers") ?? [];
  look();
});
for (const type of ["pointerdown", "keydown"]) addEventListener(type, () => timers.length && wakeSound());
setInterval(() => timers.length && look(), 500);
look();
