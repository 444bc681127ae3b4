// The page's side of the worker that runs Python: one worker for the whole visit, started when it is first needed.
import manifest from "./manifest.js";

/** @typedef {"idle" | "starting" | "live" | "failed"} Stage */

/** Python cannot run here; the message is a sentence for the reader. */
export class CalculatorUnavailable extends Error {}

class Status extends EventTarget {
  /** @type {Stage} */
  state = "idle";
  loaded = 0;
  total = 0;
  phase = "";
  sentence = "";

  /** Whether a start that failed may do better next time, since files did not come. */
  canRetry = false;

  /** How it was started: "snapshot", from the memory image, or "ordinary"; for tests and for measuring. */
  way = "";

  /** How long Python took for the last answer, for measuring. */
  pythonMs = 0;
}

/** How far the start is. It dispatches "state" and, while starting, "progress". */
export const status = new Status();

/** @typedef {{ id: number, request: string, resolve: (reply: any) => void, reject: (error: Error) => void }} Waiting */

const base = new URL(manifest.folder, import.meta.url).href;
/** @type {Map<number, Waiting>} */
const waiting = new Map();
/** @type {Worker | null} */
let worker = null;
/** The digests of the contexts that the worker was sent. @type {Set<string>} */
const sent = new Set();
/** The ways to start that were not tried yet. @type {string[]} */
let starts = [];
/** @type {ReturnType<typeof setInterval> | undefined} */
let watch;
let lastId = 0;
/** Whether the memory image, or the trimmed interpreter on it, was there and failed, and the device does not know it yet. */
let hasImageFailed = false;
let hasBeenLive = false;
/** Whether it was a file that did not come for which the latest start failed. */
let isMissing = false;

/** A start hangs if it is not done so long after all of its files have come, and an answer if it takes so long. */
const START_HANGS_AFTER_S = 20;
const ANSWER_HANGS_AFTER_S = 30;

/** How many times longer the last way to start, the ordinary one, may take: that was the most on any device tried. */
const LAST_WAY = 9;

const NOT_STARTED = "The calculator could not start in this browser. The printed figures still hold.";
const NOT_LOADED =
  "The calculator could not be loaded. The printed figures still hold. Change something again once you are online.";
const STOPPED = "The calculator has stopped. The figures are those of the last change that it answered.";

/** What the device remembers for this site: that a form was used, and the runtime whose fast start failed here. */
const USED = "used";
const FAILED = "failed";
const PREFIX = `crumbcoat:calculators:${new URL("../../../", import.meta.url).pathname}:`;

/** Starts the runtime for a reader who uses a form, unless it has been started. */
export function warm() {
  if (status.state === "failed" && status.canRetry) setStage("idle");
  if (status.state !== "idle") return;
  remember(USED, "yes");
  startFirst();
}

/**
 * The same when the page is done and idle, for a reader who has used a form of this site before: nobody else fetches
 * megabytes for a page that is only read. Never in a frame of another page, which may have several, nor where the reader asked
 * to save data or the connection is slow.
 */
export function warmWhenIdle() {
  if (!remembered(USED) || self !== top) return;
  /** @type {{ saveData?: boolean, effectiveType?: string } | undefined} */
  const connection = /** @type {any} */ (navigator).connection;
  if (connection?.saveData || /2g|3g/.test(connection?.effectiveType ?? "")) return;
  const wait = () => ("requestIdleCallback" in globalThis ? requestIdleCallback(startFirst) : setTimeout(startFirst, 2000));
  if (document.readyState === "complete") wait();
  else addEventListener("load", wait, { once: true });
}

/**
 * The reply to a request in a context: its content, a JSON text, is sent once to each worker, and again if the worker no
 * longer has it. Rejects with CalculatorUnavailable.
 *
 * @param {{ digest: string, content: string }} context
 * @param {object} request
 */
export async function ask({ digest, content }, request) {
  const asked = { ...request, context: digest };
  const withContent = () => {
    const reply = post({ ...asked, content: JSON.parse(content) });
    sent.add(digest);
    return reply;
  };
  const reply = await (sent.has(digest) ? post(asked) : withContent());
  return reply.unknown === digest ? withContent() : reply;
}

/**
 * @param {object} request
 * @returns {Promise<any>}
 */
