"""What a recipe really does, as far as its data show it: what a teacher can set as a goal."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.lesson.waits import CREAMED, SYRUP, contents_after
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.science.carriers import Carries
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.structure import Outside, Structure
from crumbcoat_calc.tables import load_rows

_BY_CARRIER = {
    Carries.WHITE_FOAM: "whisked_white",
    Carries.YOLK_FOAM: "whisked_egg",
    Carries.CLUMPED_FAT: "whipped_cream",
    Carries.STARCH_GEL: "starch",
    Carries.EGG_GEL: "egg_gel",
    Carries.GELATINE: "gelatine",
    Carries.AGAR: "agar",
    Carries.COCOA_BUTTER: "chocolate",
    Carries.FRESH_CHEESE: "fresh_cheese",
    Carries.SUGAR_CRYSTALS: "sugar_crystals",
}

_SOLID_PERCENT = 2.0
"""The least solid share of fat that can hold air, as structure.py has it for a frame (common practice)."""

_HARDLY_EGG = 0.05
"""Fat with less egg than this is beaten by itself (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Goals:
    """What a student knows, can do and explains; `explains` has a goal for each of LEVELS."""

    words: str
    knows: str
    can: str
    explains: tuple[str, ...]


def techniques(recipe: Recipe, structure: Structure) -> list[str]:
    """The rows of teaching_goals.csv that a recipe is about, weighing first.

    Args:
        structure: of the finished batch.
    """
    contents = contents_after(recipe).values()
    carriers = {carrier.carries for carrier in (*structure.carriers, *structure.melted)}
    found = ["weighing"]
    if temperatures_c(recipe):
        found.append("temperature")
    if any(state == SYRUP for state, _ in contents):
        found.append("boiled_syrup")
    if _has_crystals(structure) and any(state == CREAMED and _hardly_egg(parts) for state, parts in contents):
        found.append("creaming")
    found += [technique for carries, technique in _BY_CARRIER.items() if carries in carriers]
    if structure.made_droplets or structure.outside is Outside.FAT:
        found.append("fat_and_water")
    return found


def temperatures_c(recipe: Recipe) -> list[float]:
    """The temperatures that a recipe heats or cools to, in the order of its steps, each once."""
    steps = [step for stage in recipe.stages for step in stage.steps]
    return list(dict.fromkeys([t_c for step in steps for t_c in (step.heat_to_c, step.cool_to_c) if t_c is not None]))


def _has_crystals(structure: Structure) -> bool:
    """Whether fat that was never melted holds it, or is known to be partly solid at rest."""
    solid = structure.frame_solid_percent
    return structure.frame is not None or (isinstance(solid, Estimate) and solid.value >= _SOLID_PERCENT)


def _hardly_egg(parts: Sequence[tuple[Food, float]]) -> bool:
    """Whether what is beaten is fat by itself, or with sugar."""
    egg_g = fsum([part_g for food, part_g in parts if food.group == "egg"])
    return egg_g <= _HARDLY_EGG * fsum([part_g for _, part_g in parts])


@cache
def goals() -> Mapping[str, Goals]:
    """The goals of each technique.

    >>> goals()["starch"].words
    'thickening with starch'
    """
    return dict(load_rows("teaching_goals", _goals_from, ("technique",)))


def _goals_from(cells: dict[str, str]) -> tuple[str, Goals]:
    explains = tuple([cells[f"explains_{age}"] for age in (11, 14, 16)])
    return cells["technique"], Goals(words=cells["words"], knows=cells["knows"], can=cells["can"], explains=explains)
