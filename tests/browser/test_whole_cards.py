"""Whole cards in a page of the same site, in Chromium: WHATWG HTML and CSP Level 3 are the outside standards."""

import gzip
import json
import re
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from playwright.sync_api import Browser, FrameLocator, Page, expect

from tests.browser.card_page import LIVE
from tests.browser.test_embed import FACTOR, MOST_BYTES, PICTURES, SCHEMES
from tests.browser.test_layout_shift import WATCH, shifts
from tests.chromium import visit

POST = "last-evening/"
CURD, GANACHE = "creams-and-ganache/lemon-curd-filling/", "creams-and-ganache/coating-ganache/"


def cards_of(page: Page) -> tuple[FrameLocator, ...]:
    """The cards of the post, once each is in the place of its short form."""
    cards = page.locator("whole-card")
    expect(cards).to_have_count(2)
    for index in range(cards.count()):
        cards.nth(index).scroll_into_view_if_needed()
        expect(cards.nth(index)).to_have_attribute("data-live", "")
    return tuple(cards.nth(index).frame_locator("iframe") for index in range(cards.count()))


def shows(site: tuple[Path, str], place: FrameLocator | Page, card: str, factor: str) -> None:
    """Wait until it shows what this number of batches of a card weighs, by CPython."""
    recipe = json.loads((site[0] / card / "card.json").read_text(encoding="utf-8"))["recipe"]
    mass = run("batch", context_from({"recipe": recipe}), {}, {"factor": factor})[1]["finished_mass"]
    expect(place.locator("[data-text=finished_mass]").first).to_have_text(mass, timeout=LIVE)


def change(site: tuple[Path, str], card: FrameLocator, name: str, factor: str) -> None:
    """Change the number of batches; without Pyodide the answer may be there before the script that keeps the change."""
    card.locator(FACTOR).fill(factor)
    shows(site, card, name, factor)
    expect(card.locator(".cc-acts a")).to_have_attribute("href", re.compile(f"#bench&factor={factor}$"))


@pytest.mark.parametrize(("width", "scheme"), [(390, "dark"), (1280, "light")])
def test_two_recipes_of_a_post_are_whole_live_and_their_own(
    browser: Browser, site: tuple[Path, str], width: int, scheme: str
) -> None:
    with visit(browser, site[1], viewport={"width": width, "height": 800}, color_scheme=scheme) as page:
        refused: list[str] = []
        page.on("console", lambda message: refused.append(message.text) if message.type == "error" else None)
        page.goto(site[1] + POST)
        curd, ganache = cards_of(page)
        for card in (curd, ganache):
            inside = card.locator("html").evaluate(
                "html => [html.scrollHeight - html.clientHeight, html.scrollWidth - html.clientWidth]"
            )
            assert inside == [0, 0], "it scrolls in itself"
            expect(card.locator("body")).to_have_css("background-color", SCHEMES[scheme])
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        expect(page.locator(".cc-short").first).to_be_hidden()
        change(site, curd, CURD, "2")
        change(site, ganache, GANACHE, "3")
        shows(site, curd, CURD, "2")
        assert refused == []


def test_what_was_changed_is_kept_and_the_same_on_the_page_of_the_card(
    browser: Browser, site: tuple[Path, str]
) -> None:
    with visit(browser, site[1]) as page:
        page.goto(site[1] + POST)
        curd, _ = cards_of(page)
        change(site, curd, CURD, "2")
        page.reload()
        curd, ganache = cards_of(page)
        shows(site, curd, CURD, "2")
        shows(site, ganache, GANACHE, "1")
        page.goto(site[1] + CURD)
        shows(site, page, CURD, "2")
        page.locator(FACTOR).fill("4")
        shows(site, page, CURD, "4")
        page.goto(site[1] + POST)
        shows(site, cards_of(page)[0], CURD, "4")


