"""A card in Chromium whose element computes nothing: what shows before and after it works, the focus, and paper."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

CARD = "low-fat/silk-milk-frosting/"
DEFINED = "customElements.define('recipe-calculator', class extends HTMLElement {})"
"""The tools show once the element is defined; what they compute is tested with the calculators."""


@pytest.fixture(scope="module")
def site(demo: Path, serve: Callable[[Path], str]) -> str:
    return serve(demo)


def opened(page: Page, address: str, *, tools: bool = True) -> Page:
    page.emulate_media(reduced_motion="reduce")
    page.goto(address, wait_until="load")
    if tools:
        page.evaluate(DEFINED)
    return page


def test_tools_are_hidden_until_the_element_works_and_the_printed_amounts_after(page: Page, site: str) -> None:
    opened(page, site + CARD, tools=False)
    amount, printed = page.locator("[name='amount.butter']"), page.locator(".cc-printed").first
    assert not amount.is_visible()
    assert printed.is_visible()
    page.evaluate(DEFINED)
    assert amount.is_visible()
    assert not printed.is_visible()


def test_the_field_in_focus_is_clear_of_the_header(page: Page, site: str) -> None:
    """WCAG 2.2, 2.4.11 focus not obscured."""
    page.set_viewport_size({"width": 360, "height": 640})
    opened(page, site + CARD)
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
    opened(page, site + CARD)
    page.emulate_media(media="print")
    for shown in (".cc-checkpoint", ".cc-after", ".cc-figures table", ".cc-printed", ".cc-key-fat"):
        assert page.locator(shown).first.is_visible(), shown
    for hidden in ("input", "select", "button", ".md-header", ".md-tabs", ".md-sidebar", ".md-footer", ".cc-more"):
        assert page.locator(f"{hidden}:visible").count() == 0, hidden
