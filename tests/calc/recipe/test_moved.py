"""The density that a recipe states holds for a batch near the published one, and for no other."""

from pathlib import Path

import pytest
from crumbcoat_calc.calculators import batch as calculator
from crumbcoat_calc.calculators import label
from crumbcoat_calc.forms.context import Context, published_from
from crumbcoat_calc.texts import Texts
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

RECIPES = Path(__file__).parents[3] / "recipes"


def context(stem: str) -> Context:
    path = next(RECIPES.glob(f"*/{stem}.yaml"))
    recipe, data = load_recipe(path, path.name)
    return Context(recipes={"recipe": published_from(data, recipe)})


def shown(stem: str, state: dict[str, str]) -> Texts:
    answer = calculator.calculate(calculator.read(context(stem), state))
    return calculator.texts(answer) | calculator.later_texts(answer)


MOVED = [
    ("swiss-meringue-buttercream", {"amount.butter": "0"}),
    ("stabilised-whipped-cream", {"amount.icing_sugar": "300"}),
    ("icing-sugar-buttercream", {"amount.butter": "0"}),
    ("icing-sugar-buttercream", {"amount.icing_sugar": "300"}),
]


@pytest.mark.parametrize(("stem", "state"), MOVED)
def test_a_changed_batch_has_no_density_until_a_cup_is_weighed(stem: str, state: dict[str, str]) -> None:
    texts = shown(stem, state)
    assert texts["finished_volume"] == ""
    assert texts["density"] == "No longer the density of the recipe: weigh a level cup of this batch."
    assert str(texts["science.overrun"]).startswith("not given: after these changes")
    bowl = shown(stem, state | {"bowl": "4.8"})
    assert "weigh a level cup" in str(bowl["bowl.room"])
    us = label.texts(label.calculate(label.read(context(stem), state)))
    assert "if they weigh 30 g, which nobody measured" in str(us["label.serving"])
    weighed = shown(stem, state | {"cup_weighs": "200"})
    assert "by the cup you weighed" in str(weighed["density"])
    assert weighed["finished_volume"] != ""


@pytest.mark.parametrize(
    ("stem", "state"),
    [
        ("icing-sugar-buttercream", {"factor": "3"}),
        ("icing-sugar-buttercream", {"amount.vanilla": "0"}),
        ("icing-sugar-buttercream", {"amount.milk": "35"}),
        ("swiss-meringue-buttercream", {"amount.butter": "400"}),
    ],
)
def test_a_small_change_keeps_it(stem: str, state: dict[str, str]) -> None:
    assert shown(stem, state)["density"] == shown(stem, {})["density"] != ""