@pytest.mark.parametrize("factor", ["1", "2"])
def test_work_through_it_opens_the_bench_on_the_page_of_the_card(
    browser: Browser, site: tuple[Path, str], factor: str
) -> None:
    with visit(browser, site[1]) as page:
        page.goto(site[1] + POST)
        curd, _ = cards_of(page)
        if factor != "1":
            change(site, curd, CURD, factor)
        curd.locator(".cc-acts a").click()
        expect(page.locator(".cc-bench")).to_be_visible(timeout=LIVE)
        assert page.url == f"{site[1]}{CURD}#bench"
        shows(site, page, CURD, factor)
        expect(page.locator("[data-from-link]")).to_be_hidden()


def test_a_card_follows_the_palette_of_its_page(browser: Browser, site: tuple[Path, str]) -> None:
    with visit(browser, site[1], color_scheme="light") as page:
        page.goto(site[1] + POST)
        curd, ganache = cards_of(page)
        for before, after in (("light", "dark"), ("dark", "light")):
            for card in (curd, ganache):
                expect(card.locator("body")).to_have_css("background-color", SCHEMES[before])
            page.locator(f"label[title='Switch to {after}']").click()
        for card in (curd, ganache):
            expect(card.locator("body")).to_have_css("background-color", SCHEMES["light"])


def test_without_scripts_the_short_form_shows_and_leads_to_the_card(browser: Browser, site: tuple[Path, str]) -> None:
    with visit(browser, site[1], java_script_enabled=False) as page:
        page.goto(site[1] + POST)
        expect(page.locator("iframe")).to_have_count(0)
        expect(page.locator(".cc-short")).to_have_count(2)
        short = page.locator(".cc-short").first
        expect(short).to_be_visible()
        height = short.bounding_box()["height"]  # type: ignore[index]
        assert page.locator("whole-card").first.bounding_box()["height"] == height  # type: ignore[index]
        short.locator(".cc-short-way a").click()
        assert page.url == site[1] + CURD


def test_paper_has_the_short_form(browser: Browser, site: tuple[Path, str]) -> None:
    with visit(browser, site[1]) as page:
        page.goto(site[1] + POST)
        cards_of(page)
        page.emulate_media(media="print")
        for index in range(2):
            expect(page.locator(".cc-short").nth(index)).to_be_visible()
            expect(page.locator("iframe").nth(index)).to_be_hidden()
        page.emulate_media(media="screen")
        expect(page.locator("iframe").first).to_be_visible()


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_in_sight_moves_when_a_card_arrives(browser: Browser, site: tuple[Path, str], width: int) -> None:
    with visit(browser, site[1], viewport={"width": width, "height": 800}) as page:
        page.add_init_script(WATCH)
        slow = {"offline": False, "latency": 150, "downloadThroughput": -1, "uploadThroughput": -1}
        page.context.new_cdp_session(page).send("Network.emulateNetworkConditions", slow)
        page.goto(site[1] + POST)
        expect(page.locator("whole-card").first).to_have_attribute("data-live", "")
        assert shifts(page) == []


def test_a_card_that_cannot_be_loaded_stays_in_short(browser: Browser, site: tuple[Path, str]) -> None:
    with visit(browser, site[1]) as page:
        page.route("**/embed/", lambda route: route.abort())
        page.goto(site[1] + POST)
        page.locator("whole-card").first.scroll_into_view_if_needed()
        page.wait_for_load_state("networkidle")
        expect(page.locator(".cc-short").first).to_be_visible()
        expect(page.locator("iframe").first).to_be_hidden()


def test_in_place_navigation_brings_the_cards_and_takes_them_away(browser: Browser, site: tuple[Path, str]) -> None:
    with visit(browser, site[1]) as page:
        page.goto(site[1])
        page.evaluate("globalThis.isSamePage = true")
        page.get_by_role("link", name="What we made on the last evening").click()
        curd, _ = cards_of(page)
        change(site, curd, CURD, "2")
        page.go_back()
        expect(page.locator("whole-card")).to_have_count(0)
        page.go_forward()
        shows(site, cards_of(page)[0], CURD, "2")
        assert page.evaluate("globalThis.isSamePage"), "the page was loaded as a whole"


