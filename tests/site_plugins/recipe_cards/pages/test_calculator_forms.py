"""The form on a page of its own shows what the calculator computes, and a wrong recipe gives an error with a fix."""

import html
import json
import re
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.values.spacing import unbroken
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.calculator_forms import calculator_form
from crumbcoat_site.recipe_cards.pages.recipe_options import RecipeOption

from tests.calc.calculators.test_formulate import RECIPE

OTHER = {**RECIPE, "title": "Other <cream>"}
OPTIONS = [
    RecipeOption(name="low/milk", title="Milk cream", card="../low/milk/card.json"),
    RecipeOption(name="low/other", title="Other <cream>", card="../low/other/card.json"),
]
DATA: dict[str, dict[str, object]] = {"low/milk": RECIPE, "low/other": OTHER}


@pytest.mark.parametrize("calculator", ["formulate", "replace", "map", "compare"])
def test_the_form_shows_what_the_calculator_computes(calculator: str, tmp_path: Path) -> None:
    names = ["low/milk", "low/other"] if calculator == "compare" else ["low/milk"]
    page = calculator_form(calculator, names, OPTIONS, DATA.__getitem__, PageCache(tmp_path), "EU")
    content = json.loads(html.unescape(re.findall(r' context="([^"]*)"', page)[0]))
    texts = run(calculator, context_from(content))[1]
    shown = re.findall(r'data-text="([^"]+)"[^>]*>([^<]*)<', page)
    assert shown
    for name, text in shown:
        assert html.unescape(text) == unbroken(texts[name]), name
    for name, value in re.findall(r'<input name="([^"]+)" value="([^"]*)"', page):
        assert html.unescape(value) == texts[name], name
    for name in re.findall(r'data-rows="([^"]+)"', page):
        for row in texts[name]:
            for cell in row:
                assert html.escape(unbroken(cell), quote=False) in page
    assert "Other <cream>" not in page
    assert 'value="../low/other/card.json"' in page


def test_a_kept_form_follows_its_recipe_and_the_options(tmp_path: Path) -> None:
    cache = PageCache(tmp_path)

    def form(options: list[RecipeOption], data: dict[str, dict[str, object]]) -> str:
        return calculator_form("formulate", ["low/milk"], options, data.__getitem__, cache, "EU")

    first = form(OPTIONS, DATA)
    assert form(OPTIONS, DATA) == first
    assert "Richer cream" in form(OPTIONS, {"low/milk": {**RECIPE, "title": "Richer cream"}})
    longer = [*OPTIONS, RecipeOption(name="low/third", title="Third", card="../low/third/card.json")]
    assert 'value="../low/third/card.json"' in form(longer, DATA)
    assert form(OPTIONS, DATA) == first


@pytest.mark.parametrize(
    ("calculator", "names", "remedy"),
    [
        ("formulate", ["low/mlik"], "low/milk"),
        ("formulate", ["low/milk", "low/other"], "at most 1"),
        ("compare", ["low/milk"], "choose a second recipe"),
    ],
)
def test_a_wrong_recipe_gives_an_error_with_a_fix(
    calculator: str, names: list[str], remedy: str, tmp_path: Path
) -> None:
    with pytest.raises(InputError) as error:
        calculator_form(calculator, names, OPTIONS, DATA.__getitem__, PageCache(tmp_path), "EU")
    assert remedy in error.value.remedy
