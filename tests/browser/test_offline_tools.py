"""With the network off, visited pages still calculate: card, cake, label, a calculator's page and a handout."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from playwright.sync_api import Browser, Page, expect

from tests.browser.card_page import LIVE, SILK, WATCH, Card, context_on, grams, number
from tests.browser.test_offline import KEPT, ready

FORMULATE, HANDOUT = "calculators/formulate/", f"{SILK}/handout/"


@pytest.fixture
def visitor(browser: Browser, site: tuple[Path, str]) -> Iterator[tuple[Page, str]]:
    """A visitor who opened a card, a calculator and a handout, and then lost the network."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    context.add_init_script(WATCH)
    page = context.new_page()
    page.goto(site[1] + f"{SILK}/")
    page.locator("[name=factor]").focus()
    expect(page.locator("recipe-calculator[name=batch]")).to_have_attribute("data-state", "live", timeout=LIVE)
    ready(page, "silk-milk-frosting", "trimmed.wasm", "memory.bin")
    for place in (FORMULATE, HANDOUT):
        page.goto(site[1] + place)
        expect(page.locator("recipe-calculator")).to_have_attribute("data-state", "live", timeout=LIVE)
        page.wait_for_function(f"async () => (await ({KEPT})()).some(url => url.endsWith('{place}'))", timeout=LIVE)
    context.set_offline(True)
    yield page, site[1]
    context.close()


@pytest.mark.full
def test_visited_pages_calculate_without_a_network(visitor: tuple[Page, str]) -> None:
    page, address = visitor
    card = Card(page, address)
    card.open()
    card.give("factor", "2")
    assert card.text("amount.butter") == "500 g"
    card.give("tier.1.diameter", "25", "cake")
    texts = run("cake", context_on(page), {}, {"tier.1.diameter": "25"})[1]
    assert card.text("cake.mass_needed") == texts["cake.mass_needed"]
    card.press("cake.mass_needed")
    assert card.text("finished_mass") == texts["cake.mass_needed"]
    assert card.text("amount.butter") == grams(250 * number(card.text("finished_mass")) / 821.5)
    card.give("instead.butter", "kind:butter_salted")
    wanted = run("label", context_on(page), {"instead.butter": "kind:butter_salted"}, {})[1]
    expect(page.locator("[data-rows='label.words'] td").first).to_have_text(wanted["label.words"][0][1], timeout=LIVE)

    page.goto(address + FORMULATE)
    page.locator("[name=fat]").fill("30")
    texts = run("formulate", context_on(page), {}, {"fat": "30"})[1]
    expect(page.locator("[data-text=outcome]")).to_have_text(texts["outcome"], timeout=LIVE)
    expect(page.locator("[data-rows='rows.formula'] tr")).to_have_count(len(texts["rows.formula"]))

    page.goto(address + HANDOUT)
    page.locator("[name=groups]").fill("3")
    expect(page.locator("[data-text='class']")).to_have_text("12 students in 3 groups of 4", timeout=LIVE)
    texts = run("handout", context_on(page), {}, {"groups": "3"})[1]
    expect(page.locator("[data-rows=shopping] tr").first).to_contain_text(texts["shopping"][0][1])
