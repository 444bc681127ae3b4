"""After an edit every figure on a page of the demo site is the one that CPython gives, not only the one looked at."""

import json
from pathlib import Path

import pytest
from crumbcoat_calc import bridge
from playwright.sync_api import Page, expect

OTHERS = "outputs => outputs.map(output => [output.dataset.text, output.textContent])"


@pytest.mark.parametrize("path", ["buttercreams/custard-buttercream/", "low-fat/silk-milk-frosting/"])
def test_an_edit_reaches_every_figure(page: Page, site: tuple[Path, str], path: str) -> None:
    page.goto(site[1] + path)
    given = page.locator("recipe-calculator[name=batch]").get_attribute("given")
    request = {"calculator": "batch", "given": given, "state": {}, "edit": {"factor": "2"}}
    texts = json.loads(bridge.answer(json.dumps(request)))["texts"]
    page.locator("input[name=factor][form=batch]").fill("2")
    expect(page.locator("[data-text=finished_mass]").first).to_have_text(texts["finished_mass"], timeout=60_000)
    shown = page.locator("[data-text]").evaluate_all(OTHERS)
    assert {name: text for name, text in shown if text != texts.get(name, text)} == {}
    assert len([name for name, _ in shown if name in texts]) > 20
