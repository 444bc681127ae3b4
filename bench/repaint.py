"""From an edit to the repainted figures, in ms: a recipe with 25 ingredients and all of the science shown."""

import json
import shutil
import subprocess
import sys
from collections.abc import Sequence
from statistics import median

from playwright.sync_api import Browser, Page

from bench.host import FOLDER, ROOT
from bench.start import BARE, READY

EDITS, WARMING = 400, 100
SLOWER = 4
BARE_STARTS = 5
# One edit as a reader makes it: a field changes, the worker answers, the texts go into the page, those that are left
# for later follow, a frame is painted.
EDIT = """async ([name, values]) => {
  const calculator = document.querySelector('recipe-calculator[name="batch"]');
  const field = [...calculator.form.elements].find((one) => one.name === name);
  const script = document.querySelector('script[src$="/calculator.js"]');
  const { status } = await import(new URL("client.js", script.src));
  const { port1, port2 } = new MessageChannel();
  const soon = () => new Promise((done) => ((port1.onmessage = done), port2.postMessage(null)));
  const taken = [];
  let blocked = 0;
  const look = (list) => list.getEntries().forEach((task) => (blocked = Math.max(blocked, task.duration)));
  new PerformanceObserver(look).observe({ type: "longtask" });
  for (const value of values) {
    const heard = new Promise((done) => calculator.addEventListener("recipe-state", done, { once: true }));
    const begun = performance.now();
    field.value = value;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));  // It counts at once, and not at a pause.
    const handled = performance.now();
    await heard;
    const shown = performance.now();
    const firstMs = status.pythonMs;
    while (!calculator.kept) await soon();
    const whole = performance.now();
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    taken.push([shown - begun, firstMs, handled - begun, whole - begun, firstMs + status.pythonMs]);
    await new Promise((done) => setTimeout(done, 20));
  }
  return { taken, blocked };
}"""
# The same edits sent to Python one after another; nothing is painted in between, which would use the cores.
ALONE = """async ([name, values]) => {
  const calculator = document.querySelector('recipe-calculator[name="batch"]');
  const script = document.querySelector('script[src$="/calculator.js"]');
  const { ask, status } = await import(new URL("client.js", script.src));
  const context = { digest: calculator.dataset.digest, content: calculator.getAttribute("context") };
  let shown = 0;
  const taken = [];
  for (const value of values) {
    ({ number: shown } = await ask(context, { calculator: "batch", state: {}, edit: { [name]: value }, shown }));
    const firstMs = status.pythonMs;
    await ask(context, { calculator: "batch", later: shown });
    taken.push(firstMs + status.pythonMs);
  }
  return taken;
}"""
START = """() => new Promise((done) => {
  const calculator = document.querySelector('recipe-calculator[name="batch"]');
  calculator.addEventListener("recipe-state", done, { once: true });
  calculator.state = { factor: "2" };
}).then(() => null)"""


def measure(browser: Browser, address: str) -> dict[str, dict[str, float]]:
    """By kind of edit: from the edit to the texts in the page, with at least 20 ms between edits; and Python alone.

    Why the batch holds and its figures come later than its amounts, masses and fat.

    A browser can slow down a page, but not its worker: for a slower CPU, the time of Python is multiplied afterwards.
    """
    build_large()
    bare = _bare_warm_start(browser, address)
    page = open_large(browser, address)
    session = page.context.new_cdp_session(page)
    kinds = {  # No value is used twice, so that no cached answer helps.
        "one amount": ("amount.butter", [f"{300 + number / 10:.1f} g" for number in range(EDITS)]),
        "the whole batch": ("factor", [f"{1 + number / 1000:.3f}" for number in range(1, 1 + EDITS)]),
    }
    table = {}
    for kind, (name, values) in kinds.items():
        page.evaluate(EDIT, [name, values[:WARMING]])  # Not counted: the browser's compiler warms up.
        found = page.evaluate(EDIT, [name, values[WARMING:]])
        texts, python, handler, all_texts, _ = zip(*found["taken"], strict=True)
        alone = page.evaluate(ALONE, [name, values[WARMING:]])
        session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        slow = page.evaluate(EDIT, [name, values[WARMING::2]])["taken"]
        session.send("Emulation.setCPUThrottlingRate", {"rate": 1})
        table[kind] = {
            "median": _share(texts, 0.5),
            "95th percentile": _share(texts, 0.95),
            "of it Python, median": _share(python, 0.5),
            "of it Python, 95th percentile": _share(python, 0.95),
            "with what comes later, median": _share(all_texts, 0.5),
            "with what comes later, 95th percentile": _share(all_texts, 0.95),
            "Python alone, median": _share(alone, 0.5),
            "Python alone, 95th percentile": _share(alone, 0.95),
            "typing held up, at most": round(max(handler), 2),
            "longest task of the page": round(found["blocked"], 1),
            "95th percentile in hundredths of a bare warm start": round(100 * _share(texts, 0.95) / bare, 2),
            f"95th percentile at a CPU {SLOWER} times slower": _share(
                [shown + (SLOWER - 1) * python for shown, python, *_ in slow], 0.95
            ),
            f"with what comes later, 95th percentile at a CPU {SLOWER} times slower": _share(
                [whole + (SLOWER - 1) * python for *_, whole, python in slow], 0.95
            ),
        }
    page.close()
    return table


def _bare_warm_start(browser: Browser, address: str) -> float:
    """A page that only starts Pyodide and adds 1 + 1, visited again: the median, in ms."""
    page = browser.new_page()
    taken = []
    for _ in range(1 + BARE_STARTS):
        page.goto(f"{address}bare/")
        page.wait_for_function(READY["bare"])
        taken.append(page.evaluate(BARE))
    page.close()
    return median(taken[1:])


def _share(values: Sequence[float], share: float) -> float:
    return round(sorted(values)[min(len(values) - 1, int(share * len(values)))], 2)


def open_large(browser: Browser, address: str) -> Page:
    """The page of the large recipe, live."""
    page = browser.new_page()
    page.goto(f"{address}large/site/twenty-five/", wait_until="load")
    page.evaluate(START)
    return page


def build_large() -> None:
    """A site with only the large recipe, and the real site's theme and plug-ins."""
    folder = FOLDER / "large"
    shutil.copytree(ROOT / "bench" / "recipes", folder / "docs", dirs_exist_ok=True)
    (folder / "docs" / "index.md").write_text("# Large\n", encoding="utf-8")
    (folder / "docs" / "how-the-figures-are-made.md").write_text("# How\n", encoding="utf-8")
    config = {
        "INHERIT": str(ROOT / "mkdocs.yml"),
        "docs_dir": str(folder / "docs"),
        "site_dir": str(folder / "site"),
        "strict": False,
        "nav": None,
        "theme": {"logo": None, "favicon": None, "icon": {"logo": "material/book-open-page-variant"}},
        "plugins": [
            {"recipe_cards": {"cache": str(ROOT / ".cache" / "recipe_cards")}},
            {"calculators": {"cache": str(ROOT / ".cache" / "crumbcoat")}},
        ],
    }
    (folder / "mkdocs.yml").write_text(json.dumps(config), encoding="utf-8")
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file", str(folder / "mkdocs.yml")]
    subprocess.run(command, cwd=ROOT, check=True)
