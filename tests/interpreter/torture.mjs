// `node torture.mjs FOLDER` runs torture.py on the memory image and the WebAssembly file in FOLDER, and unpacks frames.py
// there. Both are compiled by a Pyodide of its own: the browser's Python compiles nothing.
import fs from "node:fs";
import path from "node:path";
import process from "node:process";
import { gunzipSync } from "node:zlib";
import { options, startInNode } from "../../site_plugins/crumbcoat_site/calculators/runtime/start_in_node.mjs";

const [, , folder = ""] = process.argv;
const bytes = (/** @type {string} */ name) => new Uint8Array(fs.readFileSync(path.join(folder, name)));
const source = (/** @type {string} */ name) => fs.readFileSync(new URL(name, import.meta.url), "utf8");
process.on("uncaughtException", (error) => {
  console.error(String(error?.stack ?? error).slice(-2000)); // Its source line is a megabyte long.
  process.exit(1);
});
const { indexURL } = options();
const { loadPyodide } = await import(`${indexURL}pyodide.mjs`);
const compiler = await loadPyodide(options());
compiler.runPython(source("frames.py"));
/** @type {[Uint8Array, number][]} */
const frames = compiler.runPython("packed()").toJs();
const compiled = (/** @type {string} */ name) => {
  compiler.globals.set("source", source(`${name}.py`));
  return compiler.runPython("import marshal; marshal.dumps(compile(source, 'torture', 'exec'))").toJs();
};
const codes = ["torture_samples", "torture_calls", "torture"].map((name) => [`tests.interpreter.${name}`, compiled(name)]);

const python = await startInNode(new Uint8Array(gunzipSync(bytes("trimmed.wasm"))), bytes("memory.bin"));
const memory = python._module;
const place = memory._malloc(4_000_000);
for (const [frame, length] of frames) {
  const context = memory._ZSTD_initStaticDCtx(place, memory._ZSTD_estimateDCtxSize());
  memory.HEAPU8.set(frame, place + 1_000_000);
  const made = memory._ZSTD_decompressDCtx(context, place + 2_000_000, length, place + 1_000_000, frame.length);
  if (made !== length) throw new Error("a frame was not unpacked");
}
memory._free(place);
const { loads } = python.pyimport("marshal");
const { FunctionType, ModuleType } = python.pyimport("types");
const { modules } = python.pyimport("sys");
for (const [name, code] of codes) {
  const made = ModuleType(name);
  modules.set(name, made);
  FunctionType(loads(python.toPy(code)), made.__dict__)();
}
modules.get("tests.interpreter.torture").everything();
