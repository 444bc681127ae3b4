"""Cards in a page of another site, in each engine, under a strict policy and hostile styles: a frame and an element."""

import json
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from

from tests.engines.drivers import Engine, until
from tests.foreign_page import foreign, line_of, page_with, policy

CARD = "buttercreams/custard-buttercream/"
HEIGHT = "parseInt(document.querySelector('iframe').style.height) > 3000"
IN_CARD = "document.querySelector('crumbcoat-card').shadowRoot"
MASS = f"{IN_CARD}.querySelector('[data-text=finished_mass]')?.textContent.replaceAll('\u00a0', ' ')"
TYPED = f"""(() => {{
  const field = {IN_CARD}.querySelector("[name=factor]");
  for (const type of ["focusin", "input", "change"]) {{
    field.value = "2";
    field.dispatchEvent(new Event(type, {{ bubbles: true, composed: true }}));
  }}
  return true;
}})()"""
LOOK = f"""(() => {{
  const {{ fontFamily, fontSize, letterSpacing }} = getComputedStyle({IN_CARD}.querySelector(".cc-do"));
  const {{ backgroundColor }} = getComputedStyle({IN_CARD}.querySelector("crumbcoat-body"));
  return [fontFamily.includes("cursive"), fontSize, letterSpacing, backgroundColor];
}})()"""


@pytest.mark.parametrize(
    "opened", [pytest.param("chromium", marks=pytest.mark.full), "firefox", "webkit"], indirect=True
)
def test_a_frame_has_its_height_and_an_element_is_whole_and_live(engine: Engine, site: tuple[Path, str]) -> None:
    recipe = {"recipe": json.loads((site[0] / CARD / "card.json").read_text(encoding="utf-8"))["recipe"]}
    mass = {factor: run("batch", context_from(recipe), {}, {"factor": factor})[1]["finished_mass"] for factor in "12"}
    lines = [line_of(site, CARD, words) for words in ("As a part of your page", "In a frame")]
    eager = [
        line.replace('loading="lazy"', "").replace("<crumbcoat-card", '<crumbcoat-card scheme="light"')
        for line in lines
    ]
    with foreign({"/": page_with(*eager)}, policy(site[1])) as address:
        engine.open(address)
        until(engine, HEIGHT)
        until(engine, f"{MASS} === {json.dumps(mass['1'])}")
        assert engine.js(LOOK) == [False, "20px", "normal", "rgb(252, 247, 239)"]
        assert engine.js("localStorage.length") == 0
        engine.js(TYPED)
        until(engine, f"{MASS} === {json.dumps(mass['2'])}")
