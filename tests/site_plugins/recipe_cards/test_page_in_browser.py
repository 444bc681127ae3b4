"""A card in Chromium whose element computes nothing: what shows before and after it works, the focus, and paper."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page

CARD = "milk-emulsions/silk-milk-frosting/"
THERE = "document.documentElement.dataset.calculator = ''"
"""The tools show once the calculators' script is there; what they compute is tested with them."""


@pytest.fixture(scope="module")
def site(demo: Path, serve: Callable[[Path], str]) -> str:
    return serve(demo)


def opened(page: Page, address: str, *, tools: bool = True) -> Page:
    page.emulate_media(reduced_motion="reduce")
    page.goto(address, wait_until="load")
    if tools:
        page.evaluate(THERE)
    return page


def test_tools_are_hidden_until_the_element_works_and_the_printed_amounts_after(page: Page, site: str) -> None:
    opened(page, site + CARD, tools=False)
    amount, printed = page.locator("[name='amount.butter']"), page.locator(".cc-printed").first
    assert not amount.is_visible()
    assert printed.is_visible()
    page.evaluate(THERE)
    assert amount.is_visible()
    assert not printed.is_visible()


@pytest.mark.parametrize("place", ["low-fat/silk-milk-frosting/", "low-fat/silk-milk-frosting/handout/"])
def test_an_old_address_leads_on_with_what_a_link_carries(page: Page, site: str, place: str) -> None:
    page.goto(f"{site}{place}?from=print#factor=2")
    page.wait_for_url(f"{site}{place.replace('low-fat', 'milk-emulsions')}?from=print#factor=2")


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


def test_the_sign_that_an_ingredient_unfolds_is_never_alone_in_a_line(page: Page, site: str) -> None:
    opened(page, site + CARD)
    for width in (320, 360, 390, 430, 768):
        page.set_viewport_size({"width": width, "height": 800})
        last_lines = page.locator(".cc-about > summary").evaluate_all(
            "all => all.map(one => [...one.getClientRects()].at(-1).width / parseFloat(getComputedStyle(one).fontSize))"
        )
        assert len(last_lines) >= 8
        assert min(last_lines) > 1.8, width


LONGEST = """select => {
  const style = getComputedStyle(select);
  const canvas = new OffscreenCanvas(1, 1).getContext("2d");
  canvas.font = style.font;
  const room = select.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
  return room - canvas.measureText(select.selectedOptions[0].text).width;
}"""
"""The room that the chosen option leaves beside the arrow, in px."""


@pytest.mark.parametrize("name", ["compare", "formulate", "map", "replace"])
def test_the_name_of_a_chosen_recipe_is_not_cut_off(page: Page, site: str, name: str) -> None:
    opened(page, f"{site}calculators/{name}/")
    for width in (390, 500, 768, 1280, 1920):
        page.set_viewport_size({"width": width, "height": 800})
        left = page.locator("select[data-context-from]").evaluate_all(f"all => all.map({LONGEST})")
        assert left
        assert min(left) >= 0, width


def test_the_table_that_compares_recipes_fits_a_desk_and_shows_figures_on_a_phone(page: Page, site: str) -> None:
    opened(page, f"{site}calculators/compare/")
    table = page.locator(".cc-wide").first
    page.set_viewport_size({"width": 1280, "height": 800})
    assert table.evaluate("place => place.scrollWidth <= place.clientWidth")
    page.set_viewport_size({"width": 320, "height": 800})
    place, fat = table.bounding_box(), table.locator("thead th", has_text="Fat").first.bounding_box()
    assert place
    assert fat
    assert fat["x"] + fat["width"] <= place["x"] + place["width"]
