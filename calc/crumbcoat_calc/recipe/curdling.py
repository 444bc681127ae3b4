"""Where egg is heated beyond what it bears without starch: it curdles there."""

from collections.abc import Mapping
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.usual_figures import recipe_checks

_Content = tuple[float, float, float]
"""Egg, starch and water, in g."""


def curdling(batch: Batch) -> Mapping[tuple[int, int], float]:
    """Starch in g per 100 g of water, of each step that heats egg to where it curdles with so little of it.

    Steps are counted from 0.

        starch = 100 * starch / water, of all that is in the vessel at the step

    Source:
        common-practice, in recipe_checks.csv.
    """
    hot_c, enough = (recipe_checks()[name] for name in ("egg_curdles_c", "egg_starch_per_100_g_water"))
    foods = {weighed.key: weighed.food for weighed in batch.weighed}
    made: dict[str, tuple[_Content, float]] = {}
    found: dict[tuple[int, int], float] = {}
    bowl: list[_Content] = []
    for number, (stage, uses_g) in enumerate(zip(batch.recipe.stages, batch.uses_g, strict=True)):
        vessel: list[_Content] = [] if stage.makes else bowl
        for place, (step, masses_g) in enumerate(zip(stage.steps, uses_g, strict=True)):
            for use, mass_g in zip(step.uses, masses_g, strict=True):
                if use.what in foods:
                    vessel.append(_content(foods[use.what], mass_g))
                elif made[use.what][1] > 0:
                    (egg, starch, water), whole_g = made[use.what]
                    part = mass_g / whole_g
                    vessel.append((egg * part, starch * part, water * part))
            egg_g, starch_g, water_g = _total(vessel)
            if step.heat_to_c is not None and step.heat_to_c > hot_c and egg_g > 0 and water_g > 0:
                per_100_g = 100 * starch_g / water_g
                if per_100_g < enough:
                    found[number, place] = per_100_g
        if stage.makes:
            made[stage.makes] = (_total(vessel), batch.vessels[number].mixture.mass_g)
    return found


def _total(vessel: list[_Content]) -> _Content:
    egg, starch, water = zip(*vessel, strict=True) if vessel else ((), (), ())
    return fsum(egg), fsum(starch), fsum(water)


def _content(food: Food, mass_g: float) -> _Content:
    """Its egg, starch and water; where the starch of flour is not known, all its carbohydrate."""
    starch = food.content("starch_g")
    if starch is None:
        starch = food.content("carbohydrate_g") if food.group == "starch" else 0.0
    egg_g = mass_g if food.group == "egg" else 0.0
    return egg_g, mass_g * (starch or 0.0) / 100, mass_g * (food.content("water_g") or 0.0) / 100
