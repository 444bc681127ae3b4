// Makes the memory snapshot: `node snapshot.mjs FOLDER PYODIDE` reads FOLDER/packages.zip and writes FOLDER/memory.bin, by
// the files of Pyodide in PYODIDE.
//
// 1. An ordinary Pyodide imports and warms everything; every module that was then imported is compiled again, without
//    docstrings and column tables, and with the stubs of stubs/ for modules that a calculator never uses.
// 2. A second Pyodide starts on that stripped library alone, imports and warms, and its free memory is cleared.
// 3. A third one loads the snapshot as a browser will and must answer. Only what differs from the data of the
//    WebAssembly file is kept.
import fs from "node:fs";
import path from "node:path";
import process from "node:process";
import { fileURLToPath } from "node:url";
import { clearFreeMemory } from "./free_memory.mjs";
import { repeatable } from "./repeatable.mjs";
import { image } from "./image.mjs";

/** @import { Memory } from "./free_memory.mjs" */

/**
 * What this uses of Emscripten's module, beside its memory.
 *
 * @typedef {Memory & { HEAP32: Int32Array, __PyRuntime: number, __PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET: number }} Module
 */

/**
 * What this uses of Pyodide; its own types do not have all of it.
 *
 * @typedef {object} Pyodide
 * @property {FileSystem} FS
 * @property {Module} _module
 * @property {(source: string) => any} runPython
 * @property {(name: string) => any} pyimport
 * @property {(archive: Uint8Array, format: string, options: { extractDir: string }) => void} unpackArchive
 * @property {() => Uint8Array} makeMemorySnapshot
 */

/**
 * @typedef {object} FileSystem
 * @property {(folder: string) => void} mkdirTree
 * @property {(file: string) => Uint8Array} readFile
 * @property {(file: string, content: Uint8Array) => void} writeFile
 */

/** @typedef {{ memory: WebAssembly.Memory, __indirect_function_table: WebAssembly.Table }} Exports */
/** @typedef {(instance: WebAssembly.Instance, module: WebAssembly.Module) => void} Done */
/** @typedef {{ instantiateWasm: (imports: WebAssembly.Imports, done: Done) => unknown }} Settings */

const here = path.dirname(fileURLToPath(import.meta.url));
const [, , target = ".", pyodideFolder = path.join(here, "node_modules", "pyodide")] = process.argv;
const folder = path.resolve(target);
process.argv.length = 1; // Pyodide keeps the name of the script, and with it a path of this machine, as `sys.executable`.
const indexURL = `${path.resolve(pyodideFolder)}/`;
const WARM = "import crumbcoat_calc.bridge; crumbcoat_calc.bridge.warm()";
const NOTHING = JSON.stringify({ calculator: "", context: "", state: {}, edit: {} });

const bytes = (/** @type {string} */ file) => new Uint8Array(fs.readFileSync(file));
const source = (/** @type {string} */ file) => fs.readFileSync(path.join(here, file), "utf8");

process.on("uncaughtException", (error) => {
  console.error(String(error?.message ?? error).slice(0, 4000)); // Not the source line: it is a megabyte long.
  process.exit(1);
});
repeatable();
/** @type {{ loadPyodide: (options: object) => Promise<Pyodide> }} */
const { loadPyodide } = await import(`${indexURL}pyodide.mjs`);
/** @type {{ default: (settings: Settings) => Promise<Module> }} */
const { default: createPyodideModule } = await import(`${indexURL}pyodide.asm.mjs`);
const { info } = JSON.parse(fs.readFileSync(`${indexURL}pyodide-lock.json`, "utf8"));
const common = {
  indexURL,
  packageBaseUrl: indexURL,
  lockFileContents: JSON.stringify({ info, packages: {} }),
  args: ["-OO", "-X", "no_debug_ranges"],
  // Left to itself the environment would hold the language of the visitor and the name of a script.
  env: JSON.parse(source("environment.json")),
};

