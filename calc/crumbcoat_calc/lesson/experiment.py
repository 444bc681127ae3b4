"""A class experiment: one thing of one recipe is different in each group, and one group or more makes the control."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.lesson.lesson import BY_ADDITIONS, BY_AMOUNT, BY_TEMPERATURE, Lesson
from crumbcoat_calc.lesson.not_to_vary import check_temperature, reason_not_to_vary
from crumbcoat_calc.recipe.batch import BatchOptions
from crumbcoat_calc.recipe.model import Ingredient, Recipe, Step
from crumbcoat_calc.values.display import celsius_text, list_text, mass_text, plain_number_text
from crumbcoat_calc.values.fields import did_you_mean

_LETTER = re.compile(r"([A-Da-d])\s+(\S.*)")
USUAL_LEVELS = (-20.0, 20.0)
"""The levels if none are given, in % (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Experiment:
    """What is different, of which recipe, counted from 0, and how much of it each group takes.

    `levels` are by group, counted from 1: % more or less than published, °C, or a number of additions; `control` is the
    level of the recipe as published. `step` is where the additions are, as stage and step counted from 0.
    """

    recipe: int
    ingredient: Ingredient
    by: str
    control: float
    levels: Mapping[int, float]
    step: tuple[int, int] | None = None

    @property
    def controls(self) -> tuple[int, ...]:
        """The groups that make the recipe as published."""
        return tuple([group for group, level in self.levels.items() if level == self.control])

    def at(self, recipe: Recipe, options: BatchOptions, level: float) -> tuple[Recipe, BatchOptions]:
        """The recipe and the options of a batch at a level."""
        key = self.ingredient.key
        if self.by == BY_AMOUNT:
            return recipe, replace(options, amounts_g={key: self.ingredient.mass_g * (1 + level / 100)})
        if self.by == BY_TEMPERATURE:
            return recipe, replace(options, temperatures_c={key: level})
        assert self.step is not None
        return _with_additions(recipe, self.step, key, int(level)), options

    def level_text(self, level: float) -> str:
        """A level in words; that of the control is as published."""
        name = self.ingredient.name
        if level == self.control:
            return f"control: {name} as published"
        if self.by == BY_TEMPERATURE:
            return f"{name} at {celsius_text(level)}"
        if self.by == BY_ADDITIONS:
            return f"{name} in {plain_number_text(level)} addition{'' if level == 1 else 's'}"
        return f"{plain_number_text(abs(level))} % {'more' if level > 0 else 'less'} {name}"

    def change_text(self, level: float, batches: float) -> str:
        """What a group has to do differently, for its sheet."""
        published = {
            BY_TEMPERATURE: lambda: celsius_text(self.control),
            BY_ADDITIONS: lambda: plain_number_text(self.control),
            BY_AMOUNT: lambda: mass_text(batches * self.ingredient.mass_g),
        }[self.by]()
        amount = ""
        if self.by == BY_AMOUNT:
            amount = f", {mass_text(batches * self.ingredient.mass_g * (1 + level / 100))}"
        return f"Your change: {self.level_text(level)}{amount} (published: {published}). All else stays the same."


def experiment_of(recipes: Sequence[Recipe], lesson: Lesson, kept_apart: frozenset[int]) -> Experiment | None:
    """The experiment of a lesson, or None if nothing is varied.

    The groups take the control and the levels in turn, so that the control is the first to be made again.

    Args:
        kept_apart: groups that make something else, because of an allergy.

    Raises:
        InputError: at `vary`, for what is not in a recipe, is in several, or must not be varied; at `levels`, for a
            level that is not possible, and for more levels than groups.
    """
    if not lesson.vary:
        return None
    number, ingredient = _found(recipes, lesson.vary)
    recipe = recipes[number]
    before = [stage for position, stage in enumerate(recipe.stages) if (number, position) in lesson.beforehand]
    if any(use.what == ingredient.key for stage in before for step in stage.steps for use in step.uses):
        problem = f"{ingredient.name} goes in at a stage that is made beforehand, the same for all groups"
        raise InputError(problem, "vary something else, or have no stage made beforehand", ("vary",))
    reason = reason_not_to_vary(recipe, ingredient, lesson)
    if reason:
        raise InputError(f"{ingredient.name} must not be varied: {reason}", "vary something else", ("vary",))
    by, levels = (lesson.levels_by, lesson.levels) if lesson.levels else (BY_AMOUNT, USUAL_LEVELS)
    step = None
    if by == BY_AMOUNT:
        control = 0.0
    elif by == BY_TEMPERATURE:
        control = _temperature_of(recipe, ingredient)
        for level in levels:
            check_temperature(ingredient, control, level)
    else:
        step, parts = _additions_of(recipe, ingredient)
        control = float(parts)
    others = [level for level in levels if level != control]
    if not others:
        raise InputError("all groups would make the same", "add a level besides the published one", ("levels",))
    groups = [
        group
        for group in range(1, lesson.groups + 1)
        if number in lesson.recipes_of(group - 1, len(recipes)) and group not in kept_apart
    ]
    if len(groups) < len(others) + 1:
        makers = f"{len(groups)} group{' makes' if len(groups) == 1 else 's make'} it"
        problem = f"{len(others)} levels and the control need {len(others) + 1} groups, and {makers}"
        raise InputError(problem, "use fewer levels or more groups", ("levels",))
    turns = [control, *others]
    return Experiment(
        recipe=number,
        ingredient=ingredient,
        by=by,
        control=control,
        levels={group: turns[position % len(turns)] for position, group in enumerate(groups)},
        step=step,
    )


def _found(recipes: Sequence[Recipe], written: str) -> tuple[int, Ingredient]:
    """The recipe and the ingredient that a teacher names, such as `butter` or `B butter`."""
    lettered = _LETTER.fullmatch(written)
    places = list(enumerate(recipes))
    found = _named(places, written)
    if not found and lettered:
        number = "ABCD".index(lettered[1].upper())
        found = _named(places[number : number + 1], lettered[2])
    if not found:
        names = [ingredient.name for recipe in recipes for ingredient in recipe.ingredients]
        remedy = did_you_mean(written, names, f"use one of: {list_text(list(dict.fromkeys(names)))}")
        raise InputError(f"no recipe of this lesson has an ingredient {written!r}", remedy, ("vary",))
    if len(found) > 1:
        letters = len(recipes) > 1
        choices = [f"{'ABCD'[number]} {one.name}" if letters else one.name for number, one in found]
        raise InputError(f"{written!r} can be several", f"write {list_text(choices, 'or')}", ("vary",))
    return found[0]


def _named(places: Sequence[tuple[int, Recipe]], written: str) -> list[tuple[int, Ingredient]]:
    """The ingredients of that name; without one, those whose name has it as words."""
    wanted = written.casefold()
    listed = [(number, one) for number, recipe in places for one in recipe.ingredients if one.mass_g > 0]
    exact = [(number, one) for number, one in listed if wanted in (one.name.casefold(), one.key)]
    return exact or [(number, one) for number, one in listed if f" {wanted} " in _words_of(one.name)]


def _words_of(name: str) -> str:
    """The words of a name, each between spaces."""
    return f" {name.casefold().replace(',', ' ').replace('-', ' ')} "


def _temperature_of(recipe: Recipe, ingredient: Ingredient) -> float:
    if ingredient.temperature_c is not None:
        return ingredient.temperature_c
    stated = [one.name for one in recipe.ingredients if one.temperature_c is not None]
    remedy = f"vary that of {list_text(stated, 'or')}, or an amount" if stated else "vary an amount in %"
    raise InputError(f"the recipe states no temperature for {ingredient.name}", remedy, ("levels",))


def _additions_of(recipe: Recipe, ingredient: Ingredient) -> tuple[tuple[int, int], int]:
    """The one step where an ingredient goes in, and in how many parts."""
    places = [
        ((stage_number, step_number), _parts_of(step, ingredient.key))
        for stage_number, stage in enumerate(recipe.stages)
        for step_number, step in enumerate(stage.steps)
        if any(use.what == ingredient.key for use in step.uses)
    ]
    divided = [place for place in places if place[1] > 1] or places
    if len(divided) != 1:
        problem = f"{ingredient.name} goes in at {len(divided)} steps"
        raise InputError(problem, "vary its amount, or something that goes in at one step", ("levels",))
    return divided[0]


def _parts_of(step: Step, key: str) -> int:
    parts = step.additions or (1,) * len(step.uses)
    return max(part for use, part in zip(step.uses, parts, strict=True) if use.what == key)


def _with_additions(recipe: Recipe, place: tuple[int, int], key: str, parts: int) -> Recipe:
    stage = recipe.stages[place[0]]
    step = stage.steps[place[1]]
    before = step.additions or (1,) * len(step.uses)
    after = tuple([parts if use.what == key else part for use, part in zip(step.uses, before, strict=True)])
    changed = replace(step, additions=after if any(part > 1 for part in after) else ())
    steps = (*stage.steps[: place[1]], changed, *stage.steps[place[1] + 1 :])
    stages = (*recipe.stages[: place[0]], replace(stage, steps=steps), *recipe.stages[place[0] + 1 :])
    return replace(recipe, stages=stages)
