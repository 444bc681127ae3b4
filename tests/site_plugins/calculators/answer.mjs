// `node answer.mjs PYODIDE FOLDER WORKER START [BROWSER]` answers each line of stdin as a browser's worker does: worker.js
// runs here unchanged, with the runtime's files in FOLDER. Node imports no blob: so one of Pyodide's scripts comes from
// PYODIDE, where npm put it, and one from a file of its own. BROWSER is what this host calls itself to Pyodide.
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import process from "node:process";
import { pathToFileURL } from "node:url";
import zlib from "node:zlib";

/** @param {unknown} problem */
function stop(problem) {
  console.error(String(problem).slice(0, 2000));
  process.exit(1);
}
process.on("uncaughtException", (error) => stop(error?.message ?? error));
process.on("unhandledRejection", () => {}); // Node reads no data: file, so the snapshot is left without any library.
const [, , pyodide = "", folder = "", worker = "", start, browser] = process.argv;
if (browser) Object.defineProperty(globalThis, "navigator", { value: { userAgent: browser } });
const base = `${path.resolve(pyodide)}/`;
const manifest = JSON.parse(fs.readFileSync(path.join(folder, "manifest.json"), "utf8"));

const fetchOthers = globalThis.fetch;
globalThis.fetch = async (url, ...rest) => {
  if (!String(url).startsWith(base)) return fetchOthers(url, ...rest);
  return new Response(fs.readFileSync(path.join(folder, String(url).slice(base.length))));
};
const own = fs.mkdtempSync(path.join(os.tmpdir(), "crumbcoat-loader-"));
process.on("exit", () => fs.rmSync(own, { recursive: true }));
const [loader = ""] = manifest.starts[start ?? ""].filter((/** @type {string} */ name) => /^(?!pyodide\.mjs).*\.mjs$/.test(name));
fs.writeFileSync(path.join(own, loader), zlib.gunzipSync(fs.readFileSync(path.join(folder, loader))));
URL.createObjectURL = () => pathToFileURL(path.join(own, loader)).href;
// In Node, Pyodide reads the WebAssembly file from PYODIDE; here it gets what worker.js has compiled, as in a browser.
const { instantiate } = WebAssembly;
Object.assign(WebAssembly, {
  instantiate: (/** @type {any} */ source, /** @type {WebAssembly.Imports} */ imports) =>
    source.byteLength > 1_000_000 ? WebAssembly.instantiateStreaming(new Response(), imports) : instantiate(source, imports),
});

const asking = [];
for await (const chunk of process.stdin) asking.push(chunk);
const lines = Buffer.concat(asking).toString("utf8").split("\n").filter(Boolean);
/** What worker.js does with a message. @type {(event: { data: object }) => void} */
let onMessage = () => stop("the worker waits for no message");
Object.assign(globalThis, {
  /** @param {string} _type @param {typeof onMessage} listener */
  addEventListener: (_type, listener) => (onMessage = listener),
  postMessage,
});

/** @param {{ failed?: string, reply?: string, live?: boolean }} message what the worker says */
function postMessage(message) {
  if (message.failed !== undefined) stop(message.failed.slice(-2000));
  if (message.reply !== undefined) console.log(message.reply);
  if (!message.live && message.reply === undefined) return;
  const request = lines.shift();
  if (request !== undefined) setImmediate(() => onMessage({ data: { id: 1, request } }));
}

await import(pathToFileURL(path.resolve(worker)).href);
onMessage({ data: { base, manifest, start } });
