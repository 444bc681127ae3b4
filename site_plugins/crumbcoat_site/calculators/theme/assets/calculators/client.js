// The page's side of the worker: one worker for the whole visit, begun at the first need.
import manifest from "./manifest.js";

const SENTENCE = "The calculator could not start here. The printed figures stand.";

/** Where it stands: "idle", "starting", "live" or "failed". It dispatches "state" and, while starting, "progress". */
export const status = Object.assign(new EventTarget(), { state: "idle", loaded: 0, total: 0, phase: "", sentence: "" });

const base = new URL(manifest.folder, import.meta.url).href;
const waiting = new Map();
let worker = null;
let starts = [];
let nextId = 0;

/** Begins the runtime, if nothing has yet. */
export function warm() {
  if (status.state !== "idle") return;
  starts = Object.keys(manifest.starts).sort((one, other) => (one === "snapshot" ? -1 : other === "snapshot" ? 1 : 0));
  begin();
}

/**
 * The reply to a request in a context, { digest, content }: the content, a JSON text, is sent once to each worker, and
 * again if the worker no longer has it. Rejects with a plain sentence if Python cannot run here.
 */
export async function ask({ digest, content }, request) {
  const reply = await post({ ...request, context: digest });
  return reply.unknown === digest ? post({ ...request, context: digest, content: JSON.parse(content) }) : reply;
}

function post(request) {
  warm();
  if (status.state === "failed") return Promise.reject(new Error(status.sentence));
  return new Promise((resolve, reject) => {
    const id = (nextId += 1);
    waiting.set(id, { id, request: JSON.stringify(request), resolve, reject });
    if (status.state === "live") send(waiting.get(id));
  });
}

function begin() {
  const start = starts.shift();
  if (!start) return fail();
  become("starting");
  try {
    worker = new Worker(new URL("worker.js", import.meta.url), { type: "module" });
  } catch {
    return fail();
  }
  worker.addEventListener("message", hear);
  worker.addEventListener("error", again);
  worker.postMessage({ base, manifest, start });
}

function hear({ data, currentTarget }) {
  if (currentTarget !== worker) return;
  if (data.live) {
    become("live");
    waiting.forEach(send);
  } else if (data.failed !== undefined) {
    again(data.failed);
  } else if (data.id) {
    const { resolve } = waiting.get(data.id);
    waiting.delete(data.id);
    status.pythonMs = data.pythonMs; // What the last answer took, for measuring.
    resolve(JSON.parse(data.reply));
  } else {
    Object.assign(status, data);
    status.dispatchEvent(new Event("progress"));
  }
}

/** The worker broke: the next way to start takes over, and what was asked is asked again. */
function again(why) {
  console.warn("calculators: the runtime broke and is begun anew:", why?.message ?? why);
  worker.terminate();
  begin();
}

function send({ id, request }) {
  worker.postMessage({ id, request });
}

function fail() {
  status.sentence = SENTENCE;
  become("failed");
  waiting.forEach(({ reject }) => reject(new Error(SENTENCE)));
  waiting.clear();
}

function become(state) {
  if (status.state === state) return;
  status.state = state;
  status.dispatchEvent(new Event("state"));
}
