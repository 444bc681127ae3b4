// Makes the memory snapshot: `node snapshot.mjs FOLDER` reads FOLDER/packages.zip and writes FOLDER/memory.bin.
//
// 1. An ordinary Pyodide imports and warms everything; every module that was then imported is compiled again, without
//    docstrings and column tables, with the stubs of stubs/ in the place of what a calculator never uses.
// 2. A second Pyodide starts on that lean library alone, imports and warms, and its free memory is cleared.
// 3. A third one loads the snapshot as a browser will and must answer. Only what differs from the data of the
//    WebAssembly file is kept.
import fs from "node:fs";
import path from "node:path";
import process from "node:process";
import { fileURLToPath } from "node:url";
import { clearFreeMemory } from "./free_memory.mjs";
import { repeatable } from "./repeatable.mjs";
import { image } from "./image.mjs";

const here = path.dirname(fileURLToPath(import.meta.url));
const folder = path.resolve(process.argv[2]);
process.argv.length = 1; // Pyodide keeps the name of the script, and with it a path of this machine, as `sys.executable`.
const indexURL = path.join(here, "node_modules", "pyodide") + "/";
const WARM = "import crumbcoat_calc.bridge; crumbcoat_calc.bridge.warm()";
const NOTHING = JSON.stringify({ calculator: "", given: "", state: {}, edit: {} });

const bytes = (file) => new Uint8Array(fs.readFileSync(file));
const source = (file) => fs.readFileSync(path.join(here, file), "utf8");

process.on("uncaughtException", (error) => {
  console.error(String(error?.message ?? error).slice(0, 4000)); // Not the source line: it is a megabyte long.
  process.exit(1);
});
repeatable();
const { loadPyodide } = await import(indexURL + "pyodide.mjs");
const { default: createPyodideModule } = await import(indexURL + "pyodide.asm.mjs");
const info = JSON.parse(fs.readFileSync(indexURL + "pyodide-lock.json", "utf8")).info;
const common = {
  indexURL,
  packageBaseUrl: indexURL,
  lockFileContents: JSON.stringify({ info, packages: {} }),
  args: ["-OO", "-X", "no_debug_ranges"],
  // Left to itself the environment would hold the language of the visitor and the name of a script.
  env: JSON.parse(source("environment.json")),
};

async function lean() {
  const pyodide = await loadPyodide({ ...common });
  const { FS } = pyodide;
  pyodide.unpackArchive(bytes(path.join(folder, "packages.zip")), "zip", {
    extractDir: pyodide.runPython("import importlib, site; site.getsitepackages()[0]"),
  });
  const stubs = path.join(here, "stubs");
  for (const name of fs.readdirSync(stubs, { recursive: true })) {
    const file = path.join(stubs, name);
    if (!fs.statSync(file).isFile()) continue;
    const target = "/stubs/" + name;
    FS.mkdirTree(path.dirname(target));
    FS.writeFile(target, bytes(file));
  }
  pyodide.runPython("importlib.invalidate_caches()");
  pyodide.runPython(WARM);
  pyodide.runPython(source("strip_bytecode.py"));
  const files = pyodide.runPython("sorted(packages)").toJs();
  return {
    pyodide,
    library: FS.readFile("/lean/library.zip"),
    packages: files.map((file) => [file, FS.readFile("/lean/packages/" + file)]),
  };
}

function place({ packages }) {
  return async (FS, { sitePackages }) => {
    for (const [file, content] of packages) {
      FS.mkdirTree(path.posix.dirname(`${sitePackages}/${file}`));
      FS.writeFile(`${sitePackages}/${file}`, content);
    }
  };
}

/** Packs by Pyodide's own Zstandard, so that the bytes do not depend on Node's (which has one from 22.15 on). */
function packer(pyodide) {
  const pack = pyodide.runPython(source("pack.py"));
  return (bytes) => {
    const frame = pack(bytes);
    const content = frame.toJs();
    frame.destroy();
    return content;
  };
}

/** The one pointer in the memory that depends on the JavaScript engine; worker.js puts in that of the browser. */
function forgetTrampoline(module) {
  module.HEAP32[(module.__PyRuntime + module.HEAP32[module.__PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET / 4]) / 4] = 0;
}

const made = await lean();
const library = path.join(folder, "library.zip");
fs.writeFileSync(library, made.library);

const pyodide = await loadPyodide({ ...common, stdLibURL: library, fsInit: place(made), _makeSnapshot: true });
pyodide.runPython(WARM);
pyodide.runPython(source("settle.py"));
const modules = pyodide.runPython("modules");
forgetTrampoline(pyodide._module);
const [heapStart, heapEnd] = clearFreeMemory(pyodide._module);
const snapshot = pyodide.makeMemorySnapshot();

let data, begun;
const start = await loadPyodide({
  ...common,
  _loadSnapshot: snapshot.slice(),
  createPyodideModule: async (settings) => {
    const { instantiateWasm } = settings;
    settings.instantiateWasm = (imports, done) =>
      instantiateWasm(imports, (instance, module) => {
        data = new Uint8Array(instance.exports.memory.buffer.slice(0));
        done(instance, module);
      });
    const module = await createPyodideModule(settings);
    begun = module.HEAPU8.slice();
    return module;
  },
});
JSON.parse(start.pyimport("crumbcoat_calc.bridge").answer(NOTHING));
const memory = image(snapshot, data, begun, heapStart, heapEnd, packer(made.pyodide));
fs.writeFileSync(path.join(folder, "memory.bin"), memory);
fs.writeFileSync(path.join(folder, "modules.json"), modules);
process.exit(0);
