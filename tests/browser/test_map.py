"""The map of two ingredients: its point is moved in the picture, by mouse, finger and keys, and everything follows."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from tests.browser.card_page import LIVE, context_on
from tests.chromium import visit

MAP = "calculators/map/"
AT_REST = """async () => {
  let [last, frames] = [NaN, 0];
  while (frames < 20) {
    await new Promise(requestAnimationFrame);
    frames = scrollY === last ? frames + 1 : 0;
    last = scrollY;
  }
}"""
"""Until a page that goes on scrolling after the finger has gone is still: a tap would only stop it."""

IS_NEAR = """([x, y]) => {
  const at = (name) => parseFloat(document.querySelector("movable-point circle").getAttribute(name));
  return Math.abs(at("cx") - x) < .7 && Math.abs(at("cy") - y) < .7;
}"""
PLACE = "element => { const box = element.getBoundingClientRect(); return [box.left, box.top, box.width, box.height]; }"


def place(page: Page, across: float, up: float) -> tuple[float, float]:
    """A place of the picture in the window, by shares of its axes."""
    left, top, width, height = page.locator("movable-point").evaluate(PLACE)
    return left + across * width, top + (1 - up) * height


def ends(page: Page) -> tuple[float, float]:
    """Where the axes end: at twice what the recipe has of the two ingredients."""
    ingredients = context_on(page).published.recipe.ingredients
    x, y = [int(page.locator(f"select[name={name}]").input_value()) for name in "xy"]
    return 2 * ingredients[x].mass_g, 2 * ingredients[y].mass_g


def amounts(page: Page) -> tuple[float, float]:
    x, y = [float(page.locator(f"[name={name}_g]").input_value()) for name in "xy"]
    return x, y


def is_at(page: Page, across: float, up: float) -> None:
    """The fields, the sliders, the point and what it says of itself agree on a place, once Python has answered."""
    x, y = ends(page)
    point = page.locator("movable-point circle")
    expect(page.locator("recipe-calculator")).to_have_attribute("data-state", "live", timeout=LIVE)
    page.wait_for_function(IS_NEAR, arg=[100 * across, 100 - 100 * up], timeout=LIVE)
    # As near as a pixel or a step of one gram.
    assert amounts(page) == (pytest.approx(across * x, abs=0.006 * x), pytest.approx(up * y, abs=0.006 * y))
    for name, share in (("x", across), ("y", up)):
        assert float(page.locator(f"[name={name}_percent]").input_value()) == pytest.approx(200 * share, abs=1.5)
    assert amounts(page)[0] == pytest.approx(float((point.get_attribute("cx") or "").strip("%")) / 100 * x, abs=0.1)
    grip = page.locator("movable-point [role=slider]")
    assert f"this batch at {amounts(page)[0]:g} g of" in (grip.get_attribute("aria-valuetext") or "")
    left, top, width, height = grip.evaluate(PLACE)
    wanted = place(page, across, up)
    assert (left + width / 2, top + height / 2) == (pytest.approx(wanted[0], abs=6), pytest.approx(wanted[1], abs=6))


def test_the_point_is_dragged_in_the_picture(page: Page, site: tuple[Path, str]) -> None:
    page.goto(site[1] + MAP)
    expect(page.locator("movable-point [role=slider]")).to_be_visible()
    page.locator("movable-point").scroll_into_view_if_needed()
    figures = page.locator(".cc-key dd")
    before = figures.all_text_contents()
    page.mouse.move(*place(page, 0.5, 0.5))
    page.mouse.down()
    page.mouse.move(*place(page, 0.4, 0.6), steps=3)
    page.mouse.move(*place(page, 0.25, 0.8), steps=3)
    page.mouse.up()
    is_at(page, 0.25, 0.8)
    assert figures.all_text_contents() != before
    page.mouse.move(*place(page, 0.7, 0.3))
    is_at(page, 0.25, 0.8)

    ground = page.locator(".cc-map-ground").element_handle()
    page.mouse.click(*place(page, 0.7, 0.3))
    is_at(page, 0.7, 0.3)
    assert ground.evaluate("svg => svg.isConnected"), "what is below the point is not drawn again"

    page.mouse.down()
    page.mouse.move(0, 0, steps=3)
    page.mouse.up()
    is_at(page, 0, 1)


def test_the_point_is_moved_by_keys_and_by_the_fields(page: Page, site: tuple[Path, str]) -> None:
    page.goto(site[1] + MAP)
    grip = page.get_by_role("slider", name="This batch, on the map")
    grip.focus()
    page.keyboard.press("Shift+ArrowLeft")
    is_at(page, 0.4, 0.5)
    page.keyboard.press("ArrowLeft")
    is_at(page, 0.39, 0.5)
    page.keyboard.press("Shift+ArrowUp")
    is_at(page, 0.39, 0.6)
    expect(grip).to_be_focused()
    page.locator("[name=x_g]").fill(f"{ends(page)[0] / 4:g}")
    page.locator("[name=x_g]").blur()
    is_at(page, 0.25, 0.6)
    page.locator("[name=y_percent]").fill("50")
    page.locator("[name=y_percent]").blur()
    is_at(page, 0.25, 0.25)


def test_a_finger_drags_the_point_and_scrolls_the_page_elsewhere(browser: Browser, site: tuple[Path, str]) -> None:
    """Playwright has no drag of a finger; Chromium's own protocol has."""
    with visit(browser, site[1], viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True) as page:
        page.goto(site[1] + MAP)
        expect(page.locator("movable-point [role=slider]")).to_be_visible()
        page.locator("movable-point").evaluate("element => element.scrollIntoView({ block: 'center' })")
        chromium = page.context.new_cdp_session(page)

        def touch(kind: str, *points: tuple[float, float]) -> None:
            chromium.send(
                "Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y} for x, y in points]}
            )

        def drag(start: tuple[float, float], end: tuple[float, float]) -> float:
            """Gives how far the page was scrolled by it."""
            before = page.evaluate("scrollY")
            touch("touchStart", start)
            for step in range(1, 9):
                x, y = (start[at] + (end[at] - start[at]) * step / 8 for at in (0, 1))
                touch("touchMove", (x, y))
            touch("touchEnd")
            page.evaluate(AT_REST)
            return float(page.evaluate("scrollY")) - before

        assert drag(place(page, 0.5, 0.5), place(page, 0.3, 0.9)) == 0
        is_at(page, 0.3, 0.9)
        assert drag(place(page, 0.8, 0.2), place(page, 0.8, 0.9)) > 50
        is_at(page, 0.3, 0.9)
        # How far a page goes on by itself depends on how quick the finger was.
        page.locator("movable-point").evaluate("element => element.scrollIntoView({ block: 'center' })")
        page.touchscreen.tap(*place(page, 0.6, 0.4))
        is_at(page, 0.6, 0.4)


