// Runs the calculators' Python, off the page's thread.
//
// First message in: { base, manifest, start }, where `start` is "snapshot" or "ordinary". Then: { id, request }.
// Out: { loaded, total, phase } while it starts, { live: true }, { id, reply, pythonMs } for each request, and
// { failed, isMissing } once, after which this worker is of no more use: client.js starts another one with the ordinary start.

/** The end of a ZIP file, and nothing before it: the memory image has the library already. */
const EMPTY_ZIP = [0x50, 0x4b, 5, 6, ...new Array(18).fill(0)];

/** @import { CreateModule, Settings } from "./memory_image.js" */

/** @typedef {typeof import("./manifest.js").default} Manifest */
/** @typedef {(why: unknown) => void} Fail */
/** @typedef {ReadableStream<Uint8Array<ArrayBuffer>>} Bytes */
/** @typedef {(request: string) => string} Answer */

/** A file did not come. */
class Missing extends Error {}

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
    postMessage({ failed: error instanceof Error ? error.message : String(error), isMissing: error instanceof Missing });
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
  for (const [name, { packed }] of files) if (!name.endsWith(".mjs")) coming.set(name, arriving(base + name, packed, count));
  for (const stream of coming.values()) stream.catch(fail);
  const file = (/** @type {string} */ name) => coming.get(name) ?? Promise.reject(new Error(`${way} has no ${name}`));
  const missing = (/** @type {Error} */ { message }) => Promise.reject(new Missing(message));
  const imaging = import("./memory_image.js").catch(missing);
  imaging.catch(fail);
  const interpreter = [...files.keys()].find((name) => name.endsWith(".wasm")) ?? "WebAssembly file";
  const loader = [...files.keys()].find((name) => /^(?!pyodide\.mjs).*\.mjs$/.test(name)) ?? "script";
  const imported = (/** @type {string} */ name) =>
    import(base + name).catch(missing).then((module) => {
      count(files.get(name)?.bytes ?? 0);
      return module;
    });
  compile(file(interpreter), fail);
  serve(`${base}pyodide.asm.wasm`, null, "application/wasm");
  /** @type {[any, { default: CreateModule }]} */
  const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all([imported("pyodide.mjs"), imported(loader)]);
  const lockFileContents = { info: manifest.info, packages: {} };
  const options = { indexURL: base, packageBaseUrl: base, lockFileContents, env: manifest.environment };
  if (way === "snapshot") {
    const { memoryImage, withImage } = await imaging;
    const image = memoryImage(await bytesOf(file("memory.bin")));
    postMessage({ loaded, total, phase: "starting" });
    serve(`${base}no_library.zip`, Promise.resolve(new Blob([new Uint8Array(EMPTY_ZIP)]).stream()), "application/zip");
    const pyodide = await loadPyodide({
      ...options,
      stdLibURL: `${base}no_library.zip`,
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
  const { ok, status, body } = await fetch(url).catch(({ message }) => ({ ok: false, status: message, body: null }));
  if (!ok || !body) throw new Missing(`${status} for ${url}`);
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
