"""The comparison: each row is what the recipe's own card says, and the change is the difference."""

import copy

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from

from tests.calc.calculators.test_formulate import RECIPE

SWEETER = copy.deepcopy(RECIPE)
SWEETER["title"] = "Sweeter milk cream"
SWEETER["ingredients"]["sugar"]["amount"] = "500 g"  # type: ignore[index]
CONTEXT = context_from({"a": RECIPE, "b": SWEETER, "c": None})


def test_each_row_is_what_the_card_says() -> None:
    shown = run("compare", CONTEXT, {}, {})[1]
    for row, recipe in zip(shown["rows.compare"], (RECIPE, SWEETER), strict=True):
        card = run("batch", context_from({"recipe": recipe}), {}, {})[1]
        assert row[0] == recipe["title"]
        assert row[1] == "other"
        assert row[2:4] == [card["fat.percent"], card["water.percent"]]
        assert row[5] == str(card["science.syrup_strength"]).partition(" (")[0]
        assert row[10] == card["energy_100g"]


def test_the_change_is_shown_in_figures_and_in_a_sentence() -> None:
    """By hand: 300 g more sugar in 726 g make fat 29.3 % into 20.7 %: 8.6 points less."""
    shown = run("compare", CONTEXT, {}, {})[1]
    fat_g = 250 * 0.8111 + 300 * 0.0325
    rows = {row[0]: row for row in shown["rows.change"]}
    assert rows["Fat"][3] == f"{100 * fat_g / 726 - 100 * fat_g / 1026:.1f} points less"
    assert shown["change.of"] == "From “Milk cream” to “Sweeter milk cream”"
    assert "leaner" in str(shown["change"])
    assert "stronger syrup" in str(shown["change"])


def test_what_rounding_hides_is_the_same() -> None:
    nearly = copy.deepcopy(RECIPE)
    nearly["ingredients"]["milk"] |= {"amount": "303 g", "portions": {"hot": "202 g", "cold": "101 g"}}  # type: ignore[index]
    shown = run("compare", context_from({"a": RECIPE, "b": nearly}), {}, {})[1]
    rows = {row[0]: row[3] for row in shown["rows.change"]}
    assert rows["Density without air"] == "the same"
    assert rows["Water activity"] == "the same"
    assert rows["Fat"].endswith(" points less"), "contents of the table have no band"


def test_a_recipe_beside_itself_does_not_change() -> None:
    shown = run("compare", context_from({"a": RECIPE, "b": RECIPE}), {}, {})[1]
    assert {row[3] for row in shown["rows.change"]} == {"the same"}
    assert shown["change"] == "Nothing changes by more than the models leave open."


def test_warmer_water_takes_more_sugar() -> None:
    context = context_from({"a": SWEETER, "b": RECIPE})
    strength = [run("compare", context, {"bowl_temperature": t}, {})[1]["rows.compare"][0][5] for t in ("5", "35")]
    assert float(strength[0].removesuffix(" %")) <= float(strength[1].removesuffix(" %"))


def test_one_alone_is_refused() -> None:
    with pytest.raises(InputError, match="there is only one recipe to compare"):
        run("compare", context_from({"a": RECIPE, "b": None}), {}, {})


def test_what_is_kept() -> None:
    assert run("compare", CONTEXT, {}, {"bowl_temperature": "68 °F"})[0] == {}
    assert run("compare", CONTEXT, {}, {"bowl_temperature": "25"})[0] == {"bowl_temperature": "25"}
    with pytest.raises(InputError):
        run("compare", CONTEXT, {}, {"bowl_temperature": "warm"})[0]
