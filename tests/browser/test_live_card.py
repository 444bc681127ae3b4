"""A card of the demo site in Chromium: after an edit the fat percentage follows, also after navigation."""

from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from playwright.sync_api import Page, expect

from tests.browser.card_page import context_on


def computed(page: Page, **edit: str) -> dict[str, str]:
    """The texts that CPython computes for an edit of the card on the page."""
    named = {name.replace("__", "."): value for name, value in edit.items()}
    return {name: str(text) for name, text in run("batch", context_on(page), {}, named)[1].items()}


def edit_butter(page: Page, amount: str) -> None:
    card = page.locator('recipe-calculator[name="batch"]')
    fat = page.locator('[data-text="fat.percent"]').first
    before = fat.text_content()
    wanted = computed(page, amount__butter=amount)
    assert wanted["fat.percent"] != before
    page.locator('input[name="amount.butter"]').fill(amount)
    expect(card).to_have_attribute("data-state", "live", timeout=60_000)
    for name in ("fat.percent", "finished_mass", "water.percent"):
        for place in page.locator(f'[data-text="{name}"]').all():
            expect(place).to_have_text(wanted[name])


@pytest.mark.full
def test_an_edited_amount_changes_the_fat_percentage(site: tuple[Path, str], page: Page) -> None:
    page.goto(f"{site[1]}milk-emulsions/silk-milk-frosting/")
    edit_butter(page, "500 g")
    page.locator('input[name="factor"]').fill("2")
    expect(page.locator('input[name="amount.butter"]')).to_have_value("1000 g")


def test_it_does_so_after_in_site_navigation(site: tuple[Path, str], page: Page) -> None:
    page.goto(site[1])
    page.evaluate("window.neverReloaded = true")
    link = page.locator('article a[href$="milk-emulsions/everyday-milk-frosting/"]').first
    link.click()
    expect(page.locator("h1")).to_contain_text("Everyday milk frosting")
    assert page.evaluate("window.neverReloaded") is True
    edit_butter(page, "300 g")


@pytest.mark.full
def test_an_unusable_value_shows_its_error_beside_the_field_and_stays(site: tuple[Path, str], page: Page) -> None:
    page.goto(f"{site[1]}milk-emulsions/silk-milk-frosting/")
    butter = page.locator('input[name="amount.butter"]')
    butter.fill("some butter")
    problem = page.locator('[data-problem="amount.butter"]')
    expect(problem).to_contain_text("does not start with a number", timeout=60_000)
    expect(butter).to_have_value("some butter")
    expect(butter).to_have_attribute("aria-invalid", "true")
    page.locator('input[name="factor"]').fill("3")
    expect(page.locator('[data-text="finished_mass"]').first).to_have_text(computed(page, factor="3")["finished_mass"])
    expect(butter).to_have_value("some butter")


def test_the_page_is_complete_without_a_script(site: tuple[Path, str], browser) -> None:  # type: ignore[no-untyped-def]
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{site[1]}milk-emulsions/silk-milk-frosting/")
    expect(page.locator('[data-text="fat.percent"]').first).to_have_text(computed(page)["fat.percent"])
    expect(page.locator('input[name="factor"]')).to_be_hidden()
    expect(page.locator('input[name="amount.butter"]')).to_be_hidden()
    expect(page.locator('[data-text="amount.butter"]')).to_be_visible()
    context.close()


def test_a_failing_runtime_leaves_the_printed_numbers(pyodide: str, page: Page) -> None:
    page.route("**/assets/runtime/**", lambda route: route.abort())
    page.goto(f"{pyodide}milk-emulsions/silk-milk-frosting/")
    shown = page.locator('[data-text="fat.percent"]').first.text_content()
    page.locator('input[name="factor"]').fill("2")
    card = page.locator('recipe-calculator[name="batch"]')
    expect(card).to_have_attribute("data-state", "failed", timeout=60_000)
    expect(page.locator("[data-progress]").first).to_contain_text("The printed figures still hold")
    expect(page.locator('[data-text="fat.percent"]').first).to_have_text(shown or "")
