"""The memory image fits every visitor: what a browser reports about itself must not move anything in fresh memory."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect


@pytest.mark.parametrize(
    "language",
    [pytest.param("en-US", marks=pytest.mark.full), pytest.param("de", marks=pytest.mark.full), "zh-Hant-TW"],
)
def test_the_image_is_used_whatever_the_language(small_site: tuple[Path, str], browser: Browser, language: str) -> None:
    context = browser.new_context(locale=language)
    page = context.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.goto(small_site[1])
    page.locator("input[name=factor]").fill("2")
    expect(page.locator("[data-text='amount.sugar']")).to_have_text("100 g", timeout=60_000)
    assert [text for text in said if "calculators" in text] == []
    context.close()
