"""What a recipe does to its parts: how warm they get, what they are cooked and whipped with."""

from typing import Any

import pytest
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.recipe.treatment import UNTREATED, Treatment

KINDS = {"milk": "milk_skim", "butter": "butter_unsalted", "sugar": "sugar_granulated", "flour": "flour_t55",
         "white": "egg_white_raw", "cream": "cream_heavy_whipping"}  # fmt: skip
WHISK = {"tool": "stand mixer, whisk", "speed": "high"}


def treatments(
    grams: dict[str, str], *steps: dict[str, Any], options: BatchOptions | None = None
) -> dict[str, Treatment]:
    """The treatment of each ingredient at the end; grams are a mass, with a temperature after a comma."""
    data = {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": "other",
        "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {key: {"kind": KINDS[key]} | dict(zip(("amount", "temperature"), one.split(", "), strict=False))
                        for key, one in grams.items()},
        "stages": [{"title": "Make", "steps": [{"do": "Do.", **step} for step in steps]}],
    }  # fmt: skip
    return {part.key: part.treatment for part in batch_of(recipe_from(data), options).vessels[-1].parts}


def test_butter_in_a_hot_pan_is_as_warm_as_the_mixture() -> None:
    """By hand: 300 g at 90 °C and 100 g at 10 °C are 70 °C warm, if both store as much heat."""
    found = treatments({"milk": "300 g", "butter": "100 g, 10 °C"},
                       {"add": ["milk"], "heat_to": "90 °C"}, {"add": ["butter"]})  # fmt: skip
    assert found["butter"].warmest_c == pytest.approx(70)
    assert found["milk"].warmest_c == 90
    assert (found["milk"].cooked_c, found["butter"].cooked_c) == (90, None)


def test_a_pan_that_was_cooled_is_not_hot() -> None:
    found = treatments({"milk": "300 g", "butter": "100 g, 10 °C"},
                       {"add": ["milk"], "heat_to": "90 °C", "cool_to": "20 °C"}, {"add": ["butter"]})  # fmt: skip
    assert found["butter"].warmest_c == pytest.approx(17.5)


def test_sugar_beside_starch_counts_where_it_was_hottest() -> None:
    """By hand: 100 g of sugar and the 5.09 g of lactose of 100 g of skimmed milk (usda-sr28), in 90.84 g of water."""
    found = treatments({"flour": "20 g", "milk": "100 g", "sugar": "100 g"},
                       {"add": ["flour"], "heat_to": "120 °C"}, {"add": ["milk"], "heat_to": "80 °C"},
                       {"add": ["sugar"], "heat_to": "70 °C"}, {"heat_to": "95 °C"})  # fmt: skip
    assert found["flour"].cooked_c == 95, "in the dry pan it was not cooked"
    assert found["flour"].sugar_percent == pytest.approx(100 * 105 / (105 + 93), abs=1)


def test_what_is_whipped_and_what_foams() -> None:
    lean = treatments({"white": "100 g", "sugar": "150 g"}, {"add": ["white", "sugar"], **WHISK})
    assert lean["white"].foamed
    rich = treatments({"white": "100 g", "butter": "50 g"}, {"add": ["white", "butter"], **WHISK})
    assert not rich["white"].foamed
    assert rich["white"].whipped_fat_percent == pytest.approx(100 * 50 * 0.8111 / 150, rel=0.01)
    for step in ({"tool": "stand mixer, paddle", "speed": "high"}, {"tool": "saucepan and whisk"},
                 {"tool": "whisk", "speed": "by hand"}, {"speed": "high"}):  # fmt: skip
        assert not treatments({"white": "100 g"}, {"add": ["white"], **step})["white"].foamed, step


def test_cream_is_judged_without_its_sugar_and_when_it_is_first_whipped() -> None:
    found = treatments({"cream": "300 g, 4 °C", "sugar": "100 g, 20 °C", "milk": "300 g"},
                       {"add": ["cream", "sugar"], **WHISK}, {"add": ["milk"], **WHISK})  # fmt: skip
    assert found["cream"].whipped_fat_percent == pytest.approx(36.08)
    assert found["cream"].whipped_c == pytest.approx(8), "4 and 20 °C, 3 to 1"
    assert found["milk"].whipped_fat_percent == pytest.approx(300 * 36.08 / 600, rel=0.01)


def test_a_step_that_is_left_out_does_nothing() -> None:
    steps = {"add": ["milk"]}, {"heat_to": "80 °C", "optional": "yes"}
    assert treatments({"milk": "100 g"}, *steps)["milk"].cooked_c == 80
    skipped = BatchOptions(skipped=frozenset({(0, 1)}))
    assert treatments({"milk": "100 g"}, *steps, options=skipped)["milk"] == Treatment(20)
    assert Treatment(0) == UNTREATED
