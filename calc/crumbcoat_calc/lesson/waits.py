"""How long what a step made may wait for the next one, by what it is, where the recipe does not say."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.tables import UNKNOWN, load_rows

STATED = "stated"
"""What `Wait.what` says where the recipe itself says how long."""

_SYRUP_C, _HOT_C, _CHILLED_C = 105.0, 35.0, 8.0
"""From here on sugar and water are a boiled syrup, things are hot, and up to here they are chilled. Our choice."""

_CREAMED_FAT, _FOAM_EGG, _FOAM_FAT = 0.45, 0.3, 0.1
"""Beside sugar: the least share of fat in creamed butter, and of egg in whisked egg, with at most that of fat. Ours."""


CREAMED, SYRUP = "creamed_butter", "syrup"
"""States of what a step made, as longest_waits.csv names them."""

_MOST_DELICATE_FIRST = ("whisked_egg", "hot", "whipped", "cooled", "creamed_butter")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """How long something may wait, in s; None: without limit. `what` is a row of longest_waits.csv, or STATED."""

    what: str
    longest_s: float | None


@dataclass(slots=True)
class _Vessel:
    contents: list[tuple[Food, float]]
    state: str = "cold"

    def share(self, group: str) -> float:
        """The share by mass of what belongs to a group of the ingredient table."""
        mass_g = fsum(part_g for _, part_g in self.contents)
        return fsum(part_g for food, part_g in self.contents if food.group == group) / mass_g if mass_g else 0.0

    def beside_sugar(self) -> tuple[float, float]:
        """The shares of fat that is not egg's, and of egg, in all that is not sugar."""
        others = [(food, part_g) for food, part_g in self.contents if food.group != "sugar"]
        mass_g = fsum(part_g for _, part_g in others)
        if not mass_g:
            return 0.0, 0.0
        fat_g = fsum(part_g * (food.content("fat_g") or 0.0) / 100 for food, part_g in others if food.group != "egg")
        return fat_g / mass_g, fsum(part_g for food, part_g in others if food.group == "egg") / mass_g


Place = tuple[int, int]
"""A step, by stage and step counted from 0."""


def longest_waits(recipe: Recipe) -> Mapping[Place, Wait]:
    """How long what each step made may wait, by stage and step counted from 0.

    Args:
        recipe: as published; optional steps count.

    Source:
        longest_waits.csv (common practice); the recipe's own `may_wait` goes before it.
    """
    states = contents_after(recipe)
    return {
        (stage_number, number): _wait(states[stage_number, number][0], step)
        for stage_number, stage in enumerate(recipe.stages)
        for number, step in enumerate(stage.steps)
    }


def contents_after(recipe: Recipe) -> Mapping[Place, tuple[str, Sequence[tuple[Food, float]]]]:
    """What each step made, as longest_waits.csv names it, and what is in it, in g.

    Args:
        recipe: as published; optional steps count.
    """
    store: dict[tuple[str, str | None], _Vessel] = {}
    for ingredient in recipe.ingredients:
        store[ingredient.key, None] = _Vessel([(ingredient.food, ingredient.mass_g)])
        for portion in (*ingredient.portions, *ingredient.kept_back):
            store[ingredient.key, portion.key] = _Vessel([(ingredient.food, portion.mass_g)])
    bowl = _Vessel([])
    found: dict[Place, tuple[str, Sequence[tuple[Food, float]]]] = {}
    for stage_number, stage in enumerate(recipe.stages):
        vessel = _Vessel([]) if stage.makes else bowl
        for number, step in enumerate(stage.steps):
            added = [store[use.what, use.portion] for use in step.uses]
            vessel.contents = [*vessel.contents, *(part for other in added for part in other.contents)]
            vessel.state = _state(vessel, step, [other.state for other in added])
            found[stage_number, number] = vessel.state, vessel.contents
        if stage.makes:
            store[stage.makes, None] = vessel
            for key, share in stage.shares:
                store[stage.makes, key] = _Vessel(
                    [(food, share * part_g) for food, part_g in vessel.contents], vessel.state
                )
        else:
            bowl = vessel
    return found


def _wait(state: str, step: Step) -> Wait:
    if step.may_wait_s is not None:
        return Wait(what=STATED, longest_s=step.may_wait_s)
    return Wait(what=state, longest_s=_rows()[state])


def _state(vessel: _Vessel, step: Step, added: list[str]) -> str:
    """What is in a vessel after a step, in a word of the table."""
    tool = (step.tool or "").lower()
    if "refrigerator" in tool or "freezer" in tool or (step.cool_to_c is not None and step.cool_to_c <= _CHILLED_C):
        return "chilled"
    beaten = step.speed not in (None, "by hand") and any(word in tool for word in ("mixer", "beater", "whisk"))
    if beaten:
        fat, egg = vessel.beside_sugar()
        if fat >= _CREAMED_FAT:
            return CREAMED
        return "whisked_egg" if egg >= _FOAM_EGG and fat <= _FOAM_FAT else "whipped"
    if vessel.state == "whisked_egg" and step.heat_to_c is None and not step.uses:
        return vessel.state
    if step.heat_to_c is not None and step.heat_to_c >= _HOT_C:
        return SYRUP if step.heat_to_c >= _SYRUP_C and vessel.share("sugar") >= 0.5 else "hot"
    if step.cool_to_c is not None:
        return "cooled"
    states = [vessel.state, *added]
    return next(
        (state for state in ("whisked_egg", "hot", "whipped", "cooled", "creamed_butter") if state in states), "cold"
    )


@cache
def _rows() -> Mapping[str, float | None]:
    rows = load_rows("longest_waits", lambda cells: (cells["what"], cells["minutes"]), ("what",))
    return {what: None if minutes == UNKNOWN else 60 * float(minutes) for what, minutes in rows}
