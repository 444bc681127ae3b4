// Runs the calculators' Python, off the page's thread.
//
// First message in: { base, manifest, start }, where `start` is "snapshot" or "ordinary". Then: { id, request }.
// Out: { loaded, total, phase } while it starts, { live: true }, { id, reply, pythonMs } for each request, and { failed }
// once, after which this worker is of no more use: client.js starts another one with the ordinary start.
const PAGE = 4096;
const OTHER = "the memory image is of another Pyodide";
const EMPTY_ZIP = "data:application/zip;base64,UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==";

/** @typedef {typeof import("./manifest.js").default} Manifest */
/** @typedef {(why: unknown) => void} Fail */
/** @typedef {ReadableStream<Uint8Array<ArrayBuffer>>} Bytes */
/** @typedef {(request: string) => string} Answer */
/** @typedef {(settings: Settings) => Promise<Module>} CreateModule */
/** @typedef {{ memory: WebAssembly.Memory, __indirect_function_table: WebAssembly.Table }} Exports */
/** @typedef {(instance: WebAssembly.Instance, module: WebAssembly.Module) => void} Done */
/** @typedef {{ instantiateWasm: (imports: WebAssembly.Imports, done: Done) => unknown }} Settings */

/**
 * What this uses of Emscripten's module.
 *
 * @typedef {object} Module
 * @property {Uint8Array} HEAPU8
 * @property {Uint32Array} HEAPU32
 * @property {number} __PyRuntime
 * @property {number} __PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET
 * @property {() => number} _ZSTD_estimateDCtxSize
 * @property {(place: number, bytes: number) => number} _ZSTD_initStaticDCtx
 * @property {(context: number, target: number, length: number, source: number, bytes: number) => number} _ZSTD_decompressDCtx
 */

/** @type {Answer | null} */
let answer = null;

addEventListener("message", async ({ data }) => {
  try {
    if (data.manifest) {
      answer = await answerFrom(data);
      postMessage({ live: true });
    } else if (answer) {
      const startedMs = performance.now();
      const reply = answer(data.request);
      postMessage({ id: data.id, reply, pythonMs: performance.now() - startedMs });
    }
  } catch (error) {
    postMessage({ failed: error instanceof Error ? error.message : String(error) });
  }
});

/**
 * Starts Python and gives the bridge's `answer`; rejects as soon as one file or the compiler fails.
 *
 * @param {{ base: string, manifest: Manifest, start: string }} data
 * @returns {Promise<Answer>}
 */
function answerFrom(data) {
  return new Promise((resolve, reject) => {
    start(data, reject).then(resolve, reject);
  });
}

/**
 * All files are asked for at once; each is unpacked as it comes.
 *
 * @param {{ base: string, manifest: Manifest, start: string }} data
 * @param {Fail} fail
 * @returns {Promise<Answer>}
 */
async function start({ base, manifest, start: way }, fail) {
  const files = new Map((manifest.starts[way] ?? []).map((name) => [name, manifest.files[name] ?? { bytes: 0, packed: false }]));
  const total = [...files.values()].reduce((sum, { bytes }) => sum + bytes, 0);
  let loaded = 0;
  const count = (/** @type {number} */ bytes) => {
    loaded += bytes;
    postMessage({ loaded, total, phase: "fetching" });
  };
  /** @type {Map<string, Promise<Bytes>>} */
  const coming = new Map();
  for (const [name, { packed }] of files) if (name !== "pyodide.mjs") coming.set(name, arriving(base + name, packed, count));
  for (const stream of coming.values()) stream.catch(fail);
  const file = (/** @type {string} */ name) => coming.get(name) ?? Promise.reject(new Error(`${way} has no ${name}`));
  compile(file("pyodide.asm.wasm"), fail);
  serve(`${base}pyodide.asm.wasm`, null, "application/wasm");
  const [{ loadPyodide }, createPyodideModule] = await Promise.all([
    import(`${base}pyodide.mjs`),
    file("pyodide.asm.mjs").then(moduleFrom),
  ]);
  count(files.get("pyodide.mjs")?.bytes ?? 0);
  const lockFileContents = { info: manifest.info, packages: {} };
  const options = { indexURL: base, packageBaseUrl: base, lockFileContents, env: manifest.environment };
  if (way === "snapshot") {
    const image = memoryImage(await bytesOf(file("memory.bin")));
    postMessage({ loaded, total, phase: "starting" });
    const pyodide = await loadPyodide({
      ...options,
      stdLibURL: EMPTY_ZIP,
      _loadSnapshot: image.header,
      createPyodideModule: (/** @type {Settings} */ settings) => withImage(createPyodideModule, settings, image),
    });
    return pyodide.pyimport("crumbcoat_calc.bridge").answer;
  }
  serve(`${base}python_stdlib.zip`, file("python_stdlib.zip"), "application/zip");
  const pyodide = await loadPyodide({ ...options, createPyodideModule });
  pyodide.unpackArchive(await bytesOf(file("packages.zip")), "zip");
  postMessage({ loaded, total, phase: "starting" });
  const bridge = pyodide.pyimport("crumbcoat_calc.bridge");
  bridge.warm();
  return bridge.answer;
}

