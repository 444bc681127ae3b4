// Takes chance, the clock and the version of Node out of this process, so that two snapshots of the same inputs are the
// same bytes, whichever Node makes them.
import { createRequire } from "node:module";

export function repeatable() {
  const fill = (/** @type {ArrayBufferView} */ array) => {
    new Uint8Array(array.buffer, array.byteOffset, array.byteLength).fill(7);
    return array;
  };
  Object.defineProperty(globalThis.crypto, "getRandomValues", { value: fill });
  createRequire(import.meta.url)("node:crypto").randomFillSync = fill;
  Math.random = () => 0.5;
  const start = Date.UTC(2020, 0, 1);
  Date.now = () => start;
  performance.now = () => 0;
  // Pyodide keeps it as `sys._emscripten_info.runtime`.
  Object.defineProperty(globalThis, "navigator", { value: { userAgent: "Node.js" }, configurable: true });
  // Where the engine can suspend WebAssembly (Node 26, not 24), Pyodide exchanges a method that nobody here calls.
  Reflect.deleteProperty(WebAssembly, "Suspending");
}
