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
  .map(output => [output.dataset.text, output.textContent])"""
MASS = "document.querySelector('[data-text=finished_mass]').textContent"
WAY = """(async () => {
  const script = document.querySelector("script[src$='/calculator.js']").src;
  return (await import(script.replace("calculator.js", "client.js"))).status.way;
})()"""
KEPT = """(async () => {
  const found = [];
  for (const name of await caches.keys()) for (const { url } of await (await caches.open(name)).keys()) found.push(url);
  const needed = ["/custard-buttercream/", "/pyodide.asm.wasm", "/memory.bin"];
  return needed.every(end => found.some(url => url.endsWith(end)));
})()"""
BENCH_BEGINS = "document.querySelector('.cc-bench-done')?.textContent === 'Begin'"
IPHONE = (
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) "
    "Version/18.0 Mobile/15E148 Safari/604.1"
)


def visit(engine: Engine, address: str) -> None:
    """Open a page as somebody who was never here."""
    engine.open(address)
    engine.js("localStorage.clear()")
    engine.open("about:blank")
    engine.open(address)


def texts(engine: Engine, **edit: str) -> dict[str, str]:
    """What CPython works out for an edit of the card on the page."""
    return run("batch", context_from(json.loads(engine.js(CONTEXT))), {}, edit)[1]


def shows(mass: str) -> str:
    return f"{MASS} === {json.dumps(mass)}"


def starts_the_fast_way_with_the_figures_of_cpython(engine: Engine, address: str) -> None:
    visit(engine, address + CARD)
    wanted = texts(engine, factor="2")
    engine.type(FACTOR, "2")
    until(engine, shows(wanted["finished_mass"]))
    shown = engine.js(TEXTS)
    assert {name: text for name, text in shown if text != wanted.get(name, text)} == {}
    assert len([name for name, _ in shown if name in wanted]) > 20
    assert engine.js(WAY) == "snapshot"


def test_it_starts_the_fast_way_with_the_figures_of_cpython(engine: Engine, site: tuple[Path, str]) -> None:
    starts_the_fast_way_with_the_figures_of_cpython(engine, site[1])


def test_so_it_does_for_an_iphone(browser: Browser, site: tuple[Path, str]) -> None:
    # Pyodide runs in another way where a browser says that it is one; the rest of it is WebKit's.
    starts_the_fast_way_with_the_figures_of_cpython(OfPlaywright(browser, user_agent=IPHONE), site[1])


def test_a_change_is_kept_and_fits_into_a_link(engine: Engine, site: tuple[Path, str]) -> None:
    visit(engine, site[1] + CARD)
    mass = texts(engine, factor="3")["finished_mass"]
    engine.type(FACTOR, "3")
    until(engine, "document.querySelector('[data-do=undo]').getAttribute('aria-disabled') === 'false'")
    engine.open(site[1] + CARD)
    until(engine, shows(mass))
    engine.click("[data-do=link]")
    link = until(engine, "document.querySelector('[data-share]').value")
    assert link == f"{site[1]}{CARD}#factor=3"
    visit(engine, link)
    until(engine, shows(mass))
    assert engine.js(f"document.querySelector('{FACTOR}').value") == "3"


def test_a_timer_runs_and_the_bench_steps(engine: Engine, site: tuple[Path, str]) -> None:
    visit(engine, site[1] + CARD)
    engine.click("#step-1-2 [data-do=timer]")
    shown = until(engine, "document.querySelector('[role=timer]')?.textContent")
    until(engine, f"document.querySelector('[role=timer]').textContent !== {json.dumps(shown)}")
    engine.click("[data-do=bench]")
    until(engine, BENCH_BEGINS)
    for step in (1, 2):
        engine.click(".cc-bench-done")
        where = "document.querySelector('.cc-bench-where').textContent"
        until(engine, f"/^Stage 1 of .*, step {step} of /.test({where})")


@pytest.mark.parametrize("opened", ["chromium", "firefox"], indirect=True)
def test_a_card_is_printed_on_two_pages(engine: Engine, site: tuple[Path, str]) -> None:
    visit(engine, site[1] + CARD)
    pages = PdfReader(io.BytesIO(engine.pdf())).pages
    assert len(pages) == 2
    assert "Custard buttercream" in pages[0].extract_text()


def test_a_visited_card_works_without_a_network(engine: Engine, site: tuple[Path, str]) -> None:
    with serving(site[0]) as address:
        engine.open(address + CARD)
        mass = texts(engine, factor="2")["finished_mass"]
        engine.type(FACTOR, "2")
        until(engine, shows(mass))
        until(engine, KEPT)
    engine.open(address + CARD)
    until(engine, shows(mass))
    engine.click("[data-do=bench]")
    until(engine, BENCH_BEGINS)
