"""Timers: several at once, across reloads and pages, with a browser clock that the test controls."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.chromium import SharedPage, visit

CARD = "milk-emulsions/silk-milk-frosting/"
RANGE, ONE = "1-3", "1-5"
"""Steps of the demo recipe that take 5 to 7 min, and 2 min."""


@pytest.fixture(scope="module")
def shared_page(browser: Browser, site: tuple[Path, str]) -> SharedPage:
    """The page of these tests: its clock is turned by each."""
    return SharedPage(browser, site[1], clock=True)


@pytest.fixture
def address(site: tuple[Path, str]) -> str:
    return site[1]


@pytest.fixture
def card(page: Page, address: str) -> Page:
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


@pytest.mark.parametrize(
    "width", [pytest.param(360, id="phone"), pytest.param(1280, id="desk", marks=pytest.mark.full)]
)
def test_a_range_rings_at_the_shorter_time_and_at_the_longer(card: Page, width: int) -> None:
    card.set_viewport_size({"width": width, "height": 740})
    start(card, RANGE)
    one = tray(card).get_by_role("listitem")
    expect(one).to_have_attribute("data-phase", "running")
    card.clock.fast_forward("04:50")
    expect(clocks(card)).to_have_text(re.compile(r"^0:(0\d|10)$"))
    expect(tray(card).get_by_role("alert")).to_be_empty()
    card.clock.fast_forward("00:11")
    expect(one).to_have_attribute("data-phase", "check")
    expect(tray(card).get_by_role("alert")).to_contain_text("Check now: the shortest time is up")
    expect(clocks(card)).to_have_text(re.compile(r"^1:5\d$"))
    card.clock.fast_forward("02:00")
    expect(one).to_have_attribute("data-phase", "over")
    expect(tray(card).get_by_role("alert")).to_contain_text("Time is up")
    expect(card).to_have_title(re.compile("^Time is up · Silk milk"))
    one.get_by_role("button", name="Dismiss").click()
    expect(tray(card)).to_be_hidden()
    expect(card).to_have_title(re.compile("^Silk milk"))


def test_several_keep_running_across_a_reload_and_another_page(card: Page) -> None:
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


def test_pause_resume_and_one_minute_more_by_keyboard(card: Page) -> None:
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
    tray(card).get_by_role("button", name="Add 1 min").focus()
    card.keyboard.press("Enter")
    expect(clocks(card)).to_have_text(re.sub("^1:", "2:", paused))
    tray(card).get_by_role("button", name="Resume").press("Enter")
    card.clock.fast_forward("02:31")
    expect(tray(card).get_by_role("listitem")).to_have_attribute("data-phase", "over")
    tray(card).get_by_role("button", name="Add 1 min").press("Enter")
    expect(tray(card).get_by_role("listitem")).to_have_attribute("data-phase", "running")
    expect(clocks(card)).to_have_text(re.compile(r"^(1:00|0:5\d)$"))


def test_a_step_has_one_timer_however_often_its_button_is_pressed(card: Page) -> None:
    start(card, RANGE)
    card.locator(f"#step-{RANGE} [data-do=timer]").click()
    row = tray(card).get_by_role("listitem")
    expect(row).to_be_focused()
    expect(row).to_be_in_viewport()
    expect(tray(card).get_by_role("status")).to_contain_text("The timer is running already")
    expect(clocks(card)).to_have_count(1)


@pytest.mark.full
def test_it_rings_when_the_time_is_up(page: Page, address: str) -> None:
    page.add_init_script(
        """document.tones = 0;
        const begin = OscillatorNode.prototype.start;
        OscillatorNode.prototype.start = function (...when) { document.tones += 1; return begin.apply(this, when); };"""
    )
    page.goto(address + CARD)
    start(page, ONE)
    page.clock.fast_forward("01:00")
    assert page.evaluate("document.tones") == 0
    page.clock.fast_forward("01:01")
    page.wait_for_function("document.tones > 0")


def test_they_can_be_reached_on_the_bench(card: Page) -> None:
    start(card, RANGE)
    card.get_by_role("button", name="Work through it").click()
    expect(card.get_by_role("dialog", name="Bench view").get_by_role("timer")).to_be_visible()
    tray(card).get_by_role("button", name="Pause").click()
    expect(tray(card).get_by_role("listitem")).to_have_attribute("data-phase", "paused")
    card.keyboard.press("Escape")
    expect(clocks(card)).to_be_visible()


# --- notifications, when the page is hidden

HIDDEN = "Object.defineProperty(document, 'visibilityState', { get: () => 'hidden' })"
"""A test cannot put another window in front; whether the page is hidden is up to the browser."""
NOTICES = """navigator.serviceWorker.getRegistration().then(worker => worker.getNotifications())
    .then(notices => notices.map(({ title, body, data }) => [title, body, data.href]))"""
NOTE_NOTICES = """document.notices = [];
globalThis.Notification = class extends Notification {
  constructor(words, options) {
    super(words, options);
    document.notices.push(this);
    this.addEventListener("close", () => (document.notices = document.notices.filter(one => one !== this)));
  }
};"""
LABEL = "Blend the milk base the day before, step 3"
OFFER = "Notify me when this page is hidden"


@pytest.fixture
def permitted(whole_browser: Browser, address: str) -> Iterator[Callable[..., Page]]:
    """A card for a visitor who has or has not allowed the site to send notices; with or without a worker."""
    contexts = []

    def opened(answer: str, *, worker: str = "block", hidden: bool = True) -> Page:
        context = whole_browser.new_context(service_workers=worker)  # type: ignore[arg-type]
        contexts.append(context)
        page = context.new_page()
        cdp = context.new_cdp_session(page)
        whose = cdp.send("Target.getTargetInfo")["targetInfo"]["browserContextId"]
        cdp.send(
            "Browser.setPermission",
            {"permission": {"name": "notifications"}, "setting": answer, "origin": address, "browserContextId": whose},
        )
        if hidden:
            page.add_init_script(HIDDEN)
        page.add_init_script(NOTE_NOTICES)
        page.clock.install()
        page.goto(address + CARD)
        return page

    yield opened
    for context in contexts:
        context.close()


def test_a_hidden_page_notifies_through_the_worker_at_both_times_and_removes_the_notice(
    permitted: Callable[..., Page],
) -> None:
    page = permitted("granted", worker="allow")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    start(page, RANGE)
    expect(page.get_by_role("button", name=OFFER)).to_have_count(0)
    assert page.evaluate(NOTICES) == []
    href = page.evaluate("location.pathname") + "#step-1-3"
    for turn, words in (("05:01", "Check now: the shortest time is up"), ("02:00", "Time is up")):
        page.clock.fast_forward(turn)
        page.wait_for_function(
            f"words => {NOTICES}.then(notices => notices.some(([title]) => title === words))", arg=words
        )
        assert page.evaluate(NOTICES) == [[words, LABEL, href]]  # The later notice replaces the earlier one.
    tray(page).get_by_role("button", name="Dismiss").click()
    page.wait_for_function(f"() => {NOTICES}.then(notices => notices.length === 0)")


@pytest.mark.full
def test_without_a_worker_the_page_itself_notifies_with_one_notice_per_timer(permitted: Callable[..., Page]) -> None:
    page = permitted("granted")
    start(page, ONE)
    start(page, RANGE)
    page.clock.fast_forward("07:01")
    page.wait_for_function("document.notices.length === 2")
    assert page.evaluate("document.notices[0].title") == "Time is up"
    tray(page).get_by_role("button", name="Dismiss").first.click()
    page.wait_for_function("document.notices.length === 1")


@pytest.mark.full
def test_a_page_in_view_needs_no_notice(permitted: Callable[..., Page]) -> None:
    page = permitted("granted", hidden=False)
    start(page, ONE)
    page.clock.fast_forward("02:01")
    expect(tray(page).get_by_role("alert")).to_contain_text("Time is up")
    assert page.evaluate("document.notices.length") == 0


@pytest.mark.full
def test_a_visitor_who_refused_is_not_asked_again_and_the_timer_still_rings(permitted: Callable[..., Page]) -> None:
    page = permitted("denied")
    start(page, ONE)
    expect(page.get_by_role("button", name=OFFER)).to_have_count(0)
    page.clock.fast_forward("02:01")
    expect(tray(page).get_by_role("alert")).to_contain_text("Time is up")
    assert page.evaluate("document.notices.length") == 0


@pytest.mark.full
def test_a_visitor_who_was_not_asked_can_ask_for_notices_and_dismiss_the_question(
    permitted: Callable[..., Page],
) -> None:
    """A browser without a window dismisses every question."""
    page = permitted("prompt")
    start(page, ONE)
    offer = page.get_by_role("button", name=OFFER)
    offer.click()
    assert page.evaluate("Notification.permission") == "default"
    expect(offer).to_be_visible()
    page.clock.fast_forward("02:01")
    expect(tray(page).get_by_role("alert")).to_contain_text("Time is up")
    assert page.evaluate("document.notices.length") == 0


def test_a_refusal_is_shown_and_ends_the_offer(whole_browser: Browser, address: str) -> None:
    """A visitor in a browser without a window refuses the first time."""
    with visit(whole_browser, address) as page:
        page.goto(address + CARD)
        start(page, ONE)
        page.get_by_role("button", name=OFFER).click()
        expect(page.get_by_role("button", name=OFFER)).to_have_count(0)
        expect(tray(page).get_by_role("status")).to_contain_text("does not allow notifications")
