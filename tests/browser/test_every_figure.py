"""After an edit, every figure on a page of the demo site is the one that CPython computes, not only the edited one."""

from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.values.spacing import unbroken
from playwright.sync_api import Page, expect

from tests.browser.card_page import context_on

OF_THE_BATCH = """outputs => outputs
  .filter(output => (output.closest("recipe-calculator")?.getAttribute("name") ?? "batch") === "batch")
  .map(output => [output.dataset.text, output.textContent])"""


@pytest.mark.parametrize(
    "path",
    [pytest.param("buttercreams/custard-buttercream/", marks=pytest.mark.full), "milk-emulsions/silk-milk-frosting/"],
)
def test_an_edit_reaches_every_figure(page: Page, site: tuple[Path, str], path: str) -> None:
    page.goto(site[1] + path)
    texts = run("batch", context_on(page), {}, {"factor": "2"})[1]
    page.locator("input[name=factor][form=batch]").fill("2")
    expect(page.locator("[data-text=finished_mass]").first).to_have_text(texts["finished_mass"], timeout=60_000)
    shown = page.locator("[data-text]").evaluate_all(OF_THE_BATCH)
    assert {name: text for name, text in shown if name in texts and text != unbroken(texts[name])} == {}
    assert len([name for name, _ in shown if name in texts]) > 20
