"""<crumbcoat-card> in pages of another site, in Chromium: WHATWG HTML and CSP Level 3 are the outside standards."""

import gzip
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from playwright.sync_api import Browser, Locator, Page, Request, expect

from tests.browser.test_embed import FACTOR, GANACHE, MOST_BYTES, PICTURES, SCHEMES, SILK
from tests.chromium import visit
from tests.foreign_page import foreign, line_of, page_with, policy


def element_line(site: tuple[Path, str], card: str, attributes: str = "") -> str:
    """The line that the card's page offers, with attributes that its reader added."""
    return line_of(site, card, "As a part of your page").replace("<crumbcoat-card", f"<crumbcoat-card {attributes}")


def cards_of(page: Page) -> list[Locator]:
    """The cards of a page, once each shows what its frame has."""
    cards = page.locator("crumbcoat-card")
    for card in cards.all():
        card.scroll_into_view_if_needed()
        expect(card.locator("#method")).to_be_attached()
    return cards.all()


def shows(site: tuple[Path, str], card: Locator, factor: str) -> None:
    """Wait until a card of the silk frosting shows what this number of batches weighs, by CPython."""
    recipe = {"recipe": json.loads((site[0] / SILK / "card.json").read_text(encoding="utf-8"))["recipe"]}
    mass = run("batch", context_from(recipe), {}, {"factor": factor})[1]["finished_mass"]
    expect(card.locator("[data-text=finished_mass]").first).to_have_text(mass)


@pytest.fixture
def three(site: tuple[Path, str]) -> Iterator[str]:
    """A page with three cards, two of them the same, under a strict policy and hostile styles."""
    lines = [element_line(site, SILK), element_line(site, GANACHE), element_line(site, SILK, 'font="page"')]
    with foreign({"/": page_with(*lines)}, policy(site[1])) as address:
        yield address


@pytest.mark.parametrize(("width", "scheme"), [(320, "dark"), (1280, "light")])
def test_three_cards_are_whole_live_and_their_own(
    browser: Browser, site: tuple[Path, str], three: str, width: int, scheme: str
) -> None:
    with visit(browser, site[1], viewport={"width": width, "height": 800}, color_scheme=scheme) as page:
        refused: list[str] = []
        page.on("console", lambda message: refused.append(message.text) if message.type == "error" else None)
        page.goto(three)
        first, ganache, again = cards_of(page)
        for card in (first, ganache):
            expect(card.locator("crumbcoat-body")).to_have_css("background-color", SCHEMES[scheme])
            words = card.locator(".cc-do").first
            expect(words).not_to_have_css("font-family", "cursive")
            expect(words).to_have_css("letter-spacing", "normal")
            expect(words).to_have_css("font-size", "17.6px" if width < 760 else "20px")
            expect(card.locator("[hidden]").first).not_to_be_visible()
        expect(again.locator(".cc-do").first).to_have_css("font-family", "cursive")
        assert page.evaluate("document.documentElement.scrollWidth") <= width

        first.locator(FACTOR).fill("2")
        shows(site, first, "2")
        ganache.locator(".cc-stepper-button").nth(1).click()
        expect(ganache.locator(FACTOR)).to_have_value("2")
        expect(again.locator(FACTOR)).to_have_value("1")
        again.locator("select[name=units]").select_option("ounces")
        expect(again.locator("[data-text='amount.butter']").first).to_contain_text("oz")
        expect(first.locator("select[name=units]")).to_have_value("grams")
        first.locator("[data-tick='step 1-1']").check()
        expect(again.locator("[data-tick='step 1-1']")).not_to_be_checked()
        first.locator("[data-do=undo]").click()
        expect(first.locator("[data-tick='step 1-1']")).not_to_be_checked()
        first.locator("[data-do=undo]").click()
        shows(site, first, "1")
        expect(first.locator(FACTOR)).to_have_value("1")
        first.locator("[name='amount.butter']").fill("much")
        expect(first.locator("[data-problem='amount.butter']")).to_contain_text("much")

        for frame in page.frames[:1]:
            assert frame.evaluate("[localStorage.length, sessionStorage.length]") == [0, 0]
        assert refused == []


