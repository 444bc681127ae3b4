"""From the first touch to the first live answer, against a page that only runs a bare Pyodide; by engine."""

import time
from collections.abc import Callable
from contextlib import AbstractContextManager, closing
from statistics import median

from playwright.sync_api import Browser, Playwright

from bench.host import RECIPE
from tests.engines.drivers import Engine, OfPlaywright, firefox, until, webkit

RUNS = {"Chromium": 7, "Firefox": 5, "WebKit": 3}
READY = {
    "ours": "document.querySelector('recipe-calculator')?.state !== undefined",
    "bare": "globalThis.begin !== undefined",
}
# Until the next visit: WebKit goes on compiling for the one before, and what it compiles next would wait for that.
REST_S = 3
# For a measurement in which nothing may start by itself on the second visit: the reader saves data.
SAVING = "Object.defineProperty(navigator, 'connection', { value: { saveData: true } })"
OURS = """() => new Promise((done) => {
  const calculator = document.querySelector("recipe-calculator");
  const begun = performance.now();
  calculator.addEventListener("recipe-state", () => done(performance.now() - begun), { once: true });
  calculator.state = { factor: "2" };
})"""
BARE = """async () => {
  const begun = performance.now();
  await globalThis.begin();
  return performance.now() - begun;
}"""


def measure(browser: Browser, address: str, playwright: Playwright) -> dict[str, dict[str, float]]:
    """Medians in ms by engine for our page and the bare one: cold (a new visitor) and warm (the next visit)."""
    engines: dict[str, Callable[[], AbstractContextManager[Engine]]] = {
        "Chromium": lambda: closing(OfPlaywright(browser)),
        "Firefox": lambda: firefox(playwright),
        "WebKit": webkit,
    }
    pages = {"ours": (f"{address}site/{RECIPE}", OURS), "bare": (f"{address}bare/", BARE)}
    table: dict[str, dict[str, float]] = {}
    for engine, visitor in engines.items():
        taken: dict[str, dict[str, list[float]]] = {name: {"cold": [], "warm": []} for name in pages}
        for _ in range(RUNS[engine]):
            for name, (url, script) in pages.items():
                with visitor() as visiting:
                    for kind in ("cold", "warm"):
                        taken[name][kind].append(_once(visiting, url, READY[name], script))
        for kind in ("cold", "warm"):
            ours, bare = (round(median(taken[name][kind]), 1) for name in pages)
            table[f"{engine}, {kind}"] = {"ours": ours, "bare": bare, "ratio": round(ours / bare, 3)}
    return table


def _once(engine: Engine, url: str, ready: str, script: str) -> float:
    engine.open(url)
    until(engine, ready)
    time.sleep(0.3)
    took: float = engine.js(f"({script})()")
    engine.js("localStorage.clear()")  # With a saved state, the next visit would start by itself.
    engine.open("about:blank")
    time.sleep(REST_S)
    return took
