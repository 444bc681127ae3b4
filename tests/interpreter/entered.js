// Before worker.js, where the WebAssembly file is one that tests/interpreter/marked.py has made: `entered()` gives the
// numbers of the functions that were entered so far. Emscripten gets the instance without the exports for this.
{
  const NAME = "entered.";
  const { instantiate } = WebAssembly;
  /** @type {Map<number, WebAssembly.Global>} */
  const marks = new Map();
  /** @param {WebAssembly.Module} module @param {WebAssembly.Imports} imports */
  const instantiateMarked = async (module, imports) => {
    const instance = await instantiate(module, imports);
    if (!(module instanceof WebAssembly.Module)) return instance;
    if (!(`${NAME}0` in instance.exports)) return instance;
    const exports = Object.create(null);
    for (const [name, value] of Object.entries(instance.exports)) {
      if (name.startsWith(NAME)) marks.set(Number(name.slice(NAME.length)), /** @type {WebAssembly.Global} */ (value));
      else exports[name] = value;
    }
    return { exports };
  };
  Object.assign(WebAssembly, { instantiate: instantiateMarked });
  Object.assign(globalThis, { entered: () => [...marks].filter(([, mark]) => mark.value).map(([number]) => number) });
}
