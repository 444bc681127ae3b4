"""Nothing moves by itself: neither when a page's scripts arrive, nor when Python starts and gives its first answer."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.card_page import LIVE, SILK
from tests.chromium import visit

WATCH = """
window.shifts = [];
new PerformanceObserver((list) => {
  for (const { value, sources } of list.getEntries()) {
    shifts.push([value, ...sources.map(({ node }) => node?.className || node?.nodeName)]);
  }
}).observe({ type: "layout-shift", buffered: true });
"""
FORMS = {
    "calculators/map/": ("x_g", "301"),
    "calculators/compare/": ("bowl_temperature", "19"),
    "calculators/formulate/": ("fat", "31"),
    "calculators/replace/": ("ingredient", ""),
    "calculators/class-handout/": ("students", "14"),
    f"{SILK}/handout/": ("students", "14"),
    f"{SILK}/": ("factor", ""),
}
"""A field of each form, and what is given there; nothing where answers are of another length than what they replace."""


def shifts(page: Page) -> list[object]:
    """What has moved since this was asked last, once the page is at rest."""
    page.wait_for_timeout(300)
    return page.evaluate("shifts.splice(0)")


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_moves_by_itself(browser: Browser, site: tuple[Path, str], width: int) -> None:
    """Not even what moves within half a second after a press, which a browser does not hold against a page."""
    with visit(browser, site[1], viewport={"width": width, "height": 800}) as page:
        page.add_init_script(WATCH)
        # As over a slow line: the page is painted before its scripts come.
        slow = {"offline": False, "latency": 150, "downloadThroughput": -1, "uploadThroughput": -1}
        page.context.new_cdp_session(page).send("Network.emulateNetworkConditions", slow)
        for address, (name, value) in FORMS.items():
            page.goto(site[1] + address)
            field = page.locator(f"[name='{name}']").first
            expect(field).to_be_visible()
            assert shifts(page) == [], address
            field.focus()
            expect(page.locator("recipe-calculator").first).to_have_attribute("data-state", "live", timeout=LIVE)
            assert shifts(page) == [], address
            if value:
                field.fill(value)
                field.blur()
                page.wait_for_timeout(700)
                assert shifts(page) == [], address


def test_the_watch_notices_what_moves(page: Page, site: tuple[Path, str]) -> None:
    page.add_init_script(WATCH)
    page.goto(site[1] + "calculators/map/")
    assert shifts(page) == []
    page.evaluate(
        "document.querySelector('form').prepend(Object.assign(document.createElement('p'), { textContent: 'new' }))"
    )
    page.wait_for_function("shifts.length")
    assert shifts(page) != []
