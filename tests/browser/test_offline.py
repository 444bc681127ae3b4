"""Without a network: visited pages work, others say so, and a new version does not break an open page."""

import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

CARD = "buttercreams/custard-buttercream/"
LIVE = 30_000
KEPT = """async () => {
  const found = [];
  for (const name of await caches.keys()) for (const { url } of await (await caches.open(name)).keys()) found.push(url);
  return found;
}"""


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context()
    yield context
    context.close()


@pytest.fixture
def copy(site: tuple[Path, str], serve: Callable[[Path], str], tmp_path: Path) -> tuple[Path, str]:
    """A copy of the site in a folder below the root of its server, and its address."""
    shutil.copytree(site[0], tmp_path / "kitchen" / "cards")
    return tmp_path / "kitchen" / "cards", serve(tmp_path) + "kitchen/cards/"


def ready(page: Page, *patterns: str) -> None:
    """Wait until the worker has the page and keeps a file of each pattern."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.wait_for_function("() => navigator.serviceWorker.controller")
    for pattern in patterns:
        page.wait_for_function(f"async () => (await ({KEPT})()).some(url => /{pattern}/.test(url))", timeout=LIVE)


def test_a_visited_card_works_without_a_network_including_its_calculator(
    context: BrowserContext, copy: tuple[Path, str]
) -> None:
    address = copy[1]
    page = context.new_page()
    page.goto(address + CARD)
    page.get_by_label("Number of batches").fill("2")
    expect(page.locator("recipe-calculator[name=batch]")).to_have_attribute("data-state", "live", timeout=LIVE)
    ready(page, "custard-buttercream", "trimmed.wasm", "memory.bin")
    page.wait_for_function("document.querySelector('[data-do=undo]').getAttribute('aria-disabled') === 'false'")
    doubled = page.locator(".cc-key [data-text=finished_mass]").text_content()
    context.set_offline(True)
    page.reload()
    expect(page.locator(".cc-key [data-text=finished_mass]")).to_have_text(doubled, timeout=LIVE)
    expect(page.locator("recipe-calculator[name=batch]")).to_have_attribute("data-state", "live")
    page.get_by_role("button", name="Work through it").click()
    expect(page.get_by_role("heading", name="Set everything out")).to_be_visible()
    # The front page is kept in advance; a page that was never opened says so, and lists the visited ones.
    page.goto(address)
    expect(page.locator("h1")).to_be_visible()
    page.goto(address + "milk-emulsions/silk-milk-frosting/")
    expect(page.get_by_role("heading", name="This page is not on this device")).to_be_visible()
    page.get_by_role("link", name=re.compile("Custard buttercream")).click()
    expect(page.locator("h1")).to_contain_text("Custard buttercream")


@pytest.mark.full
def test_pages_are_fetched_again_while_there_is_a_network(context: BrowserContext, copy: tuple[Path, str]) -> None:
    folder, address = copy
    page = context.new_page()
    page.goto(address + "about/")
    ready(page, "about")
    file = folder / "about" / "index.html"
    file.write_text(file.read_text(encoding="utf-8").replace("</h1>", " revised</h1>"), encoding="utf-8")
    page.reload()
    expect(page.locator("h1")).to_contain_text("revised")
    context.set_offline(True)
    page.reload()
    expect(page.locator("h1")).to_contain_text("revised")


def test_a_new_version_waits_and_leaves_the_open_page_its_files(
    context: BrowserContext, copy: tuple[Path, str]
) -> None:
    folder, address = copy
    page = context.new_page()
    page.goto(address + CARD)
    ready(page, "bench.js")
    (old,) = {path.parent for path in folder.glob("assets/recipe_cards/*/bench.js")}
    new = old.with_name("0123456789ab")
    old.rename(new)
    for file in [*folder.rglob("*.html"), folder / "sw.js"]:
        text = file.read_text(encoding="utf-8").replace(old.name, new.name)
        file.write_text(text.replace('"version": "', '"version": "2'), encoding="utf-8")
    page.evaluate("navigator.serviceWorker.ready.then(found => found.update())")
    page.wait_for_function("navigator.serviceWorker.ready.then(found => Boolean(found.waiting))")
    # The open page fetches a file that is no longer on the server.
    page.get_by_role("button", name="Work through it").click()
    expect(page.get_by_role("heading", name="Set everything out")).to_be_visible()
    # The next page is the new version, with the new version's files, although the old worker is still there.
    page.goto(address + "milk-emulsions/silk-milk-frosting/")
    assert new.name in page.content()
    page.get_by_role("button", name="Work through it").click()
    expect(page.get_by_role("heading", name="Set everything out")).to_be_visible()
    # When no page is open, the new version takes over; what was kept of the old one still works without a network.
    page.close()
    page = context.new_page()
    page.goto(address)
    page.wait_for_function("navigator.serviceWorker.ready.then(found => !found.waiting)")
    context.set_offline(True)
    page.goto(address + CARD)
    page.get_by_role("button", name="Work through it").click()
    expect(page.get_by_role("heading", name="Set everything out")).to_be_visible()


def test_it_can_be_installed(context: BrowserContext, copy: tuple[Path, str]) -> None:
    """Chromium's own list of what prevents an installation."""
    page = context.new_page()
    page.goto(copy[1])
    ready(page)
    session = context.new_cdp_session(page)
    manifest = session.send("Page.getAppManifest")
    assert manifest["errors"] == []
    assert manifest["url"] == copy[1] + "site.webmanifest"
    hindered = session.send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [error["errorId"] for error in hindered if error["errorId"] != "in-incognito"] == []
