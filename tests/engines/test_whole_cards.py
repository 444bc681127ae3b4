"""Whole cards in a page of the same site, in each engine: live, kept, in the colours of the page, and their own."""

import json
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from

from tests.engines.drivers import Engine, until

POST, CARD = "last-evening/", "creams-and-ganache/lemon-curd-filling/"
CARDS = "[...document.querySelectorAll('whole-card')]"
IN_CARD = f"{CARDS}[0].querySelector('iframe').contentDocument"
OF_MASS = "querySelector('[data-text=finished_mass]')?.textContent.replaceAll('\u00a0', ' ')"
MASS = f"{IN_CARD}?.{OF_MASS}"
HEIGHT = "parseInt(document.querySelector('whole-card[data-live] iframe')?.style.height) > 2000"
NO_FRAME_SCROLLS = f"""{CARDS}.filter((card) => card.dataset.live === "").every((card) => {{
  const {{ scrollHeight, clientHeight }} = card.querySelector("iframe").contentDocument.documentElement;
  return scrollHeight === clientHeight;
}})"""
TYPED = f"""(() => {{
  const field = {IN_CARD}.querySelector("[name=factor]");
  for (const type of ["focusin", "input", "change"]) {{
    field.value = "2";
    field.dispatchEvent(new Event(type, {{ bubbles: true, composed: true }}));
  }}
  return true;
}})()"""
SCHEMES = f"""[document.body, {IN_CARD}.body].map((body) => body.dataset.mdColorScheme).join()"""


@pytest.mark.parametrize(
    "opened", [pytest.param("chromium", marks=pytest.mark.full), "firefox", "webkit"], indirect=True
)
def test_a_card_of_a_post_is_whole_live_and_kept(engine: Engine, site: tuple[Path, str]) -> None:
    recipe = {"recipe": json.loads((site[0] / CARD / "card.json").read_text(encoding="utf-8"))["recipe"]}
    mass = {factor: run("batch", context_from(recipe), {}, {"factor": factor})[1]["finished_mass"] for factor in "12"}
    engine.open(site[1] + POST)
    until(engine, "document.querySelectorAll('whole-card iframe').length === 2")
    until(engine, "document.querySelector('whole-card').scrollIntoView() || true")
    until(engine, HEIGHT)
    until(engine, NO_FRAME_SCROLLS)
    until(engine, f"{MASS} === {json.dumps(mass['1'])}")
    assert engine.js("document.querySelector('whole-card .cc-short').checkVisibility()") is False
    engine.js(TYPED)
    until(engine, f"{MASS} === {json.dumps(mass['2'])}")
    engine.click("label[for=__palette_1]")
    until(engine, f"{SCHEMES} === 'slate,slate'")
    engine.open(site[1] + CARD)
    until(engine, f"document.{OF_MASS} === {json.dumps(mass['2'])}")
