"""What a cook would object to: cream too lean to whip, a foam denser than its mix, water that boils off unnoticed."""

import re
from collections.abc import Iterator, Sequence

from crumbcoat_calc.foods.composition import NOTHING, Mixture, mixture_of
from crumbcoat_calc.label.caution_table import limits
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.curdling import curdling
from crumbcoat_calc.recipe.model import Step
from crumbcoat_calc.recipe.usual_figures import recipe_checks
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.texts.science import vessel_state
from crumbcoat_calc.values.display import celsius_text, mass_text, number_text

Found = tuple[tuple[str | int, ...], str, str, str]

_WHIP = re.compile(r"\bwhip\b", re.IGNORECASE)
_TOUCH = re.compile(r"\b(finger(tip)?s?|knuckles?|tongue|lips?|tastes?)\b", re.IGNORECASE)
_COOLED = re.compile(r"\bcool(ed|s)?\b|\bcold\b", re.IGNORECASE)
"""A sign that says what is touched has cooled first, such as a drop in cold water."""


def kitchen_warnings(batch: Batch) -> Iterator[Found]:
    """Place, kind, what was seen, and what could be done."""
    yield from _density(batch)
    yield from _whipping(batch)
    yield from _boiling(batch)
    for (number, place), starch in curdling(batch).items():
        text = f"egg is heated to where it curdles with only {number_text(starch, 1)} g of starch to 100 g of water"
        enough = number_text(recipe_checks()["egg_starch_per_100_g_water"], 0)
        hint = f"stay below {celsius_text(recipe_checks()['egg_curdles_c'])}, or add starch up to {enough} g or more"
        yield ("stages", number, "steps", place), "curdling", text, hint
    for number, stage in enumerate(batch.recipe.stages):
        for place, step in enumerate(stage.steps):
            yield from _touched(step, ("stages", number, "steps", place))
            yield from _divided(step, batch.uses_g[number][place], ("stages", number, "steps", place))


def _density(batch: Batch) -> Iterator[Found]:
    """A stated density above that of the mix without air, with its whole band.

    Source:
        guelph-dairy (overrun is never below zero).
    """
    stated = batch.recipe.measured.density_g_per_ml
    mix = vessel_state(batch.vessels[-1], constants("kitchen")["room"]).density_g_per_ml
    if stated is not None and not isinstance(mix, Withheld) and stated > mix.high:
        text = (
            f"the density of {number_text(stated, 2)} g/mL is above that of the mix without air, "
            f"{number_text(mix.low, 2)} to {number_text(mix.high, 2)} g/mL"
        )
        yield ("measured", "density"), "density", text, "check the tare of the cup and its volume"


def _whipping(batch: Batch) -> Iterator[Found]:
    """Cream, or milk with butter in it, that is whipped with less fat than cream needs for it.

    Source:
        cfr-131, penfield-campbell-1990, in recipe_checks.csv.
    """
    leanest, enough = (recipe_checks()[name] for name in ("cream_fat_percent", "whipping_fat_percent"))
    for number, place, step, vessel, has_egg in _vessels(batch):
        fat, of_milk = vessel.percent("fat_g"), vessel.percent("milk_fat_g")
        is_cream = fat is not None and of_milk is not None and of_milk > fat / 2 and not has_egg
        if is_cream and fat is not None and leanest <= fat < enough and _WHIP.search(step.do):
            text = f"{number_text(fat, 0)} % fat is whipped here: cream whips from {number_text(enough, 0)} % on"
            hint = "add fat, or less of what thins it, before this step"
            yield ("stages", number, "steps", place), "whipping", text, hint


def _boiling(batch: Batch) -> Iterator[Found]:
    """A step that heats something with water in it above 100 °C, in a stage that states no loss of water.

    Dry sugar, chocolate and clarified fat have no more than traces of water, and may be as hot as they like; of an
    ingredient whose water is not known, none counts.

    Source:
        definition, assumption, in recipe_checks.csv.
    """
    boils_c, traces = (recipe_checks()[name] for name in ("water_boils_c", "water_traces_percent"))
    for number, place, step, vessel, _ in _vessels(batch):
        hot_c, water_g = step.heat_to_c, vessel.at_least("water_g")
        is_counted = any(other.water_lost_g for other in batch.recipe.stages[number].steps)
        if hot_c is None or hot_c <= boils_c or is_counted or 100 * water_g <= traces * vessel.mass_g:
            continue
        text = (
            f"what is heated to {celsius_text(hot_c)} has {mass_text(water_g)} of water in it, and the stage has no "
            "`water_lost`: the figures take none of it as boiled off there"
        )
        hint = "weigh the pan with what is in it before and after, and write the difference: `water_lost: 25 g`"
        yield ("stages", number, "steps", place, "heat_to"), "boiling", text, hint


def _vessels(batch: Batch) -> Iterator[tuple[int, int, Step, Mixture, bool]]:
    """Stage and step from 0, the step, and what is then in its vessel: as a mixture, and whether egg is in it.

    Water that a step loses is still in the mixture of the later steps of its stage.
    """
    foods = {weighed.key: weighed.food for weighed in batch.weighed}
    made: dict[str, Mixture] = {}
    bowl, egg_in_bowl = NOTHING, False
    for number, stage in enumerate(batch.recipe.stages):
        vessel, has_egg = (NOTHING, False) if stage.makes else (bowl, egg_in_bowl)
        for place, step in enumerate(stage.steps):
            for use, mass_g in zip(step.uses, batch.uses_g[number][place], strict=True):
                if use.what in foods:
                    vessel += mixture_of(foods[use.what], mass_g)
                elif made[use.what].mass_g > 0:
                    vessel += made[use.what].times(mass_g / made[use.what].mass_g)
                has_egg = has_egg or (use.what in foods and foods[use.what].group == "egg")
            yield number, place, step, vessel, has_egg
        if stage.makes:
            made[stage.makes] = batch.vessels[number].mixture
        else:
            bowl, egg_in_bowl = batch.vessels[number].mixture, has_egg


def _divided(step: Step, masses_g: Sequence[float], path: tuple[str | int, ...]) -> Iterator[Found]:
    """An ingredient that is divided with others into parts of less than a gram, which nobody weighs."""
    if len(step.uses) < 2 or not step.additions:
        return
    for use, mass_g, parts in zip(step.uses, masses_g, step.additions, strict=True):
        if parts > 1 and 0 < mass_g < parts:
            text = f"{parts} additions divide {use.written!r} into {mass_text(mass_g / parts)} each"
            most = step.uses[max(range(len(step.uses)), key=lambda number: masses_g[number])].written
            yield (*path, "additions"), "additions", text, f"name what is divided, such as `{{{most}: {parts}}}`"


def _touched(step: Step, path: tuple[str | int, ...]) -> Iterator[Found]:
    """A sign for finger or tongue in a step that heats to where liquid scalds within seconds.

    Source:
        moritz-henriques-1947, in caution_limits.csv.
    """
    if step.heat_to_c is None or step.heat_to_c < limits()["scalds_from_c"]:
        return
    checkpoint = step.checkpoint
    signs = (step.look_for or "", *(checkpoint.passes if checkpoint else ()))
    for sign in (*signs, *(trouble.sign for trouble in (checkpoint.troubles if checkpoint else ()))):
        if _TOUCH.search(sign) and not _COOLED.search(sign):
            text = f"{sign!r} brings skin or tongue to what is at {celsius_text(step.heat_to_c)}"
            yield path, "scald", text, "let a drop or a spoonful cool first, and say so there"
