"""What can be set in a recipe by a number, and where two trials differ in it."""

import json
from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.trials.model import Place
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import duration_text, mass_text, plain_number_text

AMOUNT, TEMPERATURE, HEAT_TO, COOL_TO, TIME = "amount", "temperature", "heat_to", "cool_to", "time"

_SAME_SHARE = 0.02
_SAME_DEGREES = 0.5
"""Within these, two settings are one: what a scale, a thermometer and a clock in a kitchen leave (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """An amount in g or a temperature in °C of an ingredient, or a temperature or time in s of a step.

    `field` is the field of a recipe file that has it.
    """

    field: str
    ingredient: str = ""
    place: Place | None = None

    def is_same(self, first: float, second: float) -> bool:
        """Whether two values are the same as far as a kitchen can measure."""
        if self.is_temperature:
            return abs(first - second) <= _SAME_DEGREES
        return abs(first - second) <= _SAME_SHARE * max(abs(first), abs(second))

    @property
    def is_temperature(self) -> bool:
        return self.field not in (AMOUNT, TIME)

    @property
    def name(self) -> str:
        """What it is, in words: an ingredient by its short name."""
        if self.place:
            return f"the {_NAMES[self.field]} step {self.place.written}"
        shown = self.ingredient.replace("_", " ")
        return shown if self.field == AMOUNT else f"the temperature of {shown}"

    def text(self, value: float) -> str:
        """What is set to a value, such as `butter 175 g` or `step 1.2 heated to 85 °C`."""
        shown = mass_text(value) if self.field == AMOUNT else f"{plain_number_text(value, 1)} °C"
        if self.place:
            shown = duration_text(value) if self.field == TIME else shown
            return f"step {self.place.written} {_VERBS[self.field]} {shown}"
        key = self.ingredient.replace("_", " ")
        return f"{key} {shown}" if self.field == AMOUNT else f"{key} at {shown}"


_NAMES = {HEAT_TO: "heating in", COOL_TO: "cooling in", TIME: "time of"}
_VERBS = {HEAT_TO: "heated to", COOL_TO: "cooled to", TIME: "for"}


def settings_of(recipe: Recipe) -> dict[Setting, float]:
    """Every number that is set in a recipe; the middle of a range of times."""
    found: dict[Setting, float] = {}
    for ingredient in recipe.ingredients:
        found[Setting(field=AMOUNT, ingredient=ingredient.key)] = ingredient.mass_g
        if ingredient.temperature_c is not None:
            found[Setting(field=TEMPERATURE, ingredient=ingredient.key)] = ingredient.temperature_c
    for stage_number, stage in enumerate(recipe.stages):
        for step_number, step in enumerate(stage.steps):
            place = Place(stage=stage_number, step=step_number)
            time_s = (step.time.shortest_s + step.time.longest_s) / 2 if step.time else None
            for field, value in ((HEAT_TO, step.heat_to_c), (COOL_TO, step.cool_to_c), (TIME, time_s)):
                if value is not None:
                    found[Setting(field=field, place=place)] = value
    return found


def differing(first: MadeTrial, second: MadeTrial) -> list[Setting] | None:
    """The settings in which two trials differ; None where they differ in something else as well."""
    if _rest(first) != _rest(second):
        return None
    one, other = settings_of(first.recipe), settings_beside(first, second)
    if one.keys() != other.keys():
        return None
    return [setting for setting in one if not setting.is_same(one[setting], other[setting])]


def settings_beside(first: MadeTrial, second: MadeTrial) -> dict[Setting, float]:
    """The settings of a second trial with its amounts for a batch of the size of the first one."""
    size = _size(first.recipe, second.recipe)
    return {
        setting: value / size if setting.field == AMOUNT else value
        for setting, value in settings_of(second.recipe).items()
    }


def _size(first: Recipe, second: Recipe) -> float:
    """The factor between two batches if all ingredients but one, and at least two, agree on it; otherwise 1."""
    masses = {ingredient.key: ingredient.mass_g for ingredient in second.ingredients}
    ratios = sorted(masses[one.key] / one.mass_g for one in first.ingredients if one.mass_g > 0 and one.key in masses)
    if len(ratios) < 3:
        return 1.0
    agreeing = {size: sum(1 for ratio in ratios if abs(ratio - size) <= _SAME_SHARE * size) for size in (1.0, *ratios)}
    size = max(agreeing, key=lambda size: agreeing[size])
    return size if size > 0 and agreeing[size] >= len(ratios) - 1 else 1.0


def _rest(made: MadeTrial) -> str:
    """All of a trial's ingredients and steps that is not a setting, as one text."""
    ingredients, stages = made.fields["ingredients"], made.fields["stages"]
    assert isinstance(ingredients, dict)
    assert isinstance(stages, list | tuple)
    shares = [
        [one.key, portion.key, round(portion.mass_g / one.mass_g, 2)]
        for one in made.recipe.ingredients
        for portion in one.portions
    ]
    kept: list[object] = [
        {key: _without(one, AMOUNT, "portions", TEMPERATURE) for key, one in ingredients.items()},
        [[stage.get("makes"), [_without(step, HEAT_TO, COOL_TO, TIME) for step in stage["steps"]]] for stage in stages],
    ]
    return json.dumps([shares, *kept], sort_keys=True)


def _without(fields: Mapping[str, object], *names: str) -> dict[str, object]:
    return {name: value for name, value in fields.items() if name not in names}
