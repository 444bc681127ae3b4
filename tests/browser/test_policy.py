"""Under the security policy of a published site every kind of page works, and nothing on it is refused.

The policy is the one that the site is published with; the host here adds an address that browsers report refusals to,
from pages, workers and the service worker.
"""

import functools
import json
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from crumbcoat_site.publishing.server import PublishedSite, Response
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.hosts import PlainHost, serving

CARD = "buttercreams/custard-buttercream/"
KINDS = {
    "home": "",
    "list": "recipes/",
    "card": CARD,
    "handout": f"{CARD}handout/",
    "embed": f"{CARD}embed/",
    "notebook": "creams-and-ganache/stabilised-whipped-cream/trials/",
    "sheets": "creams-and-ganache/stabilised-whipped-cream/trials/sheets/",
    "formulate": "calculators/formulate/",
    "map": "calculators/map/",
    "replace": "calculators/replace/",
    "compare": "calculators/compare/",
    "class handout": "calculators/class-handout/",
    "reference": "reference/options/",
    "not found": "no/such/page/",
    "offline": "offline.html",
}
MOVED = "low-fat/silk-milk-frosting/"
LIVE = 60_000
CALCULATOR = "recipe-calculator[name=batch]"


class Reported(PublishedSite):
    """Says where to report what was refused; see `Reporting`. Its sitemap has the address at which it is asked for."""

    def response(self, target: str, asked: Mapping[str, str]) -> Response:
        found = super().response(target, asked)
        headers = dict(found.headers)
        if "Content-Security-Policy" in headers:
            headers["Content-Security-Policy"] += "; report-uri /refused"
        content = found.content
        if target.endswith("sitemap.xml"):
            content = re.sub(rb"http://127[.0-9]+:\d+", f"http://{asked['host']}".encode(), content)
        return Response(found.status, headers, content)


class Reporting(PlainHost):
    """Keeps what browsers report."""

    def __init__(self, *args: object, site: PublishedSite, refused: list[str]) -> None:
        self._refused = refused
        super().__init__(*args, site=site)

    def do_POST(self) -> None:
        report = json.loads(self.rfile.read(int(self.headers["content-length"])))["csp-report"]
        self._refused.append(f"{report['document-uri']}: {report['effective-directive']} {report['blocked-uri']}")
        self.send_response(204)
        self.end_headers()


@pytest.fixture
def refused() -> list[str]:
    return []


@pytest.fixture
def address(site: tuple[Path, str], refused: list[str]) -> Iterator[str]:
    """Pyodide runs at this address, and so does the service worker."""
    with serving(Reported(site[0], compresses=False), functools.partial(Reporting, refused=refused)) as address:
        yield address


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(reduced_motion="reduce")
    yield context
    context.close()


@pytest.fixture
def visitor(context: BrowserContext) -> Page:
    return context.new_page()


def test_every_kind_of_page_opens_under_the_policy(visitor: Page, address: str, refused: list[str], full: bool,
                                                   site: tuple[Path, str]) -> None:  # fmt: skip
    visitor.goto(address + MOVED)  # It leads on to the address that the site was built for.
    expect(visitor.locator("h1").first).to_be_visible()
    places = list(KINDS.values())
    if full:
        found = (path.relative_to(site[0]).as_posix() for path in sorted(site[0].rglob("*.html")))
        places += [place for place in found if not place.startswith("low-fat/")]
    for place in places:
        visitor.goto(address + place)
        expect(visitor.locator("h1").first).to_be_visible()
    visitor.evaluate("navigator.serviceWorker.ready.then(() => true)")
    assert refused == []
    # The browser does report: what the policy must refuse is refused.
    visitor.evaluate("document.body.setAttribute('onclick', 'document.title = 1')")
    visitor.evaluate("fetch('data:text/plain,a').catch(() => {})")
    while len(refused) < 2:
        visitor.wait_for_timeout(50)


def test_a_card_works_under_the_policy(
    context: BrowserContext, visitor: Page, address: str, refused: list[str]
) -> None:
    visitor.goto(address + CARD)
    visitor.get_by_label("Number of batches").fill("2")
    expect(visitor.locator(CALCULATOR)).to_have_attribute("data-state", "live", timeout=LIVE)
    visitor.evaluate("for (const folded of document.querySelectorAll('details')) folded.open = true")
    visitor.get_by_role("button", name="Work through it").click()
    bench = visitor.locator(".cc-bench")
    bench.get_by_role("button", name="Begin").click()
    bench.get_by_role("button", name=re.compile("^Start timer|^Start a timer|timer", re.IGNORECASE)).first.click()
    bench.get_by_role("button", name="Leave bench view").click()
    visitor.locator("label.md-header__button[for=__palette_1]").or_(
        visitor.locator("label.md-header__button[for=__palette_0]")
    ).locator("visible=true").first.click()
    visitor.pdf()
    assert refused == []


def test_pages_swapped_in_place_and_the_search_work_under_the_policy(
    visitor: Page, address: str, refused: list[str]
) -> None:
    visitor.goto(address)
    visitor.wait_for_load_state("networkidle")  # Pages are swapped once the theme has read the sitemap.
    visitor.evaluate("document.here = true")
    visitor.locator(f"article a[href$='{CARD}']").first.click()
    expect(visitor.locator(CALCULATOR)).to_have_count(1)
    assert visitor.evaluate("document.here")
    field = visitor.get_by_role("textbox", name="Search")
    field.click()
    field.press_sequentially("ganache")
    expect(visitor.locator(".md-search-result__link").first).to_be_visible()
    field.press("Enter")
    expect(visitor).not_to_have_url(address + CARD)
    assert refused == []
