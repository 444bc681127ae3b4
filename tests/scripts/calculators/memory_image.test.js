// The table of functions of a Pyodide that the memory image is laid over: it grows at once, and places stay as they were.
import assert from "node:assert/strict";
import { test } from "node:test";

import { withImage } from "../../../site_plugins/crumbcoat_site/calculators/theme/assets/calculators/memory_image.js";

const FUNCTIONS = 8000;

/** An image without pages, of another Pyodide: it is refused once Pyodide is there. */
const NO_IMAGE = /** @type {any} */ ({ numbers: [], memoryBytes: 1, functions: FUNCTIONS });

for (const [engine, added] of /** @type {[string, number][]} */ ([["most", 5400], ["WebKit", 6400], ["one to come", 9000]])) {
  test(`it is not copied for each function that is added, in ${engine}`, async () => {
    const table = new WebAssembly.Table({ element: "anyfunc", initial: FUNCTIONS });
    const grow = table.grow.bind(table);
    let copies = 0;
    table.grow = (by) => {
      copies += 1;
      return grow(by);
    };
    const memory = new WebAssembly.Memory({ initial: 1 });
    /** @type {number[]} */
    const places = [];
    /** @param {any} settings */
    const createPyodideModule = async (settings) => {
      settings.instantiateWasm({}, () => {
        for (let number = 0; number < added; number += 1) places.push(table.grow(1));
      });
      return /** @type {any} */ ({ HEAPU8: new Uint8Array(memory.buffer) });
    };
    /** @type {any} */
    const settings = {
      instantiateWasm: (/** @type {unknown} */ _, /** @type {(instance: unknown) => void} */ done) =>
        done({ exports: { memory, __indirect_function_table: table } }),
    };
    await assert.rejects(withImage(createPyodideModule, settings, NO_IMAGE), /of another Pyodide/);
    assert.deepEqual(places, [...places.keys()].map((number) => FUNCTIONS + number));
    assert.ok(table.length >= FUNCTIONS + added);
    if (added < 7000) assert.equal(copies, 1);
  });
}

// The room is that of the stack: the heap may fill the memory to its end.
for (const [room, words] of /** @type {[number, RegExp][]} */ ([[400, /is of another Pyodide/], [399, /leaves no room/]])) {
  test(`an image is refused before it is unpacked where there is no room for that: ${room} bytes`, async () => {
    const memory = new WebAssembly.Memory({ initial: 17 });
    const HEAPU8 = new Uint8Array(memory.buffer);
    const table = new WebAssembly.Table({ element: "anyfunc", initial: FUNCTIONS });
    /** @param {any} settings */
    const createPyodideModule = async (settings) => {
      settings.instantiateWasm({}, () => {});
      return /** @type {any} */ ({
        HEAPU8,
        HEAPU32: new Uint32Array(memory.buffer, 0, 16),
        __PyRuntime: 0,
        __PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET: 0,
        _ZSTD_estimateDCtxSize: () => 200,
        _ZSTD_initStaticDCtx: () => 1,
        _ZSTD_decompressDCtx: (/** @type {number} */ _, /** @type {number} */ __, /** @type {number} */ length) => length,
      });
    };
    /** @type {any} */
    const settings = {
      instantiateWasm: (/** @type {unknown} */ _, /** @type {(instance: unknown) => void} */ done) =>
        done({ exports: { memory, __indirect_function_table: table } }),
    };
    const heap = new Uint8Array(400);
    /** @type {any} */
    const image = {
      memoryBytes: HEAPU8.length, functions: FUNCTIONS, dataEnd: 8, sum: 1,
      heapStart: 8 + 200 + room + (1 << 20), heapEnd: HEAPU8.length,
      numbers: new Uint32Array(), below: new Uint8Array(8), heap,
    };
    await assert.rejects(withImage(createPyodideModule, settings, image), words);
  });
}
