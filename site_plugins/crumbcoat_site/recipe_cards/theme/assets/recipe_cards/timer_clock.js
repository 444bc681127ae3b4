// The clock of timers: what time each of them shows, and when it rings. It knows the time only as it is given it, in ms
// since 1970: a timer is its end, so that a reload, another page or a sleeping computer changes nothing.
//
// A step with a range of times rings twice: after the shortest, when the reader should check, and after the longest.

const MINUTE = 60_000;

/**
 * How many of its two times are over.
 *
 * @typedef {0 | 1 | 2} Rings
 */

/**
 * @typedef {object} Timer
 * @property {string} id
 * @property {string} label
 * @property {string} href the step that it belongs to
 * @property {number} first when the shortest time is over
 * @property {number} last when the longest is over; the same where there is only one
 * @property {Rings} rung those that were rung
 * @property {[first: number, last: number] | null} left how long they are off, while the timer is paused
 */

/** @typedef {"running" | "check" | "over" | "paused"} Phase */

/**
 * @param {{ id: string, label: string, href: string, shortestS: number, longestS: number }} step
 * @param {number} now
 * @returns {Timer}
 */
export function newTimer({ id, label, href, shortestS, longestS }, now) {
  return { id, label, href, first: now + shortestS * 1000, last: now + longestS * 1000, rung: 0, left: null };
}

/**
 * The timer of a step that is not over yet, paused or not; none if there is no such timer.
 *
 * @param {readonly Timer[]} timers
 * @param {{ label: string, href: string }} step
 * @param {number} now
 */
export function timerOf(timers, step, now) {
  return timers.find((timer) => isOf(timer, step) && phaseOf(timer, now) !== "over");
}

/**
 * @param {Timer} timer
 * @param {{ label: string, href: string }} step
 */
export function isOf({ label, href }, step) {
  return label === step.label && href === step.href;
}

/**
 * The timers in what the device kept; none if that cannot be read.
 *
 * @param {unknown} kept
 * @returns {Timer[]}
 */
export function timersFrom(kept) {
  return Array.isArray(kept) ? kept.filter(isTimer) : [];
}

/**
 * @param {unknown} value
 * @returns {value is Timer}
 */
function isTimer(value) {
  const { id, label, href, first, last, rung, left } = /** @type {Record<string, unknown>} */ (value ?? {});
  const areTexts = [id, label, href].every((text) => typeof text === "string");
  const areTimes = [first, last, rung, ...(Array.isArray(left) ? left : [])].every(Number.isFinite);
  const isOfThisSite = /^\/(?!\/)/.test(String(href)); // A path, as newTimer gets it: no address that is a script.
  return areTexts && isOfThisSite && areTimes && (left === null || (Array.isArray(left) && left.length === 2));
}

/**
 * @param {Timer} timer
 * @param {number} now
 * @returns {Phase}
 */
export function phaseOf({ first, last, left }, now) {
  if (left) return "paused";
  if (now < first) return "running";
  return now < last ? "check" : "over";
}

/**
 * How often a timer should have rung by now.
 *
 * @param {Timer} timer
 * @param {number} now
 * @returns {Rings}
 */
export function ringsDue(timer, now) {
  const phase = phaseOf(timer, now);
  if (phase === "paused") return timer.rung;
  return phase === "over" ? 2 : phase === "check" ? 1 : 0;
}

/**
 * Stopped, or going on with the time that was left.
 *
 * @param {Timer} timer
 * @param {number} now
 * @returns {Timer}
 */
export function pausedOrResumed(timer, now) {
  const { first, last, left } = timer;
  if (left) return { ...timer, first: now + left[0], last: now + left[1], left: null };
  return { ...timer, left: [first - now, last - now] };
}

/**
 * A minute longer: the times that are not over yet, or a whole minute from now if both are.
 *
 * @param {Timer} timer
 * @param {number} now
 * @returns {Timer}
 */
export function oneMinuteMore(timer, now) {
  const { first, last, left } = timer;
  const longer = (/** @type {number} */ ms) => (ms > 0 ? ms + MINUTE : ms);
  if (left) return { ...timer, left: [longer(left[0]), longer(left[1])] };
  if (now >= last) return { ...timer, first: now + MINUTE, last: now + MINUTE, rung: 0 };
  return { ...timer, first: now < first ? first + MINUTE : first, last: last + MINUTE };
}

/**
 * What a timer shows: the time to its next ring, or since it was over, and a few words after it.
 *
 * @param {Timer} timer
 * @param {number} now
 */
export function reading(timer, now) {
  const phase = phaseOf(timer, now);
  const [first, last] = timer.left ?? [timer.first - now, timer.last - now];
  const ms = first > 0 ? first : last > 0 ? last : phase === "paused" ? 0 : -last;
  const words = {
    running: last > first ? `to the check, ${clockText(last)} at most` : "",
    check: "left at most: check now",
    over: "over",
    paused: "paused",
  };
  return { phase, clock: clockText(ms), words: words[phase] };
}

/**
 * What a title says of several timers: that the time of one is up, or how long it is to the next ring; "" if none runs.
 *
 * @param {readonly Timer[]} timers
 * @param {number} now
 */
export function nextRingText(timers, now) {
  const nextRing = (/** @type {Timer} */ { first, last }) => (now < first ? first : last);
  const rings = timers.filter(({ left }) => !left).map(nextRing);
  if (!rings.length) return "";
  const next = Math.min(...rings);
  return next <= now ? "Time is up" : clockText(next - now);
}

/**
 * 65 000 ms is 1:05; more than an hour 1:00:05. A part of a second counts as a whole one that is still left.
 *
 * @param {number} ms
 */
export function clockText(ms) {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor(seconds / 60) % 60;
  return hours ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
}
