"""Timers: several at once, over reloads and pages, with the browser's clock turned by the test."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

CARD = "low-fat/silk-milk-frosting/"
RANGE, ONE = "1-3", "1-5"
"""Steps of the demo recipe with a time of 5 to 7 min, and of 2 min."""


@pytest.fixture
def address(site: tuple[Path, str]) -> str:
    return site[1]


@pytest.fixture
def card(page: Page, address: str) -> Page:
    page.clock.install()
    page.goto(address + CARD)
    return page


def start(page: Page, step: str) -> None:
    running = clocks(page).count()
    page.locator(f"#step-{step} [data-do=timer]").click()
    expect(clocks(page)).to_have_count(running + 1)


def tray(page: Page):
    return page.get_by_role("region", name="Timers")


def clocks(page: Page):
    return tray(page).get_by_role("timer")


def test_the_times_are_those_of_the_recipe(page: Page, address: str) -> None:
    page.goto(address + CARD)
    for step, seconds in ((RANGE, ["300", "420"]), (ONE, ["120", "120"])):
        found = page.locator(f"#step-{step} [data-do=timer]")
        assert [found.get_attribute(f"data-{name}") for name in ("shortest", "longest")] == seconds


@pytest.mark.parametrize("width", [360, 1280], ids=["phone", "desk"])
def test_a_range_tells_at_the_shorter_time_and_at_the_longer(card: Page, width: int) -> None:
    card.set_viewport_size({"width": width, "height": 740})
    start(card, RANGE)
    one = tray(card).get_by_role("listitem")
    expect(one).to_have_attribute("data-phase", "running")
    card.clock.fast_forward("04:50")
    expect(clocks(card)).to_have_text(re.compile(r"^0:(0\d|10)$"))
    expect(tray(card).get_by_role("alert")).to_be_empty()
    card.clock.fast_forward("00:11")
    expect(one).to_have_attribute("data-phase", "look")
    expect(tray(card).get_by_role("alert")).to_contain_text("The shorter time is over: look now")
    expect(clocks(card)).to_have_text(re.compile(r"^1:5\d$"))
    card.clock.fast_forward("02:00")
    expect(one).to_have_attribute("data-phase", "over")
    expect(tray(card).get_by_role("alert")).to_contain_text("Time is up")
    expect(card).to_have_title(re.compile("^Time is up · Silk milk"))
    one.get_by_role("button", name="Dismiss").click()
    expect(tray(card)).to_be_hidden()
    expect(card).to_have_title(re.compile("^Silk milk"))


def test_several_run_on_over_a_reload_and_another_page(card: Page) -> None:
    start(card, RANGE)
    start(card, ONE)
    expect(clocks(card)).to_have_count(2)
    card.clock.fast_forward("01:00")
    card.reload()
    expect(clocks(card)).to_have_text([re.compile(r"^[34]:\d\d$"), re.compile(r"^(1:00|0:5\d)$")])
    card.set_viewport_size({"width": 1280, "height": 800})
    card.evaluate("document.visit = 'the same'")
    card.locator(".cc-more a").first.click()
    expect(card.locator("h1")).not_to_contain_text("Silk milk")
    assert card.evaluate("document.visit") == "the same"
    expect(clocks(card)).to_have_count(2)
    card.clock.fast_forward("01:00")
    expect(tray(card).get_by_role("listitem").nth(1)).to_have_attribute("data-phase", "over")
    expect(tray(card).get_by_role("listitem").nth(0)).to_have_attribute("data-phase", "running")
    tray(card).get_by_role("link", name=re.compile("step 5")).click()
    expect(card.locator("h1")).to_contain_text("Silk milk")
    expect(clocks(card)).to_have_count(2)


def test_pause_go_on_and_one_minute_more_by_keyboard(card: Page) -> None:
    start(card, ONE)
    card.clock.fast_forward("00:30")
    pause = tray(card).get_by_role("button", name="Pause")
    pause.focus()
    card.keyboard.press("Enter")
    expect(tray(card).get_by_role("listitem")).to_have_attribute("data-phase", "paused")
    paused = clocks(card).text_content()
    card.clock.fast_forward("10:00")
    expect(clocks(card)).to_have_text(paused)
    card.reload()
    expect(clocks(card)).to_have_text(paused)
    tray(card).get_by_role("button", name="1 min more").focus()
    card.keyboard.press("Enter")
    expect(clocks(card)).to_have_text(re.sub("^1:", "2:", paused))
    tray(card).get_by_role("button", name="Go on").press("Enter")
    card.clock.fast_forward("02:31")
    expect(tray(card).get_by_role("listitem")).to_have_attribute("data-phase", "over")
    tray(card).get_by_role("button", name="1 min more").press("Enter")
    expect(tray(card).get_by_role("listitem")).to_have_attribute("data-phase", "running")
    expect(clocks(card)).to_have_text(re.compile(r"^(1:00|0:5\d)$"))


def test_it_sounds_when_the_time_is_over(page: Page, address: str) -> None:
    page.add_init_script(
        """document.tones = 0;
        const begin = OscillatorNode.prototype.start;
        OscillatorNode.prototype.start = function (...when) { document.tones += 1; return begin.apply(this, when); };"""
    )
    page.clock.install()
    page.goto(address + CARD)
    start(page, ONE)
    page.clock.fast_forward("01:00")
    assert page.evaluate("document.tones") == 0
    page.clock.fast_forward("01:01")
    page.wait_for_function("document.tones > 0")


def test_they_can_be_reached_on_the_bench(card: Page) -> None:
    start(card, RANGE)
    card.get_by_role("button", name="Work through it").click()
    expect(card.get_by_role("dialog", name="The bench").get_by_role("timer")).to_be_visible()
    tray(card).get_by_role("button", name="Pause").click()
    expect(tray(card).get_by_role("listitem")).to_have_attribute("data-phase", "paused")
    card.keyboard.press("Escape")
    expect(clocks(card)).to_be_visible()
