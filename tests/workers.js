// Run in each page of a test before the page's own scripts, with HOST, an address. A page of that host has cheaper workers:
// starting Pyodide takes a processor two seconds, each edit a tenth, and reading the search index half a second a page.
const { Worker } = globalThis;

/** Speaks as the calculators' worker.js does; its answers come from the host, where Python runs as it does in the build. */
class WorkerOfHost extends EventTarget {
  #session = `/python/${Math.random()}`;
  #answered = Promise.resolve();
  #ended = false;

  postMessage(data) {
    if (data.manifest) {
      this.#say({ loaded: 1_000_000, total: 2_000_000, phase: "fetching" });
      setTimeout(() => this.#say({ loaded: 2_000_000, total: 2_000_000, phase: "starting" }), 20);
      setTimeout(() => this.#say({ live: true }), 40);
    } else {
      this.#answered = this.#answered.then(() => this.#answer(data));
    }
  }

  terminate() {
    this.#ended = true;
  }

  async #answer({ id, request }) {
    const startedMs = performance.now();
    try {
      const answer = await fetch(this.#session, { method: "POST", body: request });
      this.#say({ id, reply: await answer.text(), pythonMs: performance.now() - startedMs });
    } catch (error) {
      this.#say({ failed: String(error) }); // The host printed why.
    }
  }

  #say(data) {
    queueMicrotask(() => this.#ended || this.dispatchEvent(new MessageEvent("message", { data })));
  }
}

/** The theme's search, which begins to read its index only when its field is first in focus. */
class SearchWhenAsked extends EventTarget {
  #waiting = [];
  #worker;

  constructor(address, options) {
    super();
    addEventListener("focusin", ({ target }) => target.closest(".md-search") && this.#begin(address, options));
  }

  #begin(address, options) {
    if (this.#worker) return;
    this.#worker = new Worker(address, options);
    this.#worker.onmessage = ({ data }) => this.dispatchEvent(new MessageEvent("message", { data }));
    for (const message of this.#waiting) this.#worker.postMessage(message);
  }

  postMessage(message) {
    if (this.#worker) this.#worker.postMessage(message);
    else this.#waiting.push(message);
  }

  terminate() {
    this.#worker?.terminate();
  }
}

if (HOST === `${location.origin}/`) {
  globalThis.Worker = function (address, options) {
    const { pathname } = new URL(address, location);
    if (pathname.includes("/calculators/")) return new WorkerOfHost();
    return pathname.includes("/search.") ? new SearchWhenAsked(address, options) : new Worker(address, options);
  };
}
