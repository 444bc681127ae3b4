// The memory image: where a snapshot's memory differs from the data in Pyodide's WebAssembly file.
//
// It has two parts, each a Zstandard frame: the pages below the heap that differ, each word xor the word of the file,
// and the heap as it is. Pyodide brings its own Zstandard decoder, which unpacks the heap straight to its place.
// Zstandard finds what repeats over megabytes, where gzip sees 32 kB: a fifth less.
//
// Only the file's data is the same everywhere. What Pyodide does before the snapshot is put in its place depends on the
// host (its name, its environment, chance), so every page that it touches is in the image, changed or not.
//
// Words of 32 bits: the length of Pyodide's own snapshot header, of the memory, where the heap begins and ends, how many
// pages differ, the length of their frame and of the heap's; the header; the numbers of the pages; the two frames.
// All lengths and places are in bytes. worker.js reads it.
const PAGE = 4096;
const FACTS = 7;

/**
 * @param {Uint8Array} snapshot what Pyodide makes: a header, then the memory
 * @param {Uint8Array} data the memory as the WebAssembly file fills it
 * @param {Uint8Array} begun the same after Pyodide's own preparations
 * @param {number} heapStart
 * @param {number} heapEnd
 * @param {(bytes: Uint8Array) => Uint8Array} packed makes a Zstandard frame of bytes
 */
export function image(snapshot, data, begun, heapStart, heapEnd, packed) {
  const [, headerBytes = 0] = new Uint32Array(snapshot.buffer, snapshot.byteOffset, 2);
  const memory = snapshot.subarray(headerBytes);
  if (memory.length !== data.length) throw new Error("the snapshot needs more memory than Pyodide starts with");
  const start = (heapStart + PAGE - 1) & ~(PAGE - 1); // Below it is the stack on which the decoder runs.
  const end = (heapEnd + PAGE - 1) & ~(PAGE - 1);
  const pages = [];
  for (let page = 0; page < memory.length; page += PAGE) {
    const was = data.subarray(page, page + PAGE);
    const isSame = (/** @type {Uint8Array} */ other) => Buffer.compare(other.subarray(page, page + PAGE), was) === 0;
    if (isSame(memory) && isSame(begun)) continue;
    if (page >= end) throw new Error("there is something beyond the end of the heap");
    if (page < start) pages.push(page);
  }
  const difference = (/** @type {number} */ page) => memory.slice(page, page + PAGE).map((byte, at) => byte ^ (data[page + at] ?? 0));
  const below = new Uint8Array(Buffer.concat(pages.map(difference)));
  const belowFrame = packed(below);
  const heapFrame = packed(memory.subarray(start, end));
  const facts = [headerBytes, memory.length, start, end, pages.length, belowFrame.length, heapFrame.length];
  const words = Uint32Array.from([...facts, ...pages.map((page) => page / PAGE)]);
  return Buffer.concat([
    Buffer.from(words.buffer, 0, FACTS * 4),
    snapshot.subarray(0, headerBytes),
    Buffer.from(words.buffer, FACTS * 4),
    belowFrame,
    heapFrame,
  ]);
}