def test_nothing_is_kept_and_the_page_around_it_is_not_touched(
    browser: Browser, site: tuple[Path, str], three: str
) -> None:
    look = """() => {
      const names = ["font-family", "font-size", "color", "margin-top", "background-color", "display"];
      const shown = [...document.querySelectorAll("html, body, h1, .between, body > p")].map((element) => {
        const style = getComputedStyle(element);
        return names.map((name) => style.getPropertyValue(name)).join();
      });
      return [shown, document.styleSheets.length, document.adoptedStyleSheets.length, Object.keys(globalThis).sort()];
    }"""
    with visit(browser, site[1]) as page:
        page.route("**/embed.js", lambda route: route.abort())
        page.goto(three)
        before = page.evaluate(look)
        page.unroute("**/embed.js")
        page.goto(three)
        first, *_ = cards_of(page)
        assert page.evaluate(look) == before
        first.locator(FACTOR).fill("2")
        shows(site, first, "2")
        page.reload()
        first, *_ = cards_of(page)
        shows(site, first, "1")
        plain = page.context.new_page()
        plain.goto(f"{site[1]}404.html")
        assert plain.evaluate("Object.keys(localStorage).filter((name) => name.startsWith('crumbcoat'))") == []


def test_a_link_within_a_card_opens_and_shows_its_place(browser: Browser, site: tuple[Path, str], three: str) -> None:
    with visit(browser, site[1]) as page:
        page.goto(three)
        first, *_ = cards_of(page)
        page.evaluate("scrollTo(0, 0)")
        first.locator(".cc-caution-line a").click()
        expect(first.locator("#all-cautions")).to_be_in_viewport()
        assert page.url == three
        first.locator(FACTOR).fill("2")
        expect(first.locator(".cc-acts a")).to_have_attribute("href", f"{site[1]}{SILK}#bench&factor=2")
        assert first.locator(".cc-acts a").get_attribute("target") == "_blank"


def test_the_scheme_can_be_chosen_and_changed(browser: Browser, site: tuple[Path, str]) -> None:
    line = element_line(site, GANACHE, 'scheme="dark"')
    with foreign({"/": page_with(line)}, policy(site[1])) as address, visit(browser, site[1]) as page:
        page.goto(address)
        (card,) = cards_of(page)
        expect(card.locator("crumbcoat-body")).to_have_css("background-color", SCHEMES["dark"])
        card.evaluate("card => card.setAttribute('scheme', 'light')")
        expect(card.locator("crumbcoat-body")).to_have_css("background-color", SCHEMES["light"])


@pytest.mark.parametrize("reason", ["no script", "script is refused", "no frame", "another site"])
def test_until_the_card_is_there_its_recipe_in_short_is(browser: Browser, site: tuple[Path, str], reason: str) -> None:
    line = element_line(site, SILK)
    if reason == "another site":
        line = line.replace(f'src="{site[1]}{SILK}', f'src="https://kitchen.example/{SILK}')
    directives = {"script is refused": {"script_src": "'none'"}, "no frame": {"frame_src": "'none'"}}.get(reason, {})
    text = page_with(line).replace("<link rel='stylesheet' href='hostile.css'>", "")
    with (
        foreign({"/": text}, policy(site[1], **directives)) as address,
        visit(browser, site[1], java_script_enabled=reason != "no script") as page,
    ):
        page.goto(address, wait_until="networkidle")
        card = page.locator("crumbcoat-card")
        expect(card.get_by_role("link")).to_have_attribute("href", f"{site[1]}{SILK}")
        expect(card.get_by_text("245 g whole milk")).to_be_visible()
        expect(card.locator("ol li").first).to_be_visible()