/** The standard library and the packages, stripped, and the Pyodide that stripped them. */
async function strip() {
  const pyodide = await loadPyodide({ ...common });
  const { FS } = pyodide;
  pyodide.unpackArchive(bytes(path.join(folder, "packages.zip")), "zip", {
    extractDir: pyodide.runPython("import importlib, site; site.getsitepackages()[0]"),
  });
  const stubs = path.join(here, "stubs");
  for (const name of fs.readdirSync(stubs, { encoding: "utf8", recursive: true })) {
    const file = path.join(stubs, name);
    if (!fs.statSync(file).isFile()) continue;
    FS.mkdirTree(path.dirname(`/stubs/${name}`));
    FS.writeFile(`/stubs/${name}`, bytes(file));
  }
  pyodide.runPython("importlib.invalidate_caches()");
  pyodide.runPython(WARM);
  pyodide.runPython(source("strip_bytecode.py"));
  /** @type {string[]} */
  const files = pyodide.runPython("sorted(packages)").toJs();
  const packages = new Map(files.map((file) => [file, FS.readFile(`/stripped/packages/${file}`)]));
  return { pyodide, library: FS.readFile("/stripped/library.zip"), packages };
}

/** @param {Map<string, Uint8Array>} packages */
function install(packages) {
  return async (/** @type {FileSystem} */ FS, /** @type {{ sitePackages: string }} */ { sitePackages }) => {
    for (const [file, content] of packages) {
      FS.mkdirTree(path.posix.dirname(`${sitePackages}/${file}`));
      FS.writeFile(`${sitePackages}/${file}`, content);
    }
  };
}

/**
 * Packs by Pyodide's own Zstandard, so that the bytes do not depend on Node's (which has one from 22.15 on).
 *
 * @param {Pyodide} pyodide
 * @returns {(content: Uint8Array) => Uint8Array}
 */
function packer(pyodide) {
  const pack = pyodide.runPython(source("pack.py"));
  return (unpacked) => {
    const frame = pack(unpacked);
    const content = frame.toJs();
    frame.destroy();
    return content;
  };
}

/**
 * Clears the one pointer in the memory that depends on the JavaScript engine; memory_image.js puts in that of the browser.
 *
 * @param {Module} module
 */
function clearTrampoline({ HEAP32, __PyRuntime, __PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET }) {
  HEAP32[(__PyRuntime + (HEAP32[__PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET / 4] ?? 0)) / 4] = 0;
}

const stripped = await strip();
const library = path.join(folder, "library.zip");
fs.writeFileSync(library, stripped.library);

const pyodide = await loadPyodide({ ...common, stdLibURL: library, fsInit: install(stripped.packages), _makeSnapshot: true });
pyodide.runPython(WARM);
pyodide.runPython(source("settle.py"));
const modules = pyodide.runPython("modules");
clearTrampoline(pyodide._module);
const [heapStart, heapEnd] = clearFreeMemory(pyodide._module);
const snapshot = pyodide.makeMemorySnapshot();

/** The memory as the WebAssembly file fills it, how many functions its table has, and the memory after Pyodide's own preparations. */
let data = new Uint8Array();
let functions = 0;
let begun = data;
const start = await loadPyodide({
  ...common,
  _loadSnapshot: snapshot.slice(),
  createPyodideModule: async (/** @type {Settings} */ settings) => {
    const { instantiateWasm } = settings;
    settings.instantiateWasm = (imports, done) =>
      instantiateWasm(imports, (instance, compiled) => {
        const { memory, __indirect_function_table: table } = /** @type {Exports} */ (/** @type {unknown} */ (instance.exports));
        data = new Uint8Array(memory.buffer.slice(0));
        functions = table.length;
        done(instance, compiled);
      });
    const module = await createPyodideModule(settings);
    begun = module.HEAPU8.slice();
    return module;
  },
});
JSON.parse(start.pyimport("crumbcoat_calc.bridge").answer(NOTHING));
const dataEnd = pyodide._module._emscripten_stack_get_end();
const memory = image(snapshot, data, begun, functions, dataEnd, heapStart, heapEnd, packer(stripped.pyodide));
fs.writeFileSync(path.join(folder, "memory.bin"), memory);
fs.writeFileSync(path.join(folder, "modules.json"), modules);
process.exit(0);
