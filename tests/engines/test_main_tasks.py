"""What readers do most, in each engine: Chromium, Firefox and WebKit."""

import io
import json
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from playwright.sync_api import Browser
from pypdf import PdfReader

from tests.engines.drivers import Engine, OfPlaywright, until
from tests.hosts import serving

CARD = "buttercreams/custard-buttercream/"
FACTOR = "[name=factor][form=batch]"
CONTEXT = "document.querySelector('recipe-calculator[context]').getAttribute('context')"
TEXTS = """[...document.querySelectorAll("[data-text]")]
  .filter(output => (output.closest("recipe-calculator")?.getAttribute("name") ?? "batch") === "batch")
  .map(output => [output.dataset.text, output.textContent.replaceAll("\u00a0", " ")])"""
WHOLE = "document.querySelector('recipe-calculator[name=batch]').kept !== null"
MASS = "document.querySelector('[data-text=finished_mass]').textContent.replaceAll('\u00a0', ' ')"
WAY = """(async () => {
  const script = document.querySelector("script[src$='/calculator.js']").src;
  return (await import(script.replace("calculator.js", "client.js"))).status.way;
})()"""
KEPT = """(async () => {
  const found = [];
  for (const name of await caches.keys()) for (const { url } of await (await caches.open(name)).keys()) found.push(url);
  const needed = ["/custard-buttercream/", "/trimmed.wasm", "/memory.bin"];
  return needed.every(end => found.some(url => url.endsWith(end)));
})()"""
BENCH_BEGINS = "document.querySelector('.cc-bench-done')?.textContent === 'Begin'"
IPHONE = (
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) "
    "Version/18.0 Mobile/15E148 Safari/604.1"
)


def texts(engine: Engine, **edit: str) -> dict[str, str]:
    """What CPython works out for an edit of the card on the page."""
    return run("batch", context_from(json.loads(engine.js(CONTEXT))), {}, edit)[1]


def shows(mass: str) -> str:
    return f"{MASS} === {json.dumps(mass)}"


def edits(engine: Engine) -> str:
    """Change the size of the card that is open and was not touched yet; gives the new mass.

    It starts from the memory image, and every text of the batch is the one that CPython works out.
    """
    wanted = texts(engine, factor="2")
    engine.type(FACTOR, "2")
    until(engine, shows(wanted["finished_mass"]))
    until(engine, WHOLE)
    shown = engine.js(TEXTS)
    assert {name: text for name, text in shown if text != wanted.get(name, text)} == {}
    assert len([name for name, _ in shown if name in wanted]) > 20
    assert engine.js(WAY) == "snapshot"
    return wanted["finished_mass"]


def prints_on_two_pages(engine: Engine) -> None:
    pages = PdfReader(io.BytesIO(engine.pdf())).pages
    assert len(pages) == 2
    assert "Custard buttercream" in pages[0].extract_text()


@pytest.mark.parametrize(
    "opened", [pytest.param("chromium", marks=pytest.mark.full), "firefox", "webkit"], indirect=True
)
def test_a_card_is_printed_edited_kept_and_linked_and_worked_through_without_a_network(
    engine: Engine, site: tuple[Path, str], full: bool
) -> None:
    """One visit for everything: each page that is opened costs an engine seconds. tests/browser shows more of it."""
    with serving(site[0]) as address:
        engine.open(address + CARD)  # As somebody who was never at that address.
        if engine.prints:
            prints_on_two_pages(engine)
        mass = edits(engine)
        until(engine, "document.querySelector('[data-do=undo]').getAttribute('aria-disabled') === 'false'")
        engine.click("[data-do=link]")
        link = until(engine, "document.querySelector('[data-share]').value")
        assert link == f"{address}{CARD}#factor=2"
        engine.js("location.hash = '#factor=3'")
        until(engine, shows(texts(engine, factor="3")["finished_mass"]))
        assert engine.js(f"document.querySelector('{FACTOR}').value") == "3"
        engine.click("[data-do=undo]")
        until(engine, shows(mass))
        until(engine, KEPT)

    # There is no network any more: the card comes from the device, with its change.
    engine.open(address + CARD)
    until(engine, shows(mass))
    engine.click("#step-1-2 [data-do=timer]")
    shown = until(engine, "document.querySelector('[role=timer]')?.textContent")
    until(engine, f"document.querySelector('[role=timer]').textContent !== {json.dumps(shown)}")
    engine.click("[data-do=bench]")
    until(engine, BENCH_BEGINS)
    for step in (1, 2):
        engine.click(".cc-bench-done")
        where = "document.querySelector('.cc-bench-where').textContent"
        until(engine, f"/^Stage 1 of .*, step {step} of /.test({where})")

    if full:
        # What is kept is kept by address, so at another one the device knows only the link.
        engine.open(link.replace(address, site[1]))
        until(engine, shows(mass))
        assert engine.js(f"document.querySelector('{FACTOR}').value") == "2"


def test_an_iphone_starts_the_fast_way(browser: Browser, site: tuple[Path, str]) -> None:
    # Pyodide runs in another way where a browser says that it is one; the rest of it is WebKit's.
    engine = OfPlaywright(browser, user_agent=IPHONE)
    engine.open(site[1] + CARD)
    edits(engine)
    engine.close()
