// The memory image: what a snapshot's memory differs in from that of a freshly instantiated Pyodide.
//
// Words of 32 bits: the length of Pyodide's own snapshot header in bytes, the length of the memory in bytes, how many
// pages differ; the header; the numbers of the pages; the pages, each word xor the word that stood there before.
// worker.js reads it.
const PAGE = 4096;

export function image(snapshot, base) {
  const words = new Uint32Array(snapshot.buffer, snapshot.byteOffset, snapshot.byteLength / 4);
  const headerBytes = words[1];
  const memory = words.subarray(headerBytes / 4);
  const before = new Uint32Array(base.buffer, base.byteOffset, base.byteLength / 4);
  if (memory.length !== before.length) throw new Error("the snapshot needs more memory than Pyodide starts with");
  const pages = [];
  for (let page = 0; page < memory.length; page += PAGE / 4) {
    if (memory.subarray(page, page + PAGE / 4).some((word, at) => word !== before[page + at])) pages.push(page);
  }
  const made = new Uint32Array(3 + headerBytes / 4 + pages.length * (1 + PAGE / 4));
  made.set([headerBytes, memory.byteLength, pages.length]);
  made.set(words.subarray(0, headerBytes / 4), 3);
  let at = 3 + headerBytes / 4;
  for (const page of pages) made[at++] = page / (PAGE / 4);
  for (const page of pages) {
    for (let word = page; word < page + PAGE / 4; word += 1) made[at++] = memory[word] ^ before[word];
  }
  return new Uint8Array(made.buffer);
}
