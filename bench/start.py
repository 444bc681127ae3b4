"""From the first touch to the first live answer, compared with a page that only runs `loadPyodide()` and `1+1`."""

from statistics import median

from playwright.sync_api import Browser, Page

from bench.host import RECIPE

RUNS = 9
# Nothing may start by itself: the page is made to believe that its reader saves data.
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


def measure(browser: Browser, address: str, runs: int = RUNS) -> dict[str, dict[str, float]]:
    """Medians in ms for our page and the bare one: cold (a new visitor) and warm (the next visit)."""
    pages = {"ours": (f"{address}site/{RECIPE}", OURS), "bare": (f"{address}bare/", BARE)}
    taken: dict[str, dict[str, list[float]]] = {name: {"cold": [], "warm": []} for name in pages}
    for _ in range(runs):
        for name, (url, script) in pages.items():
            context = browser.new_context()
            context.add_init_script(SAVING)
            page = context.new_page()
            for kind in ("cold", "warm", "warm"):
                taken[name][kind].append(_once(page, url, script))
            context.close()
    return {
        kind: {
            **{name: round(median(taken[name][kind]), 1) for name in pages},
            "ratio": round(median(taken["ours"][kind]) / median(taken["bare"][kind]), 3),
        }
        for kind in ("cold", "warm")
    }


def _once(page: Page, url: str, script: str) -> float:
    page.goto(url, wait_until="load")
    page.wait_for_timeout(300)
    took: float = page.evaluate(script)
    page.evaluate("localStorage.clear()")  # With a saved state, the next visit would start by itself.
    return took
