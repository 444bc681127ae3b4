"""The recipes made at random can be read, are always the same, and differ as much as recipes of their family do."""

import pytest
from crumbcoat_calc.recipe.model import FAMILIES

from tests.recipes.random_recipes import FORMULAS, UNUSUAL, batch_from, grams_of, kinds_of, random_recipe, with_amount


def test_there_is_a_formula_for_each_family() -> None:
    assert tuple(FORMULAS) == FAMILIES


@pytest.mark.parametrize("family", FAMILIES)
def test_each_can_be_read_and_no_two_are_alike(family: str) -> None:
    recipes = [random_recipe(family, number) for number in range(30)]
    assert recipes == [random_recipe(family, number) for number in range(30)]
    fat = {batch_from(recipe).total.at_least("fat_g") for recipe in recipes}
    assert len(fat) == 30 or family == "glaze or icing"
    unusual = {line.key for line in UNUSUAL}
    assert 3 <= len([recipe for recipe in recipes if unusual & recipe["ingredients"].keys()]) <= 20


def test_one_recipe_is_this_one() -> None:
    """So that the number in a report of a fault leads to the same recipe on every machine, by every Python."""
    recipe = random_recipe("ganache", 17)
    assert kinds_of(recipe) == {"cream_heavy_whipping", "chocolate_dark_45_59"}
    assert grams_of(recipe, "cream") == 217
    assert grams_of(recipe, "chocolate") == 336
    assert grams_of(with_amount(recipe, "cream", 250), "cream") == 250
