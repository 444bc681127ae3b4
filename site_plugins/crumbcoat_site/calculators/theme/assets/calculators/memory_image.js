// The memory image of a Pyodide that has imported everything, laid over a fresh one. runtime/image.mjs writes it.
const PAGE = 4096;
const OTHER = "the memory image is of another Pyodide";

/** More functions than Pyodide adds to its table in any browser: 5,400 in most, 6,400 in WebKit. */
const ADDED = 7000;

/** What the decoder and its callers may need of the stack, at its upper end, in bytes: they take a few thousand. */
const STACK = 1 << 20;

/** @typedef {(settings: Settings) => Promise<Module>} CreateModule */
/** @typedef {(instance: WebAssembly.Instance, module: WebAssembly.Module) => void} Done */
/** @typedef {{ instantiateWasm: (imports: WebAssembly.Imports, done: Done) => unknown }} Settings */
/** @typedef {{ memory: WebAssembly.Memory, __indirect_function_table: WebAssembly.Table }} Exports */

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

/** @typedef {ReturnType<typeof memoryImage>} Image */

/**
 * The parts of a memory image; runtime/image.mjs writes it and says how.
 *
 * @param {Uint8Array<ArrayBuffer>} bytes
 */
export function memoryImage(bytes) {
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
export async function withImage(createPyodideModule, settings, image) {
  /** The image's pages as the WebAssembly file fills them: Pyodide touches some before it is ready. @type {Uint32Array[]} */
  let before = [];
  let functions = 0;
  const { instantiateWasm } = settings;
  settings.instantiateWasm = (imports, done) =>
    instantiateWasm(imports, (instance, module) => {
      const { memory, __indirect_function_table: table } = /** @type {Exports} */ (/** @type {unknown} */ (instance.exports));
      functions = table.length;
      growAtOnce(table);
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
 * Makes room for all functions that Pyodide adds. It adds them one by one, and WebKit copies the table each time.
 *
 * @param {WebAssembly.Table} table
 */
function growAtOnce(table) {
  const grow = table.grow.bind(table);
  let next = grow(ADDED);
  table.grow = (by) => {
    const place = next;
    next += by;
    if (next > table.length) grow(next - table.length);
    return place;
  };
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
  // The decoder must not allocate: all that it needs goes to the lower end of the stack, between the data and the heap,
  // which nothing has reached yet. That room does not depend on how large the heap is.
  const place = aligned(dataEnd);
  const contextBytes = module._ZSTD_estimateDCtxSize();
  const source = aligned(place + contextBytes);
  const scratch = aligned(source + below.length); // The heap is in its place by then, and its frame of no more use.
  const used = Math.max(source + heap.length, scratch + numbers.length * PAGE);
  if (used + STACK > heapStart) throw new Error("the memory image leaves no room to unpack it");
  const unpack = (/** @type {Uint8Array} */ frame, /** @type {number} */ target, /** @type {number} */ length) => {
    const context = module._ZSTD_initStaticDCtx(place, contextBytes);
    HEAPU8.set(frame, source);
    const made = module._ZSTD_decompressDCtx(context, target, length, source, frame.length);
    if (made !== length) throw new Error("the memory image cannot be unpacked");
  };
  unpack(heap, heapStart, heapEnd - heapStart);
  unpack(below, scratch, numbers.length * PAGE);
  before.forEach((words, at) => {
    const changes = HEAPU32.subarray((scratch + at * PAGE) / 4);
    const page = wordAt(numbers, 4 * at);
    HEAPU32.set(words.map((word, index) => word ^ wordAt(changes, 4 * index)), (page * PAGE) / 4);
  });
  HEAPU8.fill(0, place, used);
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
