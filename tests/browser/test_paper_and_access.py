"""The reader's tools on paper, and checked against WCAG 2.2 AA (by axe-core) while they are open."""

import io
import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.accessibility import DESK_DARK, PHONE_LIGHT, is_accessible, is_narrow, prepare
from tests.browser.card_page import PLAIN
from tests.browser.test_access import NO_TOOL_SCROLLS, to_timers

CARD = "milk-emulsions/silk-milk-frosting/"
LIVE = 30_000


@pytest.fixture
def address(site: tuple[Path, str]) -> str:
    return site[1]


def button(page: Page, name: str):
    return page.get_by_role("button", name=name, exact=True)


def open_bench(page: Page) -> None:
    page.locator("#step-1-3 [data-do=timer]").click()
    page.locator("#step-1-5 [data-do=timer]").click()
    button(page, "Work through it").click()
    expect(page.get_by_role("heading", name="Set everything out")).to_be_visible()


def to_step(page: Page) -> None:
    open_bench(page)
    for _ in range(5):
        page.keyboard.press("ArrowRight")
    expect(page.get_by_role("heading", name="How does it look?")).to_be_visible()


def to_remedy(page: Page) -> None:
    to_step(page)
    page.locator(".cc-answer-trouble").first.click()


def to_end(page: Page) -> None:
    page.evaluate("location.hash = '#bench'")
    expect(page.get_by_role("dialog", name="Bench view")).to_be_visible()
    for _ in range(40):
        page.keyboard.press("ArrowRight")
    expect(page.get_by_role("heading", name="That is the whole batch")).to_be_visible()


PLACES = {"timers": to_timers, "ingredients": open_bench, "question": to_step, "remedy": to_remedy, "end": to_end}


WHOLE = ("timers", "ingredients")
"""The places at which the page is looked at and not only the bench: at the others it is the same behind it."""


@pytest.mark.parametrize(
    "place", [pytest.param(place, marks=() if place == "ingredients" else pytest.mark.full) for place in PLACES]
)
def test_no_tool_breaks_wcag_or_scrolls_sideways(page: Page, address: str, place: str) -> None:
    """The timers on a page are among what test_access.py looks at on a card in use."""
    prepare(page, PHONE_LIGHT)
    page.goto(address + CARD)
    PLACES[place](page)
    for look in (PHONE_LIGHT, DESK_DARK):
        is_accessible(page, look, "html" if place in WHOLE else ".cc-bench")
    is_narrow(page)
    assert page.evaluate(NO_TOOL_SCROLLS)


@pytest.mark.parametrize(
    "width", [pytest.param(360, id="phone"), pytest.param(1280, id="desk", marks=pytest.mark.full)]
)
def test_the_control_in_focus_is_clear_of_the_timers(page: Page, address: str, width: int) -> None:
    """WCAG 2.2, 2.4.11 focus not obscured."""
    page.set_viewport_size({"width": width, "height": 740})
    page.goto(address + CARD)
    to_timers(page)
    page.locator("#step-1-1 [data-tick]").focus()
    hidden = """() => {
      const tray = document.querySelector('.cc-tray').getBoundingClientRect();
      const one = document.activeElement.getBoundingClientRect();
      return one.bottom > tray.top + 1 && one.left < tray.right && one.right > tray.left && one.top > tray.top - 1;
    }"""
    for _ in range(12):
        page.keyboard.press("Tab")
        assert not page.evaluate(hidden)


def test_paper_has_the_size_that_is_shown_and_the_link_to_it(page: Page, address: str, full: bool) -> None:
    page.goto(address + CARD)
    page.get_by_label("Number of batches").fill("1.5")
    made = page.locator(".cc-key [data-text=finished_mass]")
    printed = made.text_content()
    expect(made).not_to_have_text(printed, timeout=LIVE)
    papers = ("A4", "Letter") if full else ("Letter",)  # The shorter one.
    without_tools = [len(PdfReader(io.BytesIO(page.pdf(format=paper))).pages) for paper in papers]
    page.locator("#step-1-3 [data-do=timer]").click()
    button(page, "Work through it").click()
    expect(page.get_by_role("dialog", name="Bench view")).to_be_visible()
    printed = [PdfReader(io.BytesIO(page.pdf(format=paper))).pages for paper in papers]
    assert [len(pages) for pages in printed] == without_tools  # The tests of the cards check how many there may be.
    signs = page.locator(".cc-checkpoint li").all_text_contents()
    for pages in printed:
        text = re.sub(r"\s+", " ", " ".join(one.extract_text() for one in pages))
        assert "Silk milk frosting" in text
        assert made.evaluate(PLAIN) in text
        assert f"{address}{CARD}#factor=1.5" in text.replace(" ", "")
        for words in ("Work through it", "Undo", "Start timer", "Dismiss", "Keep the screen on", "Set everything out"):
            assert words not in text
        for sign in signs:
            assert sign.split()[0] in text


def test_a_button_opens_the_print_dialogue(page: Page, address: str) -> None:
    page.add_init_script("document.printed = 0; window.print = () => document.printed += 1")
    page.goto(address + CARD)
    button(page, "Print").press("Enter")
    page.wait_for_function("document.printed > 0")  # The code for the button is fetched at the first touch.
    assert page.evaluate("document.printed") == 1
