// The memory image: where a snapshot's memory differs from the data in Pyodide's WebAssembly file.
//
// It has two parts, each a Zstandard frame: the pages below the heap that differ, each word xor the word of the file,
// and the heap as it is. Pyodide brings its own Zstandard decoder, which unpacks the heap straight to its place.
// Zstandard finds what repeats over megabytes, where gzip sees 32 kB: a fifth less.
//
// Only the file's data is the same everywhere. What Pyodide does before the snapshot is put in its place depends on the
// host (its name, its environment, chance), so every page that it touches is in the image, changed or not.
//
// A browser may still be unlike any that was tried. So the image says what it is made for: how many functions the table of
// the WebAssembly file has, and a checksum of the data below the stack, with the image in them. Zstandard has one of its own
// for the heap. Where they differ, memory_image.js refuses the image before anything runs on it.
//
// Words of 32 bits: the length of Pyodide's own snapshot header, of the memory, of the table of functions, of the data and
// their checksum, where the heap begins and ends, how many pages differ, the length of their frame and of the heap's; the
// header; the numbers of the pages; the two frames. All other lengths and places are in bytes. memory_image.js reads it.
const PAGE = 4096;
const FACTS = 10;

/**
 * @param {Uint8Array} snapshot what Pyodide makes: a header, then the memory
 * @param {Uint8Array} data the memory as the WebAssembly file fills it
 * @param {Uint8Array} begun the same after Pyodide's own preparations
 * @param {number} functions how many the WebAssembly file's table has
 * @param {number} dataEnd
 * @param {number} heapStart
 * @param {number} heapEnd
 * @param {(bytes: Uint8Array) => Uint8Array} packed makes a Zstandard frame of bytes
 */
export function image(snapshot, data, begun, functions, dataEnd, heapStart, heapEnd, packed) {
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
  const sum = checksum(new Uint32Array(memory.slice(0, dataEnd).buffer));
  const lengths = [pages.length, belowFrame.length, heapFrame.length];
  const facts = [headerBytes, memory.length, functions, dataEnd, sum, start, end, ...lengths];
  const words = Uint32Array.from([...facts, ...pages.map((page) => page / PAGE)]);
  return Buffer.concat([
    Buffer.from(words.buffer, 0, FACTS * 4),
    snapshot.subarray(0, headerBytes),
    Buffer.from(words.buffer, FACTS * 4),
    belowFrame,
    heapFrame,
  ]);
}

/**
 * A checksum; memory_image.js has the same. Browsers run a plain loop over a million words several times as fast as any other.
 *
 * @param {Uint32Array} words
 */
function checksum(words) {
  let sum = 0;
  for (let at = 0; at < words.length; at += 1) sum = Math.imul(((sum << 5) | (sum >>> 27)) ^ (words[at] ?? 0), 0x9e3779b1);
  return sum >>> 0;
}