def test_a_phone_shows_figures_map_and_sliders_at_once_and_a_reload_keeps_the_point(
    page: Page, site: tuple[Path, str]
) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(site[1] + MAP)
    figures, sliders = (page.locator(part).evaluate(PLACE) for part in (".cc-key", "[name=y_percent]"))
    assert sliders[1] + sliders[3] - figures[1] < 844 - 48, "below the theme's header"
    page.locator("[data-context-from]").select_option(label="Custard buttercream")
    expect(page.locator("select[name=y] option:checked")).to_have_text("caster sugar", timeout=LIVE)
    page.locator("[name=x_percent]").fill("50")
    page.locator("[name=x_percent]").blur()
    is_at(page, 0.25, 0.5)
    shown = page.locator(".cc-key").inner_text()
    page.reload()
    expect(page.locator("[aria-busy=true]")).to_have_count(0, timeout=LIVE)
    expect(page.locator("[data-context-from] option:checked")).to_have_text("Custard buttercream")
    is_at(page, 0.25, 0.5)
    assert page.locator(".cc-key").inner_text() == shown


def test_the_picture_is_as_wide_as_the_form_at_any_width(page: Page, site: tuple[Path, str]) -> None:
    page.goto(site[1] + MAP)
    for width in (320, 390, 768, 1280, 1920):
        page.set_viewport_size({"width": width, "height": 800})
        left, _, wide, high = page.locator("movable-point").evaluate(PLACE)
        form_left, _, form_wide, _ = page.locator("form#map").evaluate(PLACE)
        assert wide > form_wide - 90
        assert form_left < left
        assert left + wide <= form_left + form_wide
        assert 0.4 < high / wide < 0.9
        assert high < 700, "picture and figures fit into a window"
        lettering = page.locator(".cc-level").first.evaluate("text => text.getBoundingClientRect().height")
        assert 10 < lettering < 20, "lettering keeps its size"


def test_the_printed_map_says_nothing_of_the_calculator(page: Page, site: tuple[Path, str]) -> None:
    page.goto(site[1] + MAP)
    page.locator("[name=x_g]").focus()
    expect(page.locator("recipe-calculator")).to_have_attribute("data-state", "live", timeout=LIVE)
    page.emulate_media(media="print")
    for part in (
        "[data-progress]",
        ".cc-batch:has([data-context-from])",
        ".cc-batch:has([type=range])",
        "[role=slider]",
    ):
        expect(page.locator(part)).to_be_hidden()
    expect(page.locator("movable-point")).to_be_visible()


def test_the_recipe_of_the_field_is_that_of_the_figures_whatever_comes_late(page: Page, site: tuple[Path, str]) -> None:
    late: list[Route] = []
    page.route("**/custard-buttercream/card.json", lambda route: late.append(route))
    page.route("**/coating-ganache/card.json", lambda route: route.abort())
    page.goto(site[1] + MAP)
    choice = page.locator("[data-context-from]")
    with page.expect_request("**/custard-buttercream/card.json"):
        choice.select_option(label="Custard buttercream")
    choice.select_option(label="Plain icing-sugar buttercream")
    expect(page.locator("select[name=x]")).to_contain_text("icing sugar", timeout=LIVE)
    with page.expect_request_finished():
        late.pop().continue_()
    choice.select_option(label="Dark coating ganache")
    expect(choice.locator("option:checked")).to_have_text("Plain icing-sugar buttercream")
    assert context_on(page).published.recipe.title == "Plain icing-sugar buttercream"
