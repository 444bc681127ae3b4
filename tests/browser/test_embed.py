"""Cards in pages of another site, in Chromium: WHATWG HTML, CSP Level 3 and WCAG 2.2 are the outside standards."""

import gzip
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from playwright.sync_api import Browser, Frame, Page, expect

from tests.chromium import visit
from tests.foreign_page import foreign, line_of, page_with, policy

SILK, GANACHE = "milk-emulsions/silk-milk-frosting/", "creams-and-ganache/coating-ganache/"
FACTOR = "[name=factor][form=batch]"
MOST_BYTES = 40_000
"""Of an embedded card before it is touched, as a host with gzip sends it; its pictures are not counted."""

PICTURES = "/assets/pictures/"

SCHEMES = {"light": "rgb(252, 247, 239)", "dark": "rgb(27, 22, 20)"}
"""The paper of the demo's skin."""


def frame_line(site: tuple[Path, str], card: str) -> str:
    """The line for a frame that the card's page offers, as its reader copies it."""
    return line_of(site, card, "In a frame")


def frames_of(page: Page) -> list[Frame]:
    """The frames of a page, once each is as high as its card."""
    frames = page.locator("iframe")
    for index in range(frames.count()):
        frames.nth(index).scroll_into_view_if_needed()
        expect(frames.nth(index)).to_have_attribute("style", re.compile(r"height: \d{4,5}px"))
    found = [frame.element_handle() for frame in frames.all()]
    return [handle.content_frame() for handle in found]  # type: ignore[misc]


def mass(frame: Frame, factor: str) -> str:
    """What this number of batches of a frame's card weighs, by CPython."""
    context = frame.locator("recipe-calculator[context]").get_attribute("context")
    return run("batch", context_from(json.loads(str(context))), {}, {"factor": factor})[1]["finished_mass"]


def shows(frame: Frame, factor: str) -> None:
    """Wait until a frame shows what this number of batches weighs."""
    expect(frame.locator("[data-text=finished_mass]").first).to_have_text(mass(frame, factor))


@pytest.fixture
def three(site: tuple[Path, str]) -> Iterator[str]:
    """A page with three cards, two of them the same, under a strict policy and hostile styles."""
    lines = [frame_line(site, card) for card in (SILK, GANACHE, SILK)]
    with foreign({"/": page_with(*lines)}, policy(site[1])) as address:
        yield address


@pytest.mark.parametrize(("width", "scheme"), [(320, "dark"), (1280, "light")])
def test_three_cards_in_frames_are_whole_live_and_their_own(
    browser: Browser, site: tuple[Path, str], three: str, width: int, scheme: str
) -> None:
    with visit(browser, site[1], viewport={"width": width, "height": 800}, color_scheme=scheme) as page:
        refused: list[str] = []
        page.on("console", lambda message: refused.append(message.text) if message.type == "error" else None)
        page.goto(three)
        first, ganache, again = frames_of(page)
        for frame in (first, ganache, again):
            inside = frame.evaluate(
                """() => {
                  const { scrollHeight, scrollWidth, clientHeight, clientWidth } = document.documentElement;
                  return [scrollHeight - clientHeight, scrollWidth - clientWidth];
                }"""
            )
            assert inside == [0, 0], "it scrolls in itself"
            assert frame.evaluate("getComputedStyle(document.body).backgroundColor") == SCHEMES[scheme]
            assert "cursive" not in frame.evaluate("getComputedStyle(document.querySelector('.cc-do')).fontFamily")
        assert page.evaluate("document.documentElement.scrollWidth") <= width

        first.locator(FACTOR).fill("2")
        shows(first, "2")
        ganache.locator("[data-text='size.larger']").locator("..").locator("..").click()
        expect(ganache.locator(FACTOR)).to_have_value("2")
        expect(again.locator(FACTOR)).to_have_value("1")
        again.locator("select[name=units]").select_option("us")
        expect(first.locator("select[name=units]")).to_have_value("grams")
        expect(first.locator(FACTOR)).to_have_value("2")
        first.locator("[data-do=undo]").click()
        shows(first, "1")

        assert page.evaluate("[localStorage.length, sessionStorage.length]") == [0, 0], "the host keeps something"
        kept = first.evaluate("Object.keys(localStorage)")
        assert all(name.startswith("crumbcoat:") for name in kept)
        assert [name for name in kept if ":recipe:" in name] != []
        assert refused == []


def test_what_the_reader_changed_in_a_frame_is_there_after_a_reload(browser: Browser, site: tuple[Path, str]) -> None:
    line = frame_line(site, SILK)
    second = line.replace("/embed/", "/embed/?slot=2")
    with foreign({"/": page_with(line, second)}) as address, visit(browser, site[1]) as page:
        page.goto(address)
        first, again = frames_of(page)
        first.locator(FACTOR).fill("2")
        again.locator(FACTOR).fill("3")
        shows(first, "2")
        shows(again, "3")
        page.reload()
        first, again = frames_of(page)
        shows(first, "2")
        shows(again, "3")


