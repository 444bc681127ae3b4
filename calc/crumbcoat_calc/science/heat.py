"""How ingredients store heat, and the heat that a mixer adds."""

from collections.abc import Sequence
from functools import lru_cache
from math import fsum
from typing import NamedTuple

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.choi_okos import component_properties
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.constituents import Constituents, constituents_of
from crumbcoat_calc.science.fat_sorts import Fats, fats_of

_COMPONENTS = ("water", "protein", "fat", "carbohydrate", "ash")


class HeatContent(NamedTuple):
    """How an amount of food stores heat: J as a t + b t2 + c t3 from 0 °C, and the fats that can melt.

    `unknown` names the ingredients whose water or fat content is not known.
    """

    a: float
    b: float
    c: float
    fats: Fats
    mass_g: float
    unknown: tuple[str, ...] = ()

    def sensible_j(self, t_c: float) -> float:
        """Heat from 0 °C to t, without melting."""
        return t_c * (self.a + t_c * (self.b + t_c * self.c))

    def j_per_k(self, t_c: float) -> float:
        """Heat that warms it by one degree at a temperature, without melting."""
        return self.a + t_c * (2 * self.b + t_c * 3 * self.c)


class HeatPart(NamedTuple):
    """A part of a mixture: how it stores heat, and its temperature in °C."""

    content: HeatContent
    t_c: float


def heat_content(food: Food, mass_g: float, *, crystals: bool = False) -> HeatContent:
    """How an amount of a food stores heat.

    Args:
        crystals: whether its sugars are in crystals, which take less heat than dissolved ones.

    Source:
        choi-okos-1986; mohos-2010 (crystals of sucrose); ingredient-table for the composition.
    """
    per_100g = _per_100g(food, crystals)
    share = mass_g / 100
    return HeatContent(
        per_100g.a * share,
        per_100g.b * share,
        per_100g.c * share,
        tuple([(fat, fat_g * share) for fat, fat_g in per_100g.fats]),
        mass_g,
        per_100g.unknown,
    )


def combined(contents: Sequence[HeatContent]) -> HeatContent:
    """Several heat contents as one."""
    return HeatContent(
        fsum([content.a for content in contents]),
        fsum([content.b for content in contents]),
        fsum([content.c for content in contents]),
        _added([content.fats for content in contents]),
        fsum([content.mass_g for content in contents]),
        tuple(dict.fromkeys([name for content in contents for name in content.unknown])),
    )


def mixer_work_j(power_w: float, seconds: float) -> float:
    """Heat that a mixer leaves in the batch, J.

        work = power * time

    Args:
        power_w: electric power that goes into the batch, zero or more.
        seconds: zero or more.

    Source:
        definition.

    >>> mixer_work_j(50, 60)
    3000
    """
    return power_w * seconds


def _masses_g(constituents: Constituents) -> tuple[float, ...]:
    """The masses of _COMPONENTS, in that order."""
    return (
        constituents.water_g + constituents.ethanol_g,
        constituents.dissolved_protein_g + constituents.suspended_protein_g,
        constituents.milk_fat_g + constituents.other_fat_g,
        constituents.sugars_g + constituents.other_carbohydrate_g,
        constituents.minerals_g,
    )


def _added(fats: Sequence[Fats]) -> Fats:
    found: dict[str, float] = {}
    for of_one in fats:
        for fat, fat_g in of_one:
            found[fat] = found.get(fat, 0.0) + fat_g
    return tuple(found.items())


@lru_cache(maxsize=1024)
def _per_100g(food: Food, crystals: bool) -> HeatContent:
    constituents = constituents_of([(food, 100.0)])
    masses = _masses_g(constituents)
    polynomials = [component_properties()[name].specific_heat for name in _COMPONENTS]
    if crystals:
        of_crystals = constants("crystal-sucrose")
        masses = (*masses[:3], constituents.other_carbohydrate_g, masses[4], constituents.sugars_g)
        polynomials.append((of_crystals["cp_a"], of_crystals["cp_b"], 0.0))
    a, b, c = [
        fsum([mass * polynomial[power] for mass, polynomial in zip(masses, polynomials, strict=True)])
        for power in range(3)
    ]
    names = constituents.unknown_of("water", "fat")
    return HeatContent(a, b / 2, c / 3, fats_of([(food, 100.0)]), 100.0, (names,) if names else ())