/**
 * The body of one file, counted as it comes and unpacked if it is packed.
 *
 * @param {string} url
 * @param {boolean} packed
 * @param {(bytes: number) => void} count
 * @returns {Promise<Bytes>}
 */
async function arriving(url, packed, count) {
  const { ok, status, body } = await fetch(url);
  if (!ok || !body) throw new Error(`${status} for ${url}`);
  const counted = body.pipeThrough(
    new TransformStream({
      transform(chunk, controller) {
        count(chunk.byteLength);
        controller.enqueue(chunk);
      },
    }),
  );
  return packed ? counted.pipeThrough(new DecompressionStream("gzip")) : counted;
}

/** @param {Promise<Bytes>} stream */
async function bytesOf(stream) {
  return new Uint8Array(await new Response(await stream).arrayBuffer());
}

/**
 * @param {Bytes} stream
 * @returns {Promise<CreateModule>}
 */
async function moduleFrom(stream) {
  const source = await new Response(stream, { headers: { "content-type": "text/javascript" } }).blob();
  const url = URL.createObjectURL(source);
  try {
    return (await import(url)).default;
  } finally {
    URL.revokeObjectURL(url);
  }
}

/**
 * Compiles the WebAssembly file while everything else is on its way: Pyodide would begin only when all of that is there.
 * Pyodide gets what was compiled. A file that is not WebAssembly fails the start: Pyodide would only warn, and wait forever.
 *
 * @param {Promise<Bytes>} stream
 * @param {Fail} fail
 */
function compile(stream, fail) {
  const headers = { "content-type": "application/wasm" };
  const compiled = stream.then((body) => WebAssembly.compileStreaming(new Response(body, { headers })));
  compiled.catch(fail);
  WebAssembly.instantiateStreaming = async (_, imports) => {
    const module = await compiled;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  };
}

/**
 * Pyodide fetches some files itself; it gets what is on its way already.
 *
 * @param {string} url
 * @param {Promise<Bytes> | null} stream
 * @param {string} type
 */
function serve(url, stream, type) {
  const fetchOthers = globalThis.fetch;
  globalThis.fetch = async (...request) => {
    if (String(request[0]) !== url) return fetchOthers(...request);
    return new Response(await stream, { headers: { "content-type": type } });
  };
}

/** @typedef {ReturnType<typeof memoryImage>} Image */

/**
 * The parts of a memory image; runtime/image.mjs writes it and says how.
 *
 * @param {Uint8Array<ArrayBuffer>} bytes
 */
function memoryImage(bytes) {
  const facts = new Uint32Array(bytes.buffer, 0, 10);
  const [headerBytes = 0, memoryBytes = 0, functions = 0, dataEnd = 0, sum = 0, heapStart = 0, heapEnd = 0] = facts;
  const [pages = 0, belowBytes = 0, heapBytes = 0] = facts.subarray(7);
  const numbers = facts.byteLength + headerBytes;
  const below = numbers + 4 * pages;
  if (bytes.length !== below + belowBytes + heapBytes) throw new Error("the memory image is cut off");
  return {
    header: bytes.slice(facts.byteLength, numbers),
    memoryBytes,
    functions,
    dataEnd,
    sum,
    heapStart,
    heapEnd,
    numbers: new Uint32Array(bytes.slice(numbers, below).buffer),
    below: bytes.subarray(below, below + belowBytes),
    heap: bytes.subarray(below + belowBytes),
  };
}