def test_links_leave_the_frame_and_the_page_scrolls_to_what_is_in_the_card(
    browser: Browser, site: tuple[Path, str], three: str
) -> None:
    with visit(browser, site[1]) as page:
        page.goto(three)
        frame, _, _ = frames_of(page)
        page.evaluate("scrollTo(0, 0)")
        frame.locator(".cc-caution-line a").click()
        page.wait_for_function("scrollY > 2000")
        top = frame.locator("#all-cautions").bounding_box()
        assert top is not None
        assert -5 <= top["y"] < 720
        for link in frame.locator("a:not([href^='#'])").all():
            assert link.get_attribute("target") == "_blank"
            assert "noopener" in str(link.get_attribute("rel"))
        frame.locator(FACTOR).fill("2")
        whole = frame.locator(".cc-whole a")
        expect(whole).to_have_attribute("href", f"{site[1]}{SILK}#factor=2")
        with page.context.expect_page() as opened:
            whole.click()
        expect(opened.value.locator(FACTOR)).to_have_value("2")
        assert page.url == three


def test_work_through_it_opens_the_bench_of_the_site(browser: Browser, site: tuple[Path, str], three: str) -> None:
    with visit(browser, site[1]) as page:
        page.goto(three)
        frame, _, _ = frames_of(page)
        with page.context.expect_page() as opened:
            frame.locator(".cc-acts a").click()
        expect(opened.value.locator(".cc-bench")).to_be_visible()
        opened.value.close()

        frame.locator(FACTOR).fill("2")
        expect(frame.locator(".cc-acts a")).to_have_attribute("href", f"{site[1]}{SILK}#bench&factor=2")
        with page.context.expect_page() as opened:
            frame.locator(".cc-acts a").click()
        card = opened.value
        expect(card.locator(".cc-bench-list .cc-amount").first).to_have_text("490 g")  # 245 g as published
        assert card.evaluate("location.hash") == "#bench"
        card.go_back()
        expect(card.locator(".cc-bench")).to_be_hidden()
        expect(card.locator(FACTOR)).to_have_value("2")


def test_a_timer_shows_at_its_step_and_leads_there(browser: Browser, site: tuple[Path, str], three: str) -> None:
    with visit(browser, site[1]) as page:
        page.goto(three)
        frame, _, _ = frames_of(page)
        frame.locator("#step-1-1 [data-do=timer]").click()
        expect(frame.locator("#step-1-1 [role=timer]")).to_be_visible()
        assert frame.locator(".cc-tray a").get_attribute("href") == f"/{SILK}#step-1-1"


def test_what_is_pressed_before_the_scripts_are_there_counts(
    browser: Browser, site: tuple[Path, str], three: str
) -> None:
    with visit(browser, site[1]) as page:
        held = []
        page.route("**/calculator.js", lambda route: held.append(route))
        page.goto(three)
        frame, _, _ = frames_of(page)
        frame.locator(".cc-stepper-button").nth(1).click()
        frame.locator("[name='amount.butter']").fill("300 g")
        while not held:
            page.wait_for_timeout(20)
        held[0].continue_()
        page.unroute("**/calculator.js")
        expect(frame.locator("[data-text=status]").first).to_contain_text("1")
        expect(frame.locator(FACTOR)).not_to_have_value("1")
        expect(frame.locator("[name='amount.butter']")).not_to_have_value("250 g")


def test_the_host_script_takes_two_numbers_from_its_own_frames_only(browser: Browser, site: tuple[Path, str]) -> None:
    stranger = "<script>parent.postMessage({ crumbcoat: 1, height: 40, goTo: 5000 }, '*')</script>"
    with foreign({"/": stranger}) as other:
        lines = [frame_line(site, GANACHE), f"<iframe id='other' height='300' src='{other}'></iframe>"]
        with foreign({"/": page_with(*lines)}) as address, visit(browser, site[1]) as page:
            page.goto(address)
            page.wait_for_function("document.querySelector('iframe').style.height")
            frame = page.locator("iframe").first.element_handle().content_frame()
            assert frame is not None
            height = page.evaluate("document.querySelector('iframe').style.height")
            page.evaluate("postMessage({ crumbcoat: 1, height: 40, goTo: 5000 }, '*')")
            wrong = ["1e9", "'40'", "NaN", "-40", "{}", "null", "[40]"]
            for value in wrong:
                frame.evaluate(f"parent.postMessage({{ crumbcoat: 1, height: {value}, goTo: 'a' }}, '*')")
            frame.evaluate("parent.postMessage(null, '*'), parent.postMessage('<img>', '*')")
            frame.evaluate("parent.postMessage({ crumbcoat: 2, height: 40 }, '*')")
            frame.evaluate("parent.postMessage({ crumbcoat: 1, goTo: 0 }, '*')")
            page.wait_for_function("scrollY > 0")
            assert page.evaluate("document.querySelector('iframe').style.height") == height
            assert page.evaluate("document.getElementById('other').style.height") == ""
            assert page.evaluate("scrollY") < 1000


