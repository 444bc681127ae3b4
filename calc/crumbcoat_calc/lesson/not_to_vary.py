"""What a class experiment must not vary: what raw egg gets its heat from, raw flour, and what is not for children."""

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.label.caution_facts import hazards_of
from crumbcoat_calc.label.caution_table import limits
from crumbcoat_calc.lesson.lesson import COOKS, Lesson
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.heating import highest_temperatures
from crumbcoat_calc.recipe.model import Ingredient, Recipe
from crumbcoat_calc.values.display import celsius_text

_COLDEST_C, _WARMEST_C, _FURTHEST_C = 0.0, 30.0, 10.0
"""Between which temperatures, and how far from the published one, something is varied (common practice, no source)."""


def reason_not_to_vary(recipe: Recipe, ingredient: Ingredient, lesson: Lesson) -> str:
    """Why an ingredient must not be varied; empty if it may.

    Egg that no step of the recipe heats by the thermometer to the limit of the caution gets its heat, if any, from
    what is poured onto it. How hot it gets then depends on all that is in the bowl by the end of that stage.
    """
    batch = batch_of(recipe)
    heat = highest_temperatures(recipe)
    hazards = hazards_of(batch, heat)
    enough_c = limits()["egg_mixture_c"]
    raw_egg = {name for name, t_c in hazards.get("raw egg", ()) if t_c is None or t_c < enough_c}
    raw_flour = {name for name, t_c in hazards.get("raw flour", ()) if t_c is None or t_c < enough_c}
    if ingredient.name in raw_flour:
        return "it stays raw flour"
    eggs = {one.key for one in recipe.ingredients if one.name in raw_egg}
    if ingredient.key in _with_egg(recipe, eggs):
        return f"the egg in this recipe is not heated to {celsius_text(enough_c)} by the thermometer"
    if ingredient.food.content("alcohol_g") and lesson.cooks == COOKS[0]:
        return "it has alcohol, and children cook"
    return ""


def _with_egg(recipe: Recipe, eggs: set[str]) -> set[str]:
    """All that is in use by the end of the last stage that such an egg goes in at."""
    used = [{use.what for step in stage.steps for use in step.uses} for stage in recipe.stages]
    last = max((number for number, keys in enumerate(used) if keys & eggs), default=-1)
    return set().union(*used[: last + 1])


def check_temperature(ingredient: Ingredient, published_c: float, t_c: float) -> None:
    """Refuse a temperature that is far from the published one, or a warm ingredient colder than published.

    Raises:
        InputError: at `levels`.
    """
    lowest_c, highest_c = max(_COLDEST_C, published_c - _FURTHEST_C), min(_WARMEST_C, published_c + _FURTHEST_C)
    if published_c > _WARMEST_C:
        problem = f"{ingredient.name} goes in warm, at {celsius_text(published_c)}, and stays so"
        raise InputError(problem, "vary an amount in %, or another ingredient", ("levels",))
    if not lowest_c <= t_c <= highest_c:
        problem = f"{celsius_text(t_c)} is too far from the published {celsius_text(published_c)} of {ingredient.name}"
        raise InputError(problem, f"use {celsius_text(lowest_c)} to {celsius_text(highest_c)}", ("levels",))
