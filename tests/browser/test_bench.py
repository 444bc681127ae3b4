"""The bench: one step at a time, by hand and by keyboard; the checkpoint as a question; the place is kept."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, CDPSession, Page, expect

from tests.chromium import visit

CARD = "milk-emulsions/silk-milk-frosting/"
LIVE = 30_000


@pytest.fixture
def address(site: tuple[Path, str]) -> str:
    return site[1]


PHONE = pytest.param((360, 740), id="phone")
DESK = (1280, 800)


@pytest.fixture(params=[PHONE, pytest.param(DESK, id="desk", marks=pytest.mark.full)])
def bench(page: Page, address: str, request: pytest.FixtureRequest) -> Page:
    width, height = request.param
    page.set_viewport_size({"width": width, "height": height})
    page.goto(address + CARD)
    button(page, "Work through it").click()
    expect(page.get_by_role("heading", name="Set everything out")).to_be_visible()
    return page


def button(page: Page, name: str):
    return page.get_by_role("button", name=name, exact=True)


def where(page: Page):
    return page.locator(".cc-bench-where")


def stages(page: Page) -> list[list[str]]:
    """The text of each step of each stage, as on the page."""
    return page.locator(".cc-steps").evaluate_all(
        "lists => lists.map(list => [...list.querySelectorAll('.cc-do')].map(one => one.textContent.trim()))"
    )


@pytest.mark.parametrize("bench", [PHONE, pytest.param(DESK, id="desk", marks=pytest.mark.full)], indirect=True)
def test_every_step_comes_in_turn(bench: Page) -> None:
    listed = stages(bench)
    button(bench, "Begin").click()
    for number, steps in enumerate(listed, 1):
        for place, does in enumerate(steps, 1):
            expect(where(bench)).to_have_text(f"Stage {number} of {len(listed)}, step {place} of {len(steps)}")
            expect(bench.locator(".cc-bench .cc-do")).to_have_text(does)
            bench.get_by_role("button", name=re.compile("^Done, ")).click()
    expect(bench.get_by_role("heading", name="That is the whole batch")).to_be_visible()
    expect(bench.locator(".cc-bench-hint")).to_have_text("Every step is ticked.")
    button(bench, "Start again").click()
    expect(bench.get_by_role("heading", name="Set everything out")).to_be_visible()
    bench.keyboard.press("Escape")
    expect(bench.locator("[data-tick]:checked")).to_have_count(0)
    button(bench, "Undo").click()
    expect(bench.locator(".cc-task [data-tick]:not(:checked)")).to_have_count(0)


def test_the_place_and_the_ticks_outlast_a_reload(bench: Page) -> None:
    bench.locator(".cc-bench").get_by_label("whole milk").check()
    button(bench, "Begin").click()
    button(bench, "Done, next").click()
    button(bench, "Skip").click()
    expect(where(bench)).to_have_text(re.compile("step 3 of"))
    bench.reload()
    expect(where(bench)).to_have_text(re.compile("step 3 of"))
    for _ in range(2):
        button(bench, "Back").click()
    expect(bench.get_by_label("This step is done")).to_be_checked()
    button(bench, "Back").click()
    expect(bench.locator(".cc-bench").get_by_label("whole milk")).to_be_checked()
    button(bench, "Leave bench view").click()
    expect(bench.get_by_label("Stage 1, step 1 is done")).to_be_checked()
    bench.wait_for_function("location.hash === ''")


def test_back_closes_it_and_forward_opens_it_and_no_entry_is_left_of_it(page: Page, address: str) -> None:
    page.goto(address)
    page.goto(address + CARD)
    button(page, "Work through it").click()
    opened = page.locator("dialog.cc-bench")
    expect(opened).to_be_visible()
    page.evaluate("document.querySelector('article').isTheSame = true")
    page.go_back()
    expect(opened).to_have_count(0)
    assert page.url == address + CARD
    page.go_forward()
    expect(opened).to_be_visible()
    assert page.evaluate("document.querySelector('article').isTheSame")
    for _ in range(2):
        page.reload()
        expect(opened).to_be_visible()
        button(page, "Leave bench view").click()
        page.wait_for_function("location.hash === ''")
        button(page, "Work through it").click()
        expect(opened).to_be_visible()
    page.keyboard.press("Escape")
    page.wait_for_function("location.hash === ''")
    page.go_back()
    page.wait_for_url(address)


def test_by_keyboard_alone(page: Page, address: str) -> None:
    page.goto(address + CARD)
    button(page, "Work through it").focus()
    page.keyboard.press("Enter")
    expect(where(page)).to_have_text("Before you begin")
    page.keyboard.press("ArrowRight")
    expect(where(page)).to_have_text(re.compile("step 1 of"))
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowLeft")
    expect(where(page)).to_have_text(re.compile("step 1 of"))
    for _ in range(12):
        page.keyboard.press("Tab")
        inside = page.evaluate(
            "document.activeElement === document.body || !!document.activeElement.closest('.cc-bench')"
        )
        assert inside
    button(page, "Done, next").focus()
    page.keyboard.press("Space")
    expect(where(page)).to_have_text(re.compile("step 2 of"))
    page.keyboard.press("Escape")
    expect(page.locator(".cc-bench")).to_have_count(0)
    expect(button(page, "Work through it")).to_be_focused()
    expect(page.get_by_label("Stage 1, step 1 is done")).to_be_checked()


def test_a_checkpoint_asks_shows_the_remedy_and_asks_again(bench: Page) -> None:
    point = bench.locator(".cc-checkpoint").first
    steps = bench.locator(".cc-task")
    place = steps.evaluate_all("steps => steps.findIndex(step => step.querySelector('.cc-checkpoint'))")
    sign, remedy = (point.locator(f".cc-troubles {tag}").nth(1).text_content() for tag in ("dt", "dd"))
    for _ in range(place + 1):
        bench.keyboard.press("ArrowRight")
    expect(bench.get_by_role("heading", name="How does it look?")).to_be_visible()
    bench.locator(".cc-bench").get_by_role("button", name=sign).click()
    expect(bench.get_by_role("heading", name="It can still be rescued")).to_be_focused()
    expect(bench.locator(".cc-remedy")).to_have_text(remedy)
    button(bench, "Then look again").click()
    expect(bench.get_by_role("heading", name="How does it look?")).to_be_focused()
    button(bench, "It looks right").click()
    expect(bench.get_by_role("heading", name="It looks right")).to_be_focused()
    button(bench, "Look again").click()
    expect(bench.get_by_role("heading", name="How does it look?")).to_be_visible()


def test_a_remedy_says_what_is_kept_back_and_that_it_went_in(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(address + "creams-and-ganache/stabilised-whipped-cream/")
    button(page, "Work through it").click()
    listed = page.locator(".cc-bench-list").get_by_text("45 g more, kept back for the checkpoint of step 2.2")
    expect(listed).to_be_visible()
    steps = page.locator(".cc-task")
    place = steps.evaluate_all("steps => steps.findIndex(step => step.querySelector('[name^=used]'))")
    for _ in range(place + 1):
        page.keyboard.press("ArrowRight")
    page.locator(".cc-bench").get_by_role("button", name="Grainy and yellowish.").click()
    remedy = page.locator(".cc-bench .cc-remedy")
    expect(remedy).to_contain_text("45 g whipping cream, 36 % fat, kept back")
    remedy.get_by_label("it went in").check()
    expect(page.locator("[data-text=finished_mass]").first).to_have_text("737 g", timeout=LIVE)
    expect(page.locator(".cc-bench .cc-remedy").get_by_label("it went in")).to_be_checked()
    page.locator(".cc-bench .cc-remedy").get_by_label("it went in").uncheck()
    expect(page.locator("[data-text=finished_mass]").first).to_have_text("692 g", timeout=LIVE)


def test_its_amounts_are_those_of_the_batch(page: Page, address: str) -> None:
    page.goto(address + CARD + "#factor=2")
    expect(page.get_by_label("Number of batches")).to_have_value("2", timeout=LIVE)
    button(page, "Work through it").click()
    amounts = page.locator(".cc-ingredients tbody tr:first-child .cc-printed").all_text_contents()
    expect(page.locator(".cc-bench-list .cc-amount")).to_have_text(amounts)
    page.keyboard.press("ArrowRight")
    used = page.locator(".cc-task").first.locator(".cc-goes-in .cc-amount").all_text_contents()
    expect(page.locator(".cc-bench .cc-goes-in .cc-amount")).to_have_text(used)
    page.keyboard.press("Control+z")
    expect(page.locator(".cc-bench .cc-goes-in .cc-amount")).not_to_have_text(used, timeout=LIVE)


@pytest.fixture
def whole_page(whole_browser: Browser, address: str) -> Iterator[Page]:
    """In a browser that can keep a screen on."""
    with visit(whole_browser, address) as page:
        yield page


def test_the_screen_stays_on_while_it_is_open_if_wanted(whole_page: Page, address: str) -> None:
    page = whole_page
    page.add_init_script(
        """const asked = navigator.wakeLock.request.bind(navigator.wakeLock);
        document.locks = [];
        navigator.wakeLock.request = async (kind) => {
          const lock = await asked(kind);
          document.locks.push(lock);
          return lock;
        };"""
    )
    page.goto(address + CARD + "#bench")
    awake = page.get_by_role("switch", name="Keep the screen on")
    expect(page.locator(".cc-bench-awake")).to_have_attribute("data-awake", "on")
    awake.uncheck()
    expect(page.locator(".cc-bench-awake")).to_have_attribute("data-awake", "off")
    page.reload()
    expect(awake).not_to_be_checked()
    assert page.evaluate("document.locks.length") == 0
    awake.check()
    expect(page.locator(".cc-bench-awake")).to_have_attribute("data-awake", "on")
    button(page, "Leave bench view").click()
    page.wait_for_function("document.locks.length === 1 && document.locks[0].released")


@pytest.mark.full
def test_a_browser_that_cannot_keep_the_screen_on_says_so(page: Page, address: str) -> None:
    page.add_init_script("delete Navigator.prototype.wakeLock")
    page.goto(address + CARD + "#bench")
    expect(page.locator(".cc-bench-awake")).to_contain_text("this browser cannot keep it on")


# --- swipes


@pytest.fixture(scope="module")
def touch_screen(browser: Browser, site: tuple[Path, str]) -> Iterator[tuple[Page, CDPSession]]:
    """A page on a touch screen, and the session that sends touches."""
    with visit(browser, site[1], viewport={"width": 360, "height": 640}, has_touch=True, is_mobile=True) as page:
        yield page, page.context.new_cdp_session(page)


@pytest.fixture
def touched(touch_screen: tuple[Page, CDPSession], address: str) -> Iterator[tuple[Page, CDPSession]]:
    """The bench on a touch screen, at its first step; what a test leaves behind is cleared."""
    page = touch_screen[0]
    page.goto(address + CARD + "#bench")
    expect(page.get_by_role("heading", name="Set everything out")).to_be_visible()
    page.keyboard.press("ArrowRight")
    expect(where(page)).to_have_text("Stage 1 of 5, step 1 of 6")
    yield touch_screen
    page.evaluate("localStorage.clear(), sessionStorage.clear()")
    page.goto("about:blank")


def stroke(cdp: CDPSession, *fingers: tuple[tuple[int, int], tuple[int, int]]) -> None:
    """Each finger goes down, moves from the first place to the second in ten steps, and all go up."""

    def at(part: float) -> list[dict[str, float]]:
        return [
            {"id": n, "x": x + part * (to_x - x), "y": y + part * (to_y - y)}
            for n, ((x, y), (to_x, to_y)) in enumerate(fingers)
        ]

    cdp.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": at(0)})
    for step in range(1, 11):
        cdp.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": at(step / 10)})
    cdp.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def test_a_swipe_to_the_left_goes_forward_and_to_the_right_goes_back(touched: tuple[Page, CDPSession]) -> None:
    page, cdp = touched
    stroke(cdp, ((300, 300), (60, 310)))
    expect(where(page)).to_have_text("Stage 1 of 5, step 2 of 6")
    stroke(cdp, ((300, 300), (60, 290)))
    expect(where(page)).to_have_text("Stage 1 of 5, step 3 of 6")
    stroke(cdp, ((60, 300), (300, 310)))
    expect(where(page)).to_have_text("Stage 1 of 5, step 2 of 6")
    # It turns the page and does nothing else: it ticks off no step.
    assert page.locator("[data-tick^=step]:checked").count() == 0


@pytest.mark.parametrize(
    "fingers",
    [
        pytest.param([((300, 300), (250, 300))], id="a short one"),
        pytest.param([((180, 500), (150, 200))], id="one along the page, which scrolls it", marks=pytest.mark.full),
        pytest.param([((300, 450), (180, 330))], id="one aslant", marks=pytest.mark.full),
    ],
)
def test_no_other_swipe_turns_the_page(
    touched: tuple[Page, CDPSession], fingers: list[tuple[tuple[int, int], tuple[int, int]]]
) -> None:
    page, cdp = touched
    stroke(cdp, *fingers)
    stroke(cdp, ((300, 300), (60, 300)))  # This one does, so the other one was handled before it.
    expect(where(page)).to_have_text("Stage 1 of 5, step 2 of 6")


@pytest.mark.full
def test_two_fingers_zoom_in_and_then_one_finger_moves_the_page(touched: tuple[Page, CDPSession]) -> None:
    page, cdp = touched
    stroke(cdp, ((170, 300), (60, 300)), ((190, 300), (300, 300)))
    page.wait_for_function("visualViewport.scale > 1.5")
    expect(where(page)).to_have_text("Stage 1 of 5, step 1 of 6")
    left = page.evaluate("visualViewport.pageLeft")
    stroke(cdp, ((300, 300), (180, 300)))
    page.wait_for_function("left => visualViewport.pageLeft > left + 20", arg=left)
    expect(where(page)).to_have_text("Stage 1 of 5, step 1 of 6")


@pytest.mark.full
def test_a_long_step_scrolls_under_the_finger(touched: tuple[Page, CDPSession]) -> None:
    page, cdp = touched
    for _ in range(4):
        page.keyboard.press("ArrowRight")
    expect(where(page)).to_have_text("Stage 1 of 5, step 5 of 6")
    body = page.locator(".cc-bench-body")
    assert body.evaluate("body => body.scrollHeight > body.clientHeight + 50")
    stroke(cdp, ((180, 420), (185, 160)))
    page.wait_for_function("document.querySelector('.cc-bench-body').scrollTop > 50")
    expect(where(page)).to_have_text("Stage 1 of 5, step 5 of 6")


@pytest.mark.full
def test_a_tap_on_a_button_is_not_a_swipe(touched: tuple[Page, CDPSession]) -> None:
    page, _ = touched
    button(page, "Done, next").tap()
    expect(where(page)).to_have_text("Stage 1 of 5, step 2 of 6")
    assert page.locator("[data-tick='step 1-1']").first.is_checked()


def test_what_comes_next_can_be_weighed_out_and_what_goes_on_by_itself_is_timed(bench: Page) -> None:
    button(bench, "Begin").click()
    expect(bench.locator(".cc-bench-next")).to_have_text("Next 3 g powdered gelatine")
    button(bench, "Done, next").click()
    expect(bench.get_by_role("timer")).to_have_count(0)
    for name in ("Done, start 5 min", "Done, next"):  # Done with twice, it is still timed once.
        button(bench, name).click()
        expect(bench.get_by_role("timer")).to_have_count(1)
        button(bench, "Back").click()
        bench.locator(".cc-bench [data-tick]").uncheck()
    button(bench, "Dismiss").click()
    button(bench, "Leave bench view").click()


def test_with_large_text_everything_scrolls_and_buttons_stay_large(bench: Page) -> None:
    """WCAG 2.2: 1.4.10 reflow at 400 % of 1280 x 1024 is 320 x 256; 2.5.5 target size: 44 px."""
    button(bench, "Begin").click()
    heights = bench.locator(".cc-bench .cc-button:visible").evaluate_all("all => all.map(one => one.offsetHeight)")
    assert min(heights) >= 44
    bench.set_viewport_size({"width": 320, "height": 256})
    dialog = bench.locator(".cc-bench")
    assert dialog.evaluate("one => one.scrollHeight > one.clientHeight && one.scrollWidth <= one.clientWidth")
    assert bench.locator(".cc-bench-body").evaluate("one => one.scrollHeight <= one.clientHeight + 1")


def test_on_a_small_phone_notes_are_shown_and_a_timer_stays_in_sight(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 320, "height": 480})
    page.goto(f"{address}buttercreams/swiss-meringue-buttercream/")
    button(page, "Work through it").click()
    listed = page.locator(".cc-bench-list li")
    expect(listed.filter(has_text="egg whites")).to_contain_text("5 large egg whites; beat, then measure 155 g")
    expect(listed.filter(has_text="cream of tartar").locator(".cc-tag")).to_have_text("optional")
    for _ in range(3):
        button(page, "Skip").click()
    page.locator(".cc-bench [data-do=timer]").click()
    expect(page.get_by_role("timer")).to_be_in_viewport()
    name = page.locator(".cc-tray a")
    assert name.evaluate("name => name.scrollWidth <= name.parentElement.clientWidth && name.offsetHeight < 40")
    page.locator(".cc-bench-body").focus()
    page.evaluate("document.querySelector('.cc-bench').scrollTo(0, 0)")
    expect(name).to_be_in_viewport(ratio=1)
    button(page, "Dismiss").click()
    button(page, "Leave bench view").click()
