"""An untouched page at a CPU 4 times slower: its longest tasks, in ms, and how far it moves by itself."""

from playwright.sync_api import Browser

SLOWER = 4
SECONDS = 8
PAGES = {
    "a card": "buttercreams/custard-buttercream/",
    "the longest card": "low-fat/silk-milk-frosting/",
    "a handout": "low-fat/silk-milk-frosting/handout/",
    "the map": "calculators/map/",
    "all recipes": "",
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
    table = {}
    for name, path in PAGES.items():
        context = browser.new_context(viewport={"width": 390, "height": 844})
        page = context.new_page()
        page.add_init_script(WATCH)
        context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        page.goto(f"{address}site/{path}", wait_until="load")
        page.wait_for_timeout(1000 * SECONDS)
        found = page.evaluate(FOUND)
        table[name] = {
            "longest task while it loads": round(found["loading"]),
            "longest task after that": round(found["after"]),
            "layout shift": round(found["shift"], 4),
        }
        context.close()
    return table
