"""An untouched page at a CPU 4 times slower: its longest tasks, in ms, and how far it moves by itself.

The baselines are the same card in plain MkDocs with Material: with its own HTML (`plain`), with its headings and
words (`lean`).
"""

from statistics import median

from playwright.sync_api import Browser

from bench.baselines import BASELINES, build_baselines
from bench.host import RECIPE

SLOWER = 4
SECONDS = 4
VISITS = 5
PAGES = {
    "a card": f"site/{RECIPE}",
    "the longest card": "site/milk-emulsions/silk-milk-frosting/",
    "a handout": "site/milk-emulsions/silk-milk-frosting/handout/",
    "the map": "site/calculators/map/",
    "all recipes": "site/",
    **{f"the card, {which}": f"{which}/site/{RECIPE}" for which in BASELINES},
}
WATCH = """
window.seen = { tasks: [], shift: 0 };
new PerformanceObserver((list) => {
  for (const { startTime, duration } of list.getEntries()) seen.tasks.push([startTime, duration]);
}).observe({ type: "longtask", buffered: true });
new PerformanceObserver((list) => {
  for (const { value } of list.getEntries()) seen.shift += value;
}).observe({ type: "layout-shift", buffered: true });
"""
FOUND = """() => {
  const [{ loadEventEnd }] = performance.getEntriesByType("navigation");
  const longest = (tasks) => Math.max(0, ...tasks.map(([, duration]) => duration));
  return {
    loading: longest(seen.tasks.filter(([start]) => start <= loadEventEnd)),
    after: longest(seen.tasks.filter(([start]) => start > loadEventEnd)),
    shift: seen.shift,
  };
}"""


def measure(browser: Browser, address: str) -> dict[str, dict[str, float]]:
    """By page, at a phone's width: the longest task until the page is loaded, and after that; 0 if none takes 50 ms."""
    build_baselines()
    seen: dict[str, list[dict[str, float]]] = {name: [] for name in PAGES}
    for _ in range(VISITS):
        for name, path in PAGES.items():
            seen[name].append(_visit(browser, f"{address}{path}"))
    return {
        name: {
            "longest task while it loads": round(median(visit["loading"] for visit in visits)),
            "longest task after that": round(median(visit["after"] for visit in visits)),
            "layout shift": round(max(visit["shift"] for visit in visits), 4),
        }
        for name, visits in seen.items()
    }


def _visit(browser: Browser, url: str) -> dict[str, float]:
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.add_init_script(WATCH)
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(url, wait_until="load")
    page.wait_for_timeout(1000 * SECONDS)
    found: dict[str, float] = page.evaluate(FOUND)
    context.close()
    return found
