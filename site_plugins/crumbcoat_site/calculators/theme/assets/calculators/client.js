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
/** The ways to start that were not tried yet. @type {string[]} */
let starts = [];
let lastId = 0;

/** Starts the runtime, unless it has been started. */
export function warm() {
  if (status.state !== "idle") return;
  starts = Object.keys(manifest.starts).sort((a, b) => Number(b === "snapshot") - Number(a === "snapshot"));
  start();
}

/** The same when the page is done and idle; never where the reader asked to save data or the connection is slow. */
export function warmWhenIdle() {
  /** @type {{ saveData?: boolean, effectiveType?: string } | undefined} */
  const connection = /** @type {any} */ (navigator).connection;
  if (connection?.saveData || /2g|3g/.test(connection?.effectiveType ?? "")) return;
  const wait = () => ("requestIdleCallback" in globalThis ? requestIdleCallback(warm) : setTimeout(warm, 2000));
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
  const reply = await post({ ...request, context: digest });
  return reply.unknown === digest ? post({ ...request, context: digest, content: JSON.parse(content) }) : reply;
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
    if (status.state === "live") send(asked);
  });
}

function start() {
  const way = starts.shift();
  if (!way) {
    fail();
    return;
  }
  setStage("starting");
  try {
    worker = new Worker(new URL("worker.js", import.meta.url), { type: "module" });
  } catch {
    fail();
    return;
  }
  worker.addEventListener("message", onMessage);
  worker.addEventListener("error", ({ message }) => restart(message));
  worker.postMessage({ base, manifest, start: way });
}

/** @param {MessageEvent} event */
function onMessage({ data, currentTarget }) {
  if (currentTarget !== worker) return;
  if (data.live) {
    setStage("live");
    waiting.forEach(send);
  } else if (data.failed !== undefined) {
    restart(data.failed);
  } else if (data.id) {
    const asked = waiting.get(data.id);
    waiting.delete(data.id);
    status.pythonMs = data.pythonMs;
    asked?.resolve(JSON.parse(data.reply));
  } else {
    Object.assign(status, data);
    status.dispatchEvent(new Event("progress"));
  }
}

/**
 * The worker broke: the next way to start is tried, and what was asked is asked again.
 *
 * @param {string} why
 */
function restart(why) {
  console.warn("calculators: the runtime failed and is started in another way:", why);
  worker?.terminate();
  start();
}

/** @param {Waiting} asked */
function send({ id, request }) {
  worker?.postMessage({ id, request });
}

function fail() {
  status.sentence = "The calculator could not start in this browser. The printed figures still hold.";
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