/**
 * A fresh Pyodide with the image in its memory; the header that Pyodide then reads has no memory behind it.
 *
 * @param {CreateModule} createPyodideModule
 * @param {Settings} settings
 * @param {Image} image
 */
async function withImage(createPyodideModule, settings, image) {
  /** The image's pages as the WebAssembly file fills them: Pyodide touches some before it is ready. @type {Uint32Array[]} */
  let before = [];
  let functions = 0;
  const { instantiateWasm } = settings;
  settings.instantiateWasm = (imports, done) =>
    instantiateWasm(imports, (instance, module) => {
      const { memory, __indirect_function_table: table } = /** @type {Exports} */ (/** @type {unknown} */ (instance.exports));
      functions = table.length;
      const words = new Uint32Array(memory.buffer);
      before = [...image.numbers].map((number) => words.slice((number * PAGE) / 4, ((number + 1) * PAGE) / 4));
      done(instance, module);
    });
  const module = await createPyodideModule(settings);
  if (module.HEAPU8.length !== image.memoryBytes || functions !== image.functions) throw new Error(OTHER);
  restore(module, image, before);
  return module;
}

/**
 * @param {Module} module
 * @param {Image} image
 * @param {Uint32Array[]} before
 */
function restore(module, { dataEnd, sum, heapStart, heapEnd, numbers, below, heap }, before) {
  const { HEAPU8, HEAPU32 } = module;
  // Python calls C by a function that Pyodide adds to the end of the table, and on iOS by none. The table's length differs
  // between engines: keep the pointer that this one has. The image has no other pointer to a function that was added.
  const trampoline = (module.__PyRuntime + wordAt(HEAPU32, module.__PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET)) / 4;
  const ownTrampoline = wordAt(HEAPU32, 4 * trampoline);
  // The decoder must not allocate: all that it needs goes beyond the heap's end, where nothing is yet.
  const contextBytes = module._ZSTD_estimateDCtxSize();
  const source = aligned(heapEnd + contextBytes);
  const scratch = aligned(source + Math.max(below.length, heap.length));
  const unpack = (/** @type {Uint8Array} */ frame, /** @type {number} */ target, /** @type {number} */ length) => {
    const context = module._ZSTD_initStaticDCtx(heapEnd, contextBytes);
    HEAPU8.set(frame, source);
    const made = module._ZSTD_decompressDCtx(context, target, length, source, frame.length);
    if (made !== length) throw new Error("the memory image cannot be unpacked");
  };
  unpack(heap, heapStart, heapEnd - heapStart);
  unpack(below, scratch, numbers.length * PAGE);
  before.forEach((words, at) => {
    const changes = HEAPU32.subarray((scratch + at * PAGE) / 4);
    const page = wordAt(numbers, 4 * at);
    HEAPU32.set(words.map((word, place) => word ^ wordAt(changes, 4 * place)), (page * PAGE) / 4);
  });
  HEAPU8.fill(0, heapEnd, scratch + numbers.length * PAGE);
  if (checksum(HEAPU32.subarray(0, dataEnd / 4)) !== sum) throw new Error(OTHER);
  HEAPU32[trampoline] = ownTrampoline;
}

/**
 * As in runtime/image.mjs.
 *
 * @param {Uint32Array} words
 */
function checksum(words) {
  let sum = 0;
  for (let at = 0; at < words.length; at += 1) sum = Math.imul(((sum << 5) | (sum >>> 27)) ^ (words[at] ?? 0), 0x9e3779b1);
  return sum >>> 0;
}

/**
 * The word at an address in bytes.
 *
 * @param {Uint32Array} words
 * @param {number} address
 */
function wordAt(words, address) {
  return words[address / 4] ?? 0;
}

/**
 * The next place where a word may be.
 *
 * @param {number} place
 */
function aligned(place) {
  return (place + 7) & ~7;
}