SANDBOX = 'sandbox="allow-scripts allow-same-origin allow-popups allow-popups-to-escape-sandbox"'


@pytest.mark.parametrize(("styles", "width"), [("", "0px"), ("iframe { border: 3px solid gold }", "3px")])
def test_a_frame_has_the_border_that_its_page_gives_it_or_none(
    browser: Browser, site: tuple[Path, str], styles: str, width: str
) -> None:
    plain = f"<!doctype html><html lang=en><style>{styles}</style><body>{frame_line(site, GANACHE)}</html>"
    with foreign({"/": plain}) as address, visit(browser, site[1]) as page:
        page.goto(address)
        expect(page.locator("iframe")).not_to_have_css("height", "720px")
        expect(page.locator("iframe")).to_have_css("border-top-width", width)


@pytest.mark.parametrize("attributes", [pytest.param("", id="plain"), pytest.param(SANDBOX, id="sandbox")])
def test_a_frame_without_the_script_scrolls_in_itself(
    browser: Browser, site: tuple[Path, str], attributes: str
) -> None:
    line = frame_line(site, SILK).partition("<script")[0].replace("<iframe", f"<iframe {attributes}")
    page_text = page_with(line).replace("<link rel='stylesheet' href='hostile.css'>", "")
    strict = policy(site[1], script_src="'none'")
    with foreign({"/": page_text}, strict) as address, visit(browser, site[1]) as page:
        page.goto(address)
        frame = page.locator("iframe").element_handle().content_frame()
        assert frame is not None
        frame.wait_for_load_state()
        assert frame.evaluate("innerHeight") == 720
        assert frame.evaluate("document.documentElement.scrollHeight") > 3000
        frame.locator(FACTOR).fill("2")
        shows(frame, "2")
        frame.locator(".cc-caution-line a").click()
        frame.wait_for_function("scrollY > 1000")


@pytest.mark.parametrize("scheme", SCHEMES)
def test_a_frame_without_scripts_of_its_own_is_complete(browser: Browser, site: tuple[Path, str], scheme: str) -> None:
    with visit(browser, site[1], java_script_enabled=False, color_scheme=scheme) as page:
        page.goto(f"{site[1]}{SILK}embed/")
        card = json.loads((site[0] / SILK / "card.json").read_text(encoding="utf-8"))
        for ingredient in card["recipe"]["ingredients"]:
            assert page.locator(f"[data-text='amount.{ingredient}']").first.is_visible(), ingredient
        assert page.locator(".cc-do").count() == sum(len(stage["steps"]) for stage in card["recipe"]["stages"])
        assert all(step.is_visible() for step in page.locator(".cc-do").all())
        expect(page.locator("body")).to_have_css("background-color", SCHEMES[scheme])
        assert not page.locator(FACTOR).is_visible()


@pytest.mark.parametrize(("asked", "shown"), [("light", "light"), ("dark", "dark"), ("<b>", "dark")])
def test_the_address_of_a_frame_can_choose_light_or_dark(
    page: Page, site: tuple[Path, str], asked: str, shown: str
) -> None:
    page.emulate_media(color_scheme="dark")
    page.goto(f"{site[1]}{GANACHE}embed/?scheme={asked}")
    expect(page.locator("body")).to_have_css("background-color", SCHEMES[shown])


def test_a_card_before_it_is_touched_has_at_most_40_kb(browser: Browser, site: tuple[Path, str], three: str) -> None:
    with visit(browser, site[1], viewport={"width": 390, "height": 800}) as page:
        with foreign({"/": page_with(frame_line(site, SILK))}, policy(site[1])) as address:
            asked: list[str] = []
            page.on("request", lambda request: asked.append(request.url))
            page.goto(address)
            frames_of(page)
            page.wait_for_load_state("networkidle")
        files = {url.removeprefix(site[1]) for url in asked if url.startswith(site[1]) and PICTURES not in url}
    files.remove(f"{SILK}embed/")
    sheets = {"embed.css", "calculators.css", "journal.css", "embed_colours.css"}
    assert {file.rpartition("/")[2] for file in files} == sheets | {"embed.js", "embedded_card.js"}
    shared = sum(len(gzip.compress((site[0] / file).read_bytes(), 6)) for file in files)
    pages = {page: len(gzip.compress(page.read_bytes(), 6)) for page in sorted(site[0].glob("*/*/embed/index.html"))}
    assert len(pages) > 10
    assert {page.parent.parent.name: shared + size for page, size in pages.items() if shared + size > MOST_BYTES} == {}
