"""What was in the bowl at a place in the method."""

from dataclasses import replace

from crumbcoat_calc.recipe.batch import Vessel, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.trials.model import Place


def vessel_at(recipe: Recipe, place: Place) -> Vessel:
    """The vessel after a step, or after a whole stage.

    Args:
        place: one that the recipe has.
    """
    stage = recipe.stages[place.stage]
    steps = stage.steps if place.step is None else stage.steps[: place.step + 1]
    before = [one for one in recipe.stages[: place.stage] if one.makes or not stage.makes]
    so_far = replace(recipe, stages=(*before, replace(stage, steps=steps, makes=None, shares=())))
    return batch_of(so_far).vessels[-1]
