"""What changes with a batch, worked by hand."""

import pytest
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.recipe.weighing import scale_step, weighing_of
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.variants import rounding_texts, scaling_texts

RECIPE = {
    "title": "Two things",
    "summary": "Fat and sugar.",
    "author": "A test kitchen",
    "family": "other",
    "yield": {"portions": "1", "of": "bowl"},
    "ingredients": {
        "fat": {"name": "fat", "composition": {"fat": "80 %", "water": "20 %"}, "amount": "92.6 g"},
        "sugar": {"kind": "sugar_granulated", "amount": "110 g"},
    },
    "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": ["fat", "sugar"]}]}],
}


@pytest.mark.parametrize(
    ("topic", "done"),
    [
        ("additions", {"additions": "3"}),
        ("water boiled off", {"water_lost": "2 g"}),
        ("heating", {"heat_to": "60 °C"}),
        ("cooling", {"heat_to": "60 °C", "cool_to": "20 °C"}),
        ("time to cool", {"heat_to": "60 °C", "cool_to": "20 °C"}),
    ],
)
def test_what_does_not_grow_is_said_where_one_step_of_several_does_it(topic: str, done: dict[str, str]) -> None:
    def topics(*steps: dict[str, object]) -> list[str]:
        recipe = recipe_from(RECIPE | {"stages": [{"title": "Mix", "steps": list(steps)}]})
        return [row[0] for row in scaling_texts(recipe, 2.0)["scaling"]]

    mix, rest = {"do": "Mix.", "add": ["fat", "sugar"]}, {"do": "Wait."}
    assert topic not in topics(mix, rest)
    assert topic in topics(mix | done, rest)


def rounded_to(step_g: float) -> Texts:
    batch = batch_of(recipe_from(RECIPE))
    return rounding_texts(batch, weighing_of(batch, scale_step(step_g)), step_g)


def test_what_rounding_does_to_the_fat_by_hand() -> None:
    """80 × 92.6 / 202.6 = 36.6 %; to 5 g it is 95 of 205 g: 80 × 95 / 205 = 37.1 %, and 95 / 92.6 is 2.6 % more."""
    assert rounded_to(5.0)["rounding"] == "Rounded to 5 g: fat 36.6 → 37.1 %; off by fat 3 %."


def test_rounding_that_changes_little_is_passed_over() -> None:
    """To 0.1 g nothing moves."""
    assert rounded_to(0.1)["rounding"] == ""
