// `node answer.mjs PYODIDE FOLDER WORKER START [BROWSER]` answers each line of stdin as a browser's worker does: worker.js
// runs here unchanged, with the runtime's files in FOLDER beside those that npm put into PYODIDE. BROWSER is what this host
// calls itself to Pyodide.
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import process from "node:process";
import { pathToFileURL } from "node:url";

/** @param {unknown} problem */
function stop(problem) {
  console.error(String(problem).slice(0, 2000));
  process.exit(1);
}
process.on("uncaughtException", (error) => stop(error?.message ?? error));
process.on("unhandledRejection", () => {}); // Node looks for the library's file, and the snapshot is left without any.
const [, , pyodide = "", folder = "", worker = "", start, browser] = process.argv;
if (browser) Object.defineProperty(globalThis, "navigator", { value: { userAgent: browser } });
const own = fs.mkdtempSync(path.join(os.tmpdir(), "crumbcoat-pyodide-"));
process.on("exit", () => fs.rmSync(own, { recursive: true }));
for (const name of fs.readdirSync(pyodide)) fs.symlinkSync(path.resolve(pyodide, name), path.join(own, name));
const base = `${own}/`;
const manifest = JSON.parse(fs.readFileSync(path.join(folder, "manifest.json"), "utf8"));

const fetchOthers = globalThis.fetch;
globalThis.fetch = async (url, ...rest) => {
  if (!String(url).startsWith(base)) return fetchOthers(url, ...rest);
  return new Response(fs.readFileSync(path.join(folder, String(url).slice(base.length))));
};
for (const name of manifest.starts[start ?? ""].filter((/** @type {string} */ file) => file.endsWith(".mjs"))) {
  fs.rmSync(path.join(own, name), { force: true });
  fs.copyFileSync(path.join(folder, name), path.join(own, name));
}
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