GARBAGE = """[
  null, 7, "input", {}, [], { type: "input" }, { type: "input", id: "1" }, { type: "input", id: 1e9, value: "2" },
  { type: "remove", id: field, value: "2", checked: false }, { type: "input", id: field, value: 2, checked: false },
  { type: "input", id: field, value: "9".repeat(5000), checked: false }, { type: "input", id: field, value: "7" },
  { type: "click", id: link, value: "", checked: false }, { type: "submit", id: field, value: "7", checked: false },
]"""
"""What a page that means ill could say to a card; only a field and a button take events, and only with texts."""

OPENED = """async () => {
  const frame = document.querySelector("iframe");
  const { port1, port2 } = new MessageChannel();
  const tree = new Promise((resolve) => { port1.onmessage = ({ data }) => data.tree && resolve(data.tree); });
  frame.contentWindow.postMessage({ crumbcoat: 1 }, "*", [port2]);
  const found = {};
  const look = ([id, name, , attributes, children]) => {
    if (attributes?.name === "factor") found.field = id;
    if (name === "a") found.link = id;
    for (const child of children ?? []) if (Array.isArray(child)) look(child);
  };
  look(await tree);
  globalThis.port = port1;
  Object.assign(globalThis, found);
}"""


def test_a_card_takes_only_texts_for_its_fields_from_the_page_around_it(
    browser: Browser, site: tuple[Path, str]
) -> None:
    line = f"<iframe src='{site[1]}{SILK}embed/?mirror' width='600' height='600'></iframe>"
    with foreign({"/": page_with(line)}) as address, visit(browser, site[1]) as page:
        page.goto(address)
        frame = page.locator("iframe").element_handle().content_frame()
        assert frame is not None
        frame.wait_for_load_state()
        page.evaluate(OPENED)
        page.evaluate(f"{GARBAGE}.forEach((said) => port.postMessage(said))")
        page.evaluate("port.postMessage({ type: 'input', id: field, value: '3', checked: false })")
        expect(frame.locator(FACTOR)).to_have_value("3")
        assert frame.url == f"{site[1]}{SILK}embed/?mirror"
        assert len(page.context.pages) == 1
        assert frame.evaluate("localStorage instanceof Storage") is False, "what the browser keeps is out of reach"
        assert frame.evaluate("Object.keys(localStorage).filter((name) => localStorage.getItem(name) !== null)") == []


def test_only_elements_that_a_card_may_have_are_made(browser: Browser, site: tuple[Path, str]) -> None:
    """Whatever its frame says: here it is a page that answers in the place of the site's."""
    wrong = """<script>addEventListener("message", ({ ports: [port] }) => {
      const script = [2, "script", false, {}, ["parent.broken = 1"]];
      const large = { HREF: "javascript:broken = 1", ONERROR: "broken = 1", ONCLICK: "broken = 1" };
      const image = [3, "img", false, { ...large, src: "javascript:broken = 1", onerror: "broken = 1" }, []];
      const link = [4, "a", false, { ...large, href: "javascript:broken = 1", onclick: "broken = 1" }, ["<b>go</b>"]];
      const frame = [5, "iframe", false, { srcdoc: "<script>top.broken = 1<" + "/script>" }, []];
      const form = [6, "form", false, { action: "https://kitchen.example/" }, []];
      const inside = [8, "script", true, {}, ["broken = 1"]];
      const drawn = [7, "foreignObject", true, { "xlink:href": "javascript:broken = 1" }, [inside]];
      port.postMessage({ sheets: [], tree: [1, "body", false, {}, [script, image, link, frame, form, drawn]] });
    })</script>"""
    with visit(browser, site[1]) as page:
        page.route("**/embed/?mirror=*", lambda route: route.fulfill(status=200, content_type="text/html", body=wrong))
        clobbering = "<img name='currentScript' alt=''>"  # HTML Standard: `document` has it by this name.
        with foreign({"/": page_with(f"{clobbering}{element_line(site, GANACHE)}")}) as address:
            page.goto(address)
            body = page.locator("crumbcoat-body")
            expect(body).to_be_attached()
            body.locator("a").click()
            made = body.evaluate("body => [...body.querySelectorAll('*')].map(({ localName }) => localName)")
            assert made == ["div", "img", "a", "div", "div", "g", "g"]
            held = body.evaluate("body => [...body.querySelectorAll('*')].flatMap((one) => one.getAttributeNames())")
            assert held == []
            assert page.evaluate("'broken' in globalThis") is False
            expect(body.locator("a")).to_have_text("<b>go</b>")


