// `node --import other_table.mjs`: an engine in which the functions that Pyodide adds to its table have other places, as in
// WebKit, which counts some of them twice.
const { grow } = WebAssembly.Table.prototype;
const grown = new WeakSet();

/**
 * @this {WebAssembly.Table}
 * @param {number} by
 */
WebAssembly.Table.prototype.grow = function growOtherwise(by) {
  if (!grown.has(this)) grow.call(this, 1000);
  grown.add(this);
  return grow.call(this, by);
};
