"""A slow line, 1.6 Mbit/s and 150 ms: the times until the page is readable and until it is live, for two visits."""

import tempfile

from playwright.sync_api import Browser

from bench.host import FLAGS, RECIPE, chromium_path
from bench.start import BARE, OURS, SAVING

LINE = {
    "offline": False,
    "latency": 150,
    "downloadThroughput": 1_600_000 / 8,
    "uploadThroughput": 750_000 / 8,
}
READABLE = "performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0"


def measure(browser: Browser, address: str) -> dict[str, dict[str, float]]:
    """Milliseconds, one visit each: first paint, then from touch to live; and the same reader's second visit."""
    pages = {"ours": (f"{address}site/{RECIPE}", OURS), "bare": (f"{address}bare/", BARE)}
    table: dict[str, dict[str, float]] = {}
    for name, (url, script) in pages.items():
        # A profile on disk, like a reader's: a private window keeps no large file for the second visit.
        with tempfile.TemporaryDirectory() as profile:
            context = browser.browser_type.launch_persistent_context(
                profile, executable_path=chromium_path(), args=list(FLAGS)
            )
            context.add_init_script(SAVING)
            page = context.new_page()
            session = context.new_cdp_session(page)
            session.send("Network.enable")
            session.send("Network.emulateNetworkConditions", LINE)
            for visit in ("first visit", "second visit"):
                page.goto(url, wait_until="load", timeout=300_000)
                painted = page.evaluate(READABLE)
                table[f"{name}, {visit}"] = {"readable": round(painted), "touch to live": round(page.evaluate(script))}
            context.close()
    return table