def test_an_element_before_it_is_touched_has_at_most_40_kb(browser: Browser, site: tuple[Path, str]) -> None:
    with (
        foreign({"/": page_with(element_line(site, SILK))}, policy(site[1])) as address,
        visit(browser, site[1], viewport={"width": 390, "height": 800}) as page,
    ):
        asked: list[str] = []
        copied: list[str] = []  # Out of the browser's cache: `force-cache` of the Fetch standard.

        def note(one: Request) -> None:
            (copied if one.resource_type == "fetch" else asked).append(one.url.partition("?")[0])

        page.on("request", note)
        page.goto(address)
        cards_of(page)
        page.wait_for_load_state("networkidle")
    assert copied == [url for url in asked if url.startswith(site[1]) and url.endswith(".css")]
    files = [url.removeprefix(site[1]) for url in asked if url.startswith(site[1]) and PICTURES not in url]
    assert len(files) == len(set(files)), "something was fetched twice"
    files.remove(f"{SILK}embed/")
    scripts = {"embed.js", "embedded_card.js", "mirror.js"}
    assert {name for file in files if (name := file.rpartition("/")[2]).endswith(".js")} == scripts
    shared = sum(len(gzip.compress((site[0] / file).read_bytes(), 6)) for file in files)
    pages = {page: len(gzip.compress(page.read_bytes(), 6)) for page in sorted(site[0].glob("*/*/embed/index.html"))}
    assert {page.parent.parent.name: shared + size for page, size in pages.items() if shared + size > MOST_BYTES} == {}


STYLES = """root => {
  const names = [
    "font-size", "font-weight", "font-style", "text-transform", "border-top-width", "border-left-width", "padding-left",
  ];
  const left_out = ":is([data-do=timer], [data-do=print], [data-do=link])";
  const all = [...root.querySelectorAll(`.cc-card [class]:not(svg *, ${left_out})`)];
  return all.filter((element) => element.checkVisibility()).map((element) => {
    const style = getComputedStyle(element);
    return `${element.getAttribute("class")} ${names.map((name) => style.getPropertyValue(name)).join()}`;
  });
}"""
"""How each element of a card looks that can be seen, by its class; without buttons that an element does not have."""


@pytest.mark.parametrize("width", [390, 1280])
def test_it_looks_like_the_card_in_a_frame(browser: Browser, site: tuple[Path, str], width: int) -> None:
    plain = (
        f"<!doctype html><html lang=en><meta charset=utf-8><body style='margin: 0'>{element_line(site, SILK)}</html>"
    )
    with foreign({"/": plain}) as address, visit(browser, site[1], viewport={"width": width, "height": 800}) as page:
        page.goto(f"{site[1]}{SILK}embed/")
        framed = page.locator("html").evaluate(STYLES)
        page.goto(address)
        (card,) = cards_of(page)
        card.locator(FACTOR).fill("2")
        shows(site, card, "2")
        expect(
            card.locator("[data-message]")
        ).to_be_empty()  # Such as that nothing is saved, which is so for every reader.
        card.locator(FACTOR).fill("1")
        shows(site, card, "1")
        in_element = card.evaluate(f"card => ({STYLES})(card.shadowRoot)")
        assert len(framed) > 250
        assert set(framed) - set(in_element) == set()
