// Runs the calculators' Python, off the page's thread.
//
// First message in: { base, manifest, start }, where `start` is "snapshot" or "ordinary". Then: { id, request }.
// Out: { loaded, total, phase } while it starts, { live: true }, { id, reply, pythonMs } for each request, and { failed } once,
// after which this worker is of no more use: client.js begins another one with the ordinary start.
const PAGE = 4096;
const EMPTY_ZIP = "data:application/zip;base64,UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==";

let answer = null;

addEventListener("message", async ({ data }) => {
  try {
    if (data.manifest) {
      answer = await begin(data);
      postMessage({ live: true });
    } else {
      const begun = performance.now();
      const reply = answer(data.request);
      postMessage({ id: data.id, reply, pythonMs: performance.now() - begun });
    }
  } catch (error) {
    postMessage({ failed: String(error?.message ?? error) });
  }
});

/** Starts Python and gives the bridge's `answer`; rejects as soon as one file or the compiler fails. */
function begin(data) {
  return new Promise((resolve, reject) => start(data, reject).then(resolve, reject));
}

/** All files are asked for at once; each is unpacked as it comes. */
async function start({ base, manifest, start }, fail) {
  const names = manifest.starts[start];
  const total = names.reduce((sum, name) => sum + manifest.files[name].bytes, 0);
  let loaded = 0;
  const count = (bytes) => postMessage({ loaded: (loaded += bytes), total, phase: "fetching" });
  const coming = {};
  for (const name of names) {
    if (name !== "pyodide.mjs") coming[name] = arriving(base + name, manifest.files[name].packed, count);
  }
  for (const one of Object.values(coming)) one.catch(fail);
  compile(coming["pyodide.asm.wasm"], fail);
  serve(base + "pyodide.asm.wasm", null, "application/wasm");
  const [{ loadPyodide }, createPyodideModule] = await Promise.all([
    import(base + "pyodide.mjs"),
    coming["pyodide.asm.mjs"].then(moduleFrom),
  ]);
  count(manifest.files["pyodide.mjs"].bytes);
  const lockFileContents = { info: manifest.info, packages: {} };
  const options = { indexURL: base, packageBaseUrl: base, lockFileContents, env: manifest.environment };
  if (start === "snapshot") {
    const image = memoryImage(await bytesOf(coming["memory.bin"]));
    postMessage({ loaded, total, phase: "starting" });
    const pyodide = await loadPyodide({
      ...options,
      stdLibURL: EMPTY_ZIP,
      _loadSnapshot: image.header,
      createPyodideModule: (settings) => withImage(createPyodideModule, settings, image),
    });
    return pyodide.pyimport("crumbcoat_calc.bridge").answer;
  }
  serve(base + "python_stdlib.zip", coming["python_stdlib.zip"], "application/zip");
  const pyodide = await loadPyodide({ ...options, createPyodideModule });
  pyodide.unpackArchive(await bytesOf(coming["packages.zip"]), "zip");
  postMessage({ loaded, total, phase: "starting" });
  const bridge = pyodide.pyimport("crumbcoat_calc.bridge");
  bridge.warm();
  return bridge.answer;
}

/** The body of one file, counted as it comes and unpacked if it is packed. */
async function arriving(url, packed, count) {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${response.status} for ${url}`);
  const counted = response.body.pipeThrough(
    new TransformStream({
      transform(chunk, controller) {
        count(chunk.byteLength);
        controller.enqueue(chunk);
      },
    }),
  );
  return packed ? counted.pipeThrough(new DecompressionStream("gzip")) : counted;
}

async function bytesOf(stream) {
  return new Uint8Array(await new Response(await stream).arrayBuffer());
}

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
 * It is given what was made; and a file that is none, of which it would only warn and wait for ever, fails the start.
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

/** Pyodide fetches some files itself; it is given what is on its way already. */
function serve(url, stream, type) {
  const asked = globalThis.fetch;
  globalThis.fetch = async (...request) => {
    if (String(request[0]) !== url) return asked(...request);
    return new Response(await stream, { headers: { "content-type": type } });
  };
}

/** The parts of a memory image; runtime/image.mjs writes it and says how. */
function memoryImage(bytes) {
  const facts = new Uint32Array(bytes.buffer, 0, 7);
  const [headerBytes, memoryBytes, heapStart, heapEnd, pages, belowBytes, heapBytes] = facts;
  const numbers = facts.byteLength + headerBytes;
  const below = numbers + 4 * pages;
  if (bytes.length !== below + belowBytes + heapBytes) throw new Error("the memory image is not whole");
  return {
    header: bytes.slice(facts.byteLength, numbers),
    memoryBytes,
    heapStart,
    heapEnd,
    numbers: new Uint32Array(bytes.slice(numbers, below).buffer),
    below: bytes.subarray(below, below + belowBytes),
    heap: bytes.subarray(below + belowBytes),
  };
}

/** A fresh Pyodide with the image in its memory; the header that Pyodide then reads has no memory behind it. */
async function withImage(createPyodideModule, settings, image) {
  let before; // The image's pages as the WebAssembly file fills them: Pyodide touches some before it is ready.
  const { instantiateWasm } = settings;
  settings.instantiateWasm = (imports, done) =>
    instantiateWasm(imports, (instance, module) => {
      const words = new Uint32Array(instance.exports.memory.buffer);
      before = [...image.numbers].map((number) => words.slice((number * PAGE) / 4, ((number + 1) * PAGE) / 4));
      done(instance, module);
    });
  const module = await createPyodideModule(settings);
  restore(module, image, before);
  return module;
}

function restore(module, { memoryBytes, heapStart, heapEnd, numbers, below, heap }, before) {
  const { HEAPU8, HEAPU32 } = module;
  if (HEAPU8.length !== memoryBytes) throw new Error("the memory image is of another Pyodide");
  // How C calls a function of unknown arguments differs between engines: a pointer, or 0 on iOS. Keep what this one has.
  const trampoline = (module.__PyRuntime + HEAPU32[module.__PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET / 4]) / 4;
  const ownTrampoline = HEAPU32[trampoline];
  // The decoder must not allocate: all that it needs stands beyond the heap's end, where nothing is yet.
  const contextBytes = module._ZSTD_estimateDCtxSize();
  const source = aligned(heapEnd + contextBytes);
  const scratch = aligned(source + Math.max(below.length, heap.length));
  const unpack = (frame, target, length) => {
    const context = module._ZSTD_initStaticDCtx(heapEnd, contextBytes);
    HEAPU8.set(frame, source);
    const made = module._ZSTD_decompressDCtx(context, target, length, source, frame.length);
    if (made !== length) throw new Error("the memory image cannot be unpacked");
  };
  unpack(heap, heapStart, heapEnd - heapStart);
  unpack(below, scratch, numbers.length * PAGE);
  let from = scratch / 4;
  numbers.forEach((number, at) => {
    HEAPU32.set(before[at].map((word) => word ^ HEAPU32[from++]), (number * PAGE) / 4);
  });
  HEAPU8.fill(0, heapEnd, from * 4);
  HEAPU32[trampoline] = ownTrampoline;
}

/** The next place where a word may stand. */
function aligned(place) {
  return (place + 7) & ~7;
}
