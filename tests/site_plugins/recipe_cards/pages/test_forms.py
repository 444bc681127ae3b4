"""The calculators' pages: the form is what the calculator says, and a wrong mark names its remedy."""

import html
import re
from pathlib import Path

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.errors import InputError
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.forms import Start, with_forms

from tests.calc.calculators.test_formulate import RECIPE

OTHER = {**RECIPE, "title": "Other <cream>"}
STARTS = [
    Start(name="low/milk", title="Milk cream", card="../low/milk/card.json"),
    Start(name="low/other", title="Other <cream>", card="../low/other/card.json"),
]
DATA: dict[str, dict[str, object]] = {"low/milk": RECIPE, "low/other": OTHER}


@pytest.mark.parametrize("tool", ["formulate", "replace", "map", "compare"])
def test_a_mark_becomes_the_form_that_the_calculator_fills_in(tool: str, tmp_path: Path) -> None:
    names = "low/milk low/other" if tool == "compare" else "low/milk"
    page = with_forms(
        f"# Page\n\n<!-- crumbcoat: {tool} from {names} -->\n", STARTS, DATA.__getitem__, PageCache(tmp_path)
    )
    given = html.unescape(re.findall(r' given="([^"]*)"', page)[0])
    texts = run(tool, given, {}, {})[1]
    shown = re.findall(r'data-text="([^"]+)"[^>]*>([^<]*)<', page)
    assert shown
    for name, text in shown:
        assert html.unescape(text) == texts[name], name
    for name, value in re.findall(r'<input name="([^"]+)" value="([^"]*)"', page):
        assert html.unescape(value) == texts[name], name
    for name in re.findall(r'data-rows="([^"]+)"', page):
        for row in texts[name]:
            for cell in row:
                assert html.escape(cell, quote=False) in page
    assert "Other <cream>" not in page
    assert 'value="../low/other/card.json"' in page


def test_other_pages_stay(tmp_path: Path) -> None:
    page = "# Page\n<!-- crumbcoat: fat chart -->\n"
    assert with_forms(page, STARTS, DATA.__getitem__, PageCache(tmp_path)) == page


def test_a_kept_form_follows_its_recipe_and_the_list_of_all(tmp_path: Path) -> None:
    mark, cache = "<!-- crumbcoat: formulate from low/milk -->", PageCache(tmp_path)
    first = with_forms(mark, STARTS, DATA.__getitem__, cache)
    assert with_forms(mark, STARTS, DATA.__getitem__, cache) == first
    richer = {**RECIPE, "title": "Richer cream"}
    assert "Richer cream" in with_forms(mark, STARTS, {"low/milk": richer}.__getitem__, cache)
    longer = [*STARTS, Start(name="low/third", title="Third", card="../low/third/card.json")]
    assert 'value="../low/third/card.json"' in with_forms(mark, longer, DATA.__getitem__, cache)
    assert with_forms(mark, STARTS, DATA.__getitem__, cache) == first


@pytest.mark.parametrize(
    ("mark", "remedy"),
    [
        ("formulate from low/mlik", "low/milk"),
        ("formulate from low/milk low/other", "at most 1"),
        ("compare from low/milk", "choose another one beside it"),
    ],
)
def test_a_wrong_mark_names_its_remedy(mark: str, remedy: str, tmp_path: Path) -> None:
    with pytest.raises(InputError) as error:
        with_forms(f"<!-- crumbcoat: {mark} -->", STARTS, DATA.__getitem__, PageCache(tmp_path))
    assert remedy in error.value.remedy
