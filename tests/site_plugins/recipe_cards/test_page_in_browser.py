"""Pages in Chromium against WCAG 2.2 AA (by axe-core), its reflow at 320 CSS px (1.4.10), and paper."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from .conftest import ROOT

AXE = ROOT / "site_plugins" / "crumbcoat_site" / "calculators" / "runtime" / "node_modules" / "axe-core" / "axe.min.js"
KINDS = {
    "front": "",
    "recipe": "low-fat/silk-milk-frosting/",
    "prose": "how-the-figures-are-made/",
    "not found": "404.html",
}
RECIPES = sorted(
    path.relative_to(ROOT / "recipes").with_suffix("").as_posix() for path in ROOT.glob("recipes/*/*.yaml")
)
DEFINED = "customElements.define('recipe-calculator', class extends HTMLElement {})"
"""The tools show once the element is defined; what they compute is tested with the calculators."""
RUN = """() => axe.run({runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
    rules: {"target-size": {enabled: true}}})"""


@pytest.fixture(scope="module")
def site(demo: Path, serve: Callable[[Path], str]) -> str:
    return serve(demo)


def opened(page: Page, address: str, *, tools: bool = True) -> Page:
    page.emulate_media(reduced_motion="reduce")
    page.goto(address, wait_until="load")
    if tools:
        page.evaluate(DEFINED)
    return page


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("kind", KINDS)
def test_no_page_breaks_wcag(browser: Browser, site: str, kind: str, width: int, scheme: str) -> None:
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme)  # type: ignore[arg-type]
    page = opened(context.new_page(), site + KINDS[kind])
    page.evaluate(AXE.read_text(encoding="utf-8"))
    result = page.evaluate(RUN)
    context.close()
    found = [(broken["id"], node["target"]) for broken in result["violations"] for node in broken["nodes"]]
    assert found == []
    assert len(result["passes"]) > 10


@pytest.mark.parametrize("path", ["", "how-the-figures-are-made/", "404.html", *(f"{name}/" for name in RECIPES)])
def test_nothing_scrolls_sideways_at_320_px(page: Page, site: str, path: str) -> None:
    page.set_viewport_size({"width": 320, "height": 800})
    opened(page, site + path)
    assert page.evaluate("document.documentElement.scrollWidth") == 320


def test_tools_are_hidden_until_the_element_works_and_the_printed_amounts_after(page: Page, site: str) -> None:
    opened(page, site + KINDS["recipe"], tools=False)
    amount, printed = page.locator("[name='amount.butter']"), page.locator(".cc-printed").first
    assert not amount.is_visible()
    assert printed.is_visible()
    page.evaluate(DEFINED)
    assert amount.is_visible()
    assert not printed.is_visible()


def test_the_field_in_focus_is_clear_of_the_header(page: Page, site: str) -> None:
    """WCAG 2.2, 2.4.11 focus not obscured."""
    page.set_viewport_size({"width": 360, "height": 640})
    opened(page, site + KINDS["recipe"])
    header = page.locator(".md-header").bounding_box()
    assert header
    fields = page.locator("article :is(input, select):visible")
    assert fields.count() > 10
    fields.last.focus()
    for _ in range(fields.count() - 1):
        page.keyboard.press("Shift+Tab")
        top = page.evaluate("document.activeElement.getBoundingClientRect().top")
        assert top >= header["height"]


def test_paper_holds_figures_and_checkpoints_but_no_tools(page: Page, site: str) -> None:
    opened(page, site + KINDS["recipe"])
    page.emulate_media(media="print")
    for shown in (".cc-checkpoint", ".cc-after", ".cc-figures table", ".cc-printed", ".cc-key-fat"):
        assert page.locator(shown).first.is_visible(), shown
    for hidden in ("input", "select", "button", ".md-header", ".md-tabs", ".md-sidebar", ".md-footer", ".cc-more"):
        assert page.locator(f"{hidden}:visible").count() == 0, hidden
