"""The kitchen's price file: it can be read, and it has prices for the ingredients of the kitchen's recipes."""

from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.purchasing.cost import cost_of, money_text
from crumbcoat_calc.purchasing.prices import prices_from
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from

RECIPES = Path(__file__).parents[2] / "recipes"
PRICES = prices_from((RECIPES / "prices.csv").read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", sorted(RECIPES.glob("*/*.yaml")), ids=lambda path: path.stem)
def test_recipe_has_a_cost(path):
    batch = batch_of(recipe_from(yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)))
    cost = cost_of(batch, PRICES)
    assert cost.missing == ()
    # A plausible range for invented prices: a frosting costs more than its sugar and less than pure vanilla.
    assert 1 < cost.per_kg < 30
    assert money_text(cost.batch, cost.currency).endswith(" EUR")
