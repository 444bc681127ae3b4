// Starts Python in Node as a browser does: the memory image on a WebAssembly file, whichever that is.
//
// `node start_in_node.mjs FOLDER PYODIDE` starts with trimmed.mjs, trimmed.wasm and memory.bin in FOLDER and the other files of
// Pyodide in PYODIDE, and answers the sample requests. What a start enters depends on the image: the decoder has several functions for the same, and picks them by the data.
import fs from "node:fs";
import path from "node:path";
import process from "node:process";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = path.dirname(fileURLToPath(import.meta.url));
const isCommand = process.argv[1] === fileURLToPath(import.meta.url);
const [, , folder = ".", given] = isCommand ? process.argv : [];
const PYODIDE = `${path.resolve(given ?? path.join(here, "node_modules", "pyodide"))}/`;
const SCRIPT = path.join(here, "..", "theme", "assets", "calculators", "memory_image.js");

/** What Pyodide wants of any start in Node. */
export function options() {
  const { info } = JSON.parse(fs.readFileSync(`${PYODIDE}pyodide-lock.json`, "utf8"));
  const lockFileContents = JSON.stringify({ info, packages: {} });
  return { indexURL: PYODIDE, packageBaseUrl: PYODIDE, lockFileContents };
}

/**
 * Pyodide, as it is after a browser's fast start.
 *
 * @param {Uint8Array<ArrayBuffer>} file
 * @param {Uint8Array<ArrayBuffer>} memory
 * @param {string} loader the script that starts the file
 * @returns {Promise<any>}
 */
export async function startInNode(file, memory, loader = `${PYODIDE}pyodide.asm.mjs`) {
  const { loadPyodide } = await import(`${PYODIDE}pyodide.mjs`);
  const { default: createPyodideModule } = await import(pathToFileURL(loader).href);
  // Node 20 does not take the script for a module by its name.
  const script = Buffer.from(fs.readFileSync(SCRIPT)).toString("base64");
  const { memoryImage, withImage } = await import(`data:text/javascript;base64,${script}`);
  const image = memoryImage(memory);
  const module = await WebAssembly.compile(file);
  const { instantiate } = WebAssembly;
  // Pyodide would read its own file: it is the one that has megabytes.
  const instantiateOurs = async (/** @type {any} */ source, /** @type {WebAssembly.Imports} */ imports) =>
    source.byteLength > 1_000_000 ? { module, instance: await instantiate(module, imports) } : instantiate(source, imports);
  Object.assign(WebAssembly, { instantiate: instantiateOurs });
  return loadPyodide({
    ...options(),
    env: JSON.parse(fs.readFileSync(path.join(here, "environment.json"), "utf8")),
    stdLibURL: fileURLToPath(import.meta.url), // Any file: nothing is read from it.
    _loadSnapshot: image.header,
    createPyodideModule: (/** @type {object} */ settings) => withImage(createPyodideModule, settings, image),
  });
}

if (isCommand) {
  const bytes = (/** @type {string} */ name) => new Uint8Array(fs.readFileSync(path.join(folder, name)));
  process.on("uncaughtException", (error) => {
    console.error(String(error?.message ?? error).slice(0, 2000)); // Not the source line: it is a megabyte long.
    process.exit(1);
  });
  const loader = path.join(folder, "trimmed.mjs");
  (await startInNode(bytes("trimmed.wasm"), bytes("memory.bin"), loader)).pyimport("crumbcoat_calc.bridge").warm();
  process.exit(0);
}
