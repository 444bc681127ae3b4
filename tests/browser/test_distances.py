"""How far a reader on a phone scrolls: the longest card of the demo, closed, at 390 x 844, where fingers need 44 px."""

from pathlib import Path

from playwright.sync_api import Browser, expect

from tests.browser.card_page import RECIPES
from tests.chromium import visit

SCREEN = 844
END = "element => element.getBoundingClientRect().bottom + scrollY"


def test_the_longest_card_is_short_and_a_sign_of_trouble_is_found_from_the_head_of_its_method(
    browser: Browser, site: tuple[Path, str]
) -> None:
    """The goals are our own; the longest card is that with the longest file."""
    longest = max(RECIPES.glob("*/*.yaml"), key=lambda path: path.stat().st_size).relative_to(RECIPES).with_suffix("")
    with visit(browser, viewport={"width": 390, "height": SCREEN}, has_touch=True) as page:
        page.goto(f"{site[1]}{longest.as_posix()}/")
        expect(page.locator("[data-do=bench]")).to_be_visible()
        assert page.locator("[data-do=bench]").evaluate(END) < SCREEN
        assert page.locator("[name=factor]").evaluate(END) < SCREEN
        assert page.locator("td.cc-amount").last.evaluate(END) < 2 * SCREEN
        assert page.locator("#step-1-1").evaluate("step => step.getBoundingClientRect().top + scrollY") < 2.5 * SCREEN
        assert page.evaluate("document.documentElement.scrollHeight") <= 6500

        cover = page.locator(".cc-opener .cc-plate").evaluate("plate => plate.getBoundingClientRect().toJSON()")
        assert (cover["left"], cover["right"]) == (0, 390)
        assert cover["top"] == page.locator(".md-header").evaluate(END)
        assert cover["height"] > 180
        title, section, stage, text = (
            page.locator(where).first.evaluate("element => parseFloat(getComputedStyle(element).fontSize)")
            for where in ("article h1", "article h2", "article h3", ".cc-doing p")
        )
        assert title > section > stage > text

        sign = page.locator(".cc-rescue li").last
        page.locator(".cc-rescue summary").tap()
        words = sign.inner_text()
        sign.locator("a").tap()
        found = page.locator(".cc-troubles dt", has_text=words)
        expect(found).to_be_in_viewport()
        expect(found.locator("xpath=following-sibling::dd")).to_be_in_viewport()