def test_a_link_within_a_card_scrolls_the_page_to_below_its_header(browser: Browser, site: tuple[Path, str]) -> None:
    with visit(browser, site[1]) as page:
        page.goto(site[1] + POST)
        curd, _ = cards_of(page)
        page.evaluate("scrollTo(0, 0)")
        curd.locator(".cc-caution-line a").click()
        page.wait_for_function("scrollY > 2000")
        page.wait_for_timeout(300)
        header = page.locator(".md-header").bounding_box()
        place = curd.locator("#all-cautions").bounding_box()
        assert header is not None
        assert place is not None
        assert header["height"] <= place["y"] < 720
        assert page.url == site[1] + POST


def test_a_timer_of_a_card_is_in_the_tray_of_the_page_alone(browser: Browser, site: tuple[Path, str]) -> None:
    with visit(browser, site[1]) as page:
        page.goto(site[1] + POST)
        curd, _ = cards_of(page)
        curd.locator("#step-1-1 [data-do=timer]").click()
        expect(page.locator(".cc-tray [role=timer]")).to_be_visible()
        assert page.locator(".cc-tray a").get_attribute("href") == f"/{CURD}#step-1-1"
        page.reload()
        expect(page.locator(".cc-tray [role=timer]")).to_be_visible()
        for card in cards_of(page):
            expect(card.locator(".cc-tray [role=timer]")).to_have_count(1)
            expect(card.locator(".cc-tray [role=timer]")).to_be_hidden()


def test_a_timer_of_a_card_is_heard_once(browser: Browser, site: tuple[Path, str]) -> None:
    """The page around the card looks at the same time, and may not make a sound: nobody has touched it."""
    with visit(browser, site[1]) as page:
        page.add_init_script(
            """top.tones ??= [];
            const begin = OscillatorNode.prototype.start;
            OscillatorNode.prototype.start = function (...when) {
              top.tones.push(self === top);
              return begin.apply(this, when);
            };"""
        )
        page.clock.install()
        page.goto(site[1] + POST)
        curd, _ = cards_of(page)
        curd.locator("#step-1-1 [data-do=timer]").click()
        expect(page.locator(".cc-tray [role=timer]")).to_be_visible()
        page.clock.fast_forward("01:55")
        assert page.evaluate("tones") == []
        page.clock.run_for(7000)
        page.wait_for_function("tones.length")
        assert page.evaluate("tones") == [False] * 3
        page.locator(".cc-tray [data-act=dismiss]").click()
        page.clock.run_for(11000)
        assert page.evaluate("tones.length") == 3, "it sounds on after somebody has answered"


def test_a_post_before_it_is_touched_loads_no_more_than_embedded_cards_do(
    browser: Browser, site: tuple[Path, str]
) -> None:
    with visit(browser, site[1], viewport={"width": 390, "height": 800}) as page:
        page.goto(site[1])
        page.wait_for_load_state("networkidle")
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))
        page.get_by_role("link", name="What we made on the last evening").click()
        cards_of(page)
        page.wait_for_load_state("networkidle")
        files = {url.removeprefix(site[1]) for url in asked if url.startswith(site[1]) and PICTURES not in url}
    frames = {f"{CURD}embed/", f"{GANACHE}embed/"}
    assert frames <= files
    sheets = {"embed.css", "calculators.css", "journal.css", "embed_colours.css"}
    shared = {file for file in files if re.search(r"\.\w+$", file)}
    assert {file.rpartition("/")[2] for file in shared} - {"pages.css"} == sheets | {"embedded_card.js"}
    common = sum(len(gzip.compress((site[0] / file).read_bytes(), 6)) for file in shared)
    for frame in frames:
        page_bytes = len(gzip.compress((site[0] / frame / "index.html").read_bytes(), 6))
        assert common + page_bytes <= MOST_BYTES, frame