function post(request) {
  warm();
  if (status.state === "failed") return Promise.reject(new CalculatorUnavailable(status.sentence));
  return new Promise((resolve, reject) => {
    lastId += 1;
    const asked = { id: lastId, request: JSON.stringify(request), resolve, reject };
    waiting.set(asked.id, asked);
    if (status.state !== "live") return;
    send(asked);
    if (waiting.size === 1) watchAnswers();
  });
}

/** The memory image is tried first, if the site has one, and not at all where it has failed; a new build has another one. */
function startFirst() {
  if (status.state !== "idle") return;
  status.sentence = "";
  starts = "snapshot" in manifest.starts && remembered(FAILED) !== manifest.folder ? ["snapshot", "ordinary"] : ["ordinary"];
  start();
}

function start() {
  const way = starts.shift();
  if (!way) {
    fail();
    return;
  }
  Object.assign(status, { way, loaded: 0, total: 0 });
  sent.clear();
  setStage("starting");
  try {
    worker = new Worker(new URL("worker.js", import.meta.url), { type: "module" });
  } catch {
    fail(false);
    return;
  }
  worker.addEventListener("message", onMessage);
  worker.addEventListener("error", ({ message }) => restart(message, status.total === 0));
  worker.postMessage({ base, manifest, start: way });
  watchFor(START_HANGS_AFTER_S);
}

/**
 * Gives up after that time with all files there, or several times as long if no other way to start is left; seconds in which
 * the page sleeps do not count.
 *
 * @param {number} seconds
 */
function watchFor(seconds) {
  clearInterval(watch);
  let left = starts.length ? seconds : LAST_WAY * seconds;
  watch = setInterval(() => {
    if (hasAllFiles()) left -= 1;
    if (left === 0) restart("it hangs");
  }, 1000);
}

/** Watches for the next answer, if one is waited for. */
function watchAnswers() {
  if (waiting.size) watchFor(ANSWER_HANGS_AFTER_S);
  else clearInterval(watch);
}

function hasAllFiles() {
  return status.total > 0 && status.loaded >= status.total;
}

/** @param {MessageEvent} event */
function onMessage({ data, currentTarget }) {
  if (currentTarget !== worker) return;
  if (data.live) {
    hasBeenLive = true;
    setStage("live");
    waiting.forEach(send);
    watchAnswers();
  } else if (data.failed !== undefined) {
    restart(data.failed, data.isMissing);
  } else if (data.id) {
    const asked = waiting.get(data.id);
    waiting.delete(data.id);
    if (hasImageFailed) {
      hasImageFailed = false;
      remember(FAILED, manifest.folder);
    }
    watchAnswers();
    status.pythonMs = data.pythonMs;
    asked?.resolve(JSON.parse(data.reply));
  } else {
    Object.assign(status, data);
    status.dispatchEvent(new Event("progress"));
  }
}

/**
 * The worker broke, at its start or at an answer: the next way to start is tried, and what was asked is asked again. A
 * memory image that was there and failed is not tried again on this device, if that way works; one that did not come may do
 * better next time.
 *
 * @param {string} why
 * @param {boolean} didNotCome whether it is a file that did not come
 */
function restart(why, didNotCome = false) {
  console.warn("calculators: the runtime failed and is started in another way:", why);
  clearInterval(watch);
  isMissing = didNotCome;
  if (status.way === "snapshot" && hasAllFiles()) hasImageFailed = true;
  worker?.terminate();
  start();
}

/** @param {Waiting} asked */
function send({ id, request }) {
  worker?.postMessage({ id, request });
}

/** @param {boolean} canStart whether this browser could start it */
function fail(canStart = true) {
  status.canRetry = canStart && !hasBeenLive && isMissing;
  status.sentence = hasBeenLive ? STOPPED : status.canRetry ? NOT_LOADED : NOT_STARTED;
  setStage("failed");
  waiting.forEach(({ reject }) => reject(new CalculatorUnavailable(status.sentence)));
  waiting.clear();
}

/** @param {Stage} stage */
function setStage(stage) {
  if (status.state === stage) return;
  status.state = stage;
  status.dispatchEvent(new Event("state"));
}

/**
 * @param {string} name
 * @returns {string | null}
 */
function remembered(name) {
  try {
    return localStorage.getItem(PREFIX + name);
  } catch (error) {
    if (error instanceof DOMException) return null; // The browser keeps nothing for this site.
    throw error;
  }
}

/**
 * @param {string} name
 * @param {string} value
 */
function remember(name, value) {
  try {
    localStorage.setItem(PREFIX + name, value);
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
  }
}
