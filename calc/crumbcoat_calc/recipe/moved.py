"""Whether a batch is still near enough to the published one for the density that the recipe states."""

from collections.abc import Sequence
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.batch import BatchOptions, weighed_of
from crumbcoat_calc.recipe.model import Recipe

_POINTS = 2.0
"""By how many g in 100 g fat or sugar may differ, and how much of a batch may be left out or replaced: what takes up
and keeps air has changed where it is more (common practice, no source)."""


def has_moved(recipe: Recipe, options: BatchOptions) -> bool:
    """Whether fat or sugar have moved by more than 2 g in 100 g, or 2 % of the batch were left out or replaced."""
    if not (options.amounts_g or options.left_out or options.replaced or options.skipped or options.used):
        return False
    before = [(one.food, one.mass_g) for one in recipe.ingredients]
    after = [(one.food, one.inside_g) for one in weighed_of(recipe, options)]
    whole_g = fsum([mass_g for _, mass_g in before])
    for (old, mass_g), (new, new_g) in zip(before, after, strict=True):
        gone = old is not new or new_g <= 0
        if gone and 100 * mass_g >= _POINTS * whole_g:
            return True
    return any(abs(_percent(before, what) - _percent(after, what)) > _POINTS for what in ("fat_g", "sugars_g"))


def _percent(parts: Sequence[tuple[Food, float]], component: str) -> float:
    """How much of a component all ingredients together have, in g per 100 g."""
    whole_g = fsum([mass_g for _, mass_g in parts])
    content_g = fsum([mass_g * (food.content(component) or 0.0) for food, mass_g in parts])
    return content_g / whole_g if whole_g > 0 else 0.0
