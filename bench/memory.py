"""Memory of a card's page over 10,000 edits: its browser's process as counted by the system, in MB."""

from pathlib import Path

from playwright.sync_api import Browser

from bench.repaint import build_large, open_large

EDITS = (100, 1_000, 10_000)
# A new value each time, as fast as they are answered; the browser paints the figures whenever it gets to it.
MANY = """async ([from, to]) => {
  const calculator = document.querySelector('recipe-calculator[name="batch"]');
  const fields = ["factor", "amount.butter", "amount.milk"];
  for (let number = from; number < to; number += 1) {
    const field = [...calculator.form.elements].find((one) => one.name === fields[number % 3]);
    const heard = new Promise((done) => calculator.addEventListener("recipe-state", done, { once: true }));
    field.value = number % 3 ? `${(200 + number / 100).toFixed(2)} g` : (1 + number / 20000).toFixed(4);
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));  // It counts at once, and not at a pause.
    await heard;
  }
}"""


def measure(browser: Browser, address: str) -> dict[str, dict[str, float]]:
    """By number of edits: the memory of the process, and its ratio to the first row."""
    build_large()
    page = open_large(browser, address)
    table: dict[str, dict[str, float]] = {}
    done = 0
    for edits in EDITS:
        page.evaluate(MANY, [done, edits])
        done = edits
        page.context.new_cdp_session(page).send("HeapProfiler.collectGarbage")
        page.wait_for_timeout(1000)
        held = _largest_renderer_mb(browser)
        first = next(iter(table.values()))["MB"] if table else held
        table[f"after {edits:,} edits"] = {"MB": held, "ratio": round(held / first, 3)}
    page.close()
    return table


def _largest_renderer_mb(browser: Browser) -> float:
    """The memory of the browser's largest renderer, which is the page's, since it contains the worker with Python."""
    found = browser.new_browser_cdp_session().send("SystemInfo.getProcessInfo")["processInfo"]
    pids = [int(one["id"]) for one in found if one["type"] == "renderer"]
    kilobytes = []
    for pid in pids:
        status = Path(f"/proc/{pid}/status")
        if not status.is_file():
            raise SystemExit("bench: this system does not report the memory of a process\n    Fix: run it on Linux")
        lines = dict(line.split(":", 1) for line in status.read_text().splitlines())
        kilobytes.append(int(lines["VmRSS"].split()[0]))
    return round(max(kilobytes) / 1024, 1)
