"""A card at phone or at desk width, one page for all tests: each begins and ends with it as published."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.card_page import SILK, WATCH, WIDTHS, Card
from tests.chromium import visit


@pytest.fixture(scope="session", params=["phone", pytest.param("desk", marks=pytest.mark.full)])
def opened(browser: Browser, site: tuple[Path, str], request: pytest.FixtureRequest) -> Iterator[Card]:
    width, height = WIDTHS[request.param]
    with visit(browser, site[1], viewport={"width": width, "height": height}, reduced_motion="reduce") as page:
        page.add_init_script(WATCH)
        card = Card(page, site[1])
        card.open()
        yield card


@pytest.fixture
def card(opened: Card, request: pytest.FixtureRequest) -> Iterator[Card]:
    """The card as published; afterwards all that the test exercises was touched, and "As published" is just that."""
    opened.touched()
    yield opened
    if request.node.rep_call.failed:
        opened.open_first()
        return
    assert set(getattr(request.function, "exercises", ())) <= opened.touched()
    for name, form, value in (("units", "batch", "grams"), ("scale", "batch", ""), ("lengths", "cake", "cm")):
        if opened.value(name, form) != value:
            opened.give(name, value, form)
    opened.publish()
    if SILK not in opened.page.url:
        opened.open()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item, call: pytest.CallInfo[None]) -> Iterator[None]:
    """Reports the outcome of the test to the fixture `card`."""
    report = yield
    setattr(item, f"rep_{report.when}", report)  # type: ignore[attr-defined]
    return report
