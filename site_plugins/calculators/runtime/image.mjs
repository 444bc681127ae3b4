// The memory image: what a snapshot's memory differs in from that of a freshly instantiated Pyodide.
//
// It has two parts, each a Zstandard frame: the pages below the heap that differ, each word xor the word that stood
// there before, and the heap as it is, which was empty before. Pyodide brings its own Zstandard decoder, which unpacks
// the heap straight to its place. Zstandard finds what repeats over megabytes, where gzip sees 32 kB: a fifth less.
//
// Words of 32 bits: the length of Pyodide's own snapshot header, of the memory, where the heap begins and ends, how many
// pages differ, the length of their frame and of the heap's, where a fresh heap's first words stand and their sum, by
// which a browser knows that its memory is laid out as the one that the image was made from (the environment stands
// first in a heap); the header; the numbers of the pages; the two frames.
// All lengths and places are in bytes. worker.js reads it.
import zlib from "node:zlib";

const PAGE = 4096;
const FACTS = 9;
const FIRST = 8192;
const { ZSTD_c_compressionLevel, ZSTD_c_windowLog } = zlib.constants;

export function image(snapshot, base, heapStart, heapEnd) {
  const headerBytes = new Uint32Array(snapshot.buffer, snapshot.byteOffset, 2)[1];
  const memory = snapshot.subarray(headerBytes);
  if (memory.length !== base.length) throw new Error("the snapshot needs more memory than Pyodide starts with");
  const start = (heapStart + PAGE - 1) & ~(PAGE - 1); // Below it is the stack on which the decoder runs.
  const end = (heapEnd + PAGE - 1) & ~(PAGE - 1);
  const pages = [];
  for (let page = 0; page < memory.length; page += PAGE) {
    const differs = Buffer.compare(memory.subarray(page, page + PAGE), base.subarray(page, page + PAGE)) !== 0;
    if (differs && page >= end) throw new Error("something stands beyond the end of the heap");
    if (differs && page < start) pages.push(page);
  }
  const changed = (page) => memory.slice(page, page + PAGE).map((byte, at) => byte ^ base[page + at]);
  const below = Buffer.concat(pages.map(changed));
  const belowFrame = packed(below);
  const heapFrame = packed(memory.subarray(start, end));
  const first = new Uint32Array(base.buffer, base.byteOffset + heapStart, FIRST / 4);
  const sum = first.reduce((sum, word) => (Math.imul(sum, 31) + word) >>> 0, 0);
  const frames = [belowFrame.length, heapFrame.length];
  const facts = [headerBytes, memory.length, start, end, pages.length, ...frames, heapStart, sum];
  const words = Uint32Array.from([...facts, ...pages.map((page) => page / PAGE)]);
  return Buffer.concat([
    Buffer.from(words.buffer, 0, FACTS * 4),
    snapshot.subarray(0, headerBytes),
    Buffer.from(words.buffer, FACTS * 4),
    belowFrame,
    heapFrame,
  ]);
}

function packed(bytes) {
  const params = { [ZSTD_c_compressionLevel]: 22, [ZSTD_c_windowLog]: 25 };
  return zlib.zstdCompressSync(bytes, { params, pledgedSrcSize: bytes.length });
}
