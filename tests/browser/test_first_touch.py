"""What a card fetches before it is touched, and that nothing is lost while the rest is loading."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect

CARD = "buttercreams/custard-buttercream/"
SAVING = "Object.defineProperty(navigator, 'connection', { value: { saveData: true } })"


@pytest.fixture
def fetched(page: Page) -> list[str]:
    """The names of the files that the page has fetched so far."""
    names: list[str] = []
    page.on("request", lambda request: names.append(request.url.rpartition("/")[2]))
    page.add_init_script(SAVING)
    return names


@pytest.mark.newcomer
def test_a_visitor_who_only_reads_fetches_neither_python_nor_the_tools(
    page: Page, site: tuple[Path, str], fetched: list[str]
) -> None:
    page.goto(site[1] + CARD, wait_until="networkidle")
    assert {"recipe_reader.js", "calculator.js", "cards.css"} <= set(fetched)
    assert not {"reader.js", "device.js", "bench.js", "timers.js", "worker.js", "memory.bin"} & set(fetched)
    page.get_by_role("heading", name="Ingredients").click()
    expect(page.locator("recipe-calculator[name=batch]")).to_have_attribute("data-state", "printed")
    page.wait_for_function("performance.getEntriesByType('resource').some(({ name }) => name.endsWith('/reader.js'))")
    assert "memory.bin" not in fetched


@pytest.mark.newcomer
def test_a_visitor_with_saved_changes_gets_the_tools_at_once(page: Page, site: tuple[Path, str]) -> None:
    page.add_init_script(SAVING)
    page.goto(site[1] + CARD)
    page.get_by_label("whole milk is set out").check()
    expect(page.get_by_role("button", name="Undo")).to_have_attribute("aria-disabled", "false")
    with page.expect_request("**/reader.js"):
        page.reload()
    expect(page.get_by_label("whole milk is set out")).to_be_checked()


def test_edits_made_while_the_tools_are_loading_count(page: Page, site: tuple[Path, str]) -> None:
    held: list[Route] = []
    page.route("**/reader.js", lambda route: held.append(route))
    page.goto(site[1] + CARD)
    page.get_by_label("whole milk is set out").check()
    page.get_by_label("Stage 1, step 1 is done").check()
    page.get_by_label("Stage 1, step 1 is done").uncheck()
    factor = page.get_by_label("Number of batches")
    factor.fill("2")
    expect(page.locator(".cc-status").first).to_contain_text("for 32", timeout=60_000)
    button = page.get_by_role("button", name="Copy a link")
    button.click()
    (route,) = held
    route.continue_()
    expect(page.get_by_label("Link to the amounts on this page")).to_have_value(f"{site[1]}{CARD}#factor=2")
    expect(page.get_by_label("whole milk is set out")).to_be_checked()
    expect(page.get_by_label("Stage 1, step 1 is done")).not_to_be_checked()
    page.get_by_role("button", name="Undo").click()
    expect(factor).to_have_value("1")


@pytest.mark.full
def test_tools_that_cannot_be_fetched_say_so_and_load_at_the_next_touch(page: Page, site: tuple[Path, str]) -> None:
    page.route("**/reader.js", lambda route: route.abort())
    page.goto(site[1] + CARD)
    button = page.get_by_role("button", name="Copy a link")
    button.click()
    expect(page.locator("[data-message]").first).to_contain_text("could not be loaded")
    page.unroute("**/reader.js")
    button.click()
    expect(page.get_by_label("Link to the amounts on this page")).to_be_visible()


def test_the_link_on_paper_is_there_before_any_touch(page: Page, site: tuple[Path, str]) -> None:
    page.goto(site[1] + CARD)
    page.emulate_media(media="print")
    expect(page.locator("[data-link]").first).to_have_text(site[1] + CARD)


def test_a_page_that_is_swapped_in_loads_its_own_style_sheets(page: Page, site: tuple[Path, str]) -> None:
    page.goto(site[1] + CARD)
    page.evaluate("document.stayed = true")
    for link, place in (("Calculators", ".cc-desk-fields"), ("Recipes", ".cc-list ul")):
        page.locator(".md-tabs").get_by_role("link", name=link).click()
        expect(page.locator(place).first).to_have_css("display", "grid")
    assert page.evaluate("document.stayed")
