// Clears what nobody uses, so that it takes no room in a snapshot: the stack below its top, and what the C allocator
// (dlmalloc, 32 bits) holds free.
//
// The heap is a row of chunks. A chunk's second word is its size; bit 1 of it says that the chunk is in use. A free
// chunk begins with its links, which stay: 16 bytes, or 32 in one that is kept in a tree (256 bytes and more).
const IN_USE = 2;
const FLAGS = 7;
const IN_TREE = 256;
const END = 80; // The last chunk is the allocator's own mark at the end of the heap.

/**
 * The parts of Emscripten's module that this needs.
 *
 * @typedef {object} Memory
 * @property {Uint8Array} HEAPU8
 * @property {Uint32Array} HEAPU32
 * @property {number} ___heap_base
 * @property {() => number} _emscripten_get_sbrk_ptr
 * @property {() => number} _emscripten_stack_get_end
 * @property {() => number} _emscripten_stack_get_current
 */

/**
 * Clears it; gives where the heap begins and ends.
 *
 * @param {Memory} module
 * @returns {[start: number, end: number]}
 */
export function clearFreeMemory(module) {
  const { HEAPU8: bytes, HEAPU32: words } = module;
  const word = (/** @type {number} */ address) => {
    const found = words[address >>> 2];
    if (found === undefined) throw new Error(`there is no memory at ${address}`);
    return found;
  };
  const end = word(module._emscripten_get_sbrk_ptr());
  const start = (module.___heap_base + 7) & ~7;
  let chunk = start;
  while (chunk < end - END) {
    const head = word(chunk + 4);
    const size = head & ~FLAGS;
    if (size < 16 || chunk + size > end) throw new Error(`the heap cannot be read at ${chunk}`);
    if (!(head & IN_USE)) bytes.fill(0, chunk + (size < IN_TREE ? 16 : 32), chunk + size);
    chunk += size;
  }
  bytes.fill(0, module._emscripten_stack_get_end(), module._emscripten_stack_get_current());
  bytes.fill(0, end); // Beyond the heap's end nothing was ever promised.
  return [start, end];
}
