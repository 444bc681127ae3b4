"""The cold of dissolving: the heat that crystals of sugar take up as they dissolve in a mixture."""

from collections.abc import Sequence
from functools import lru_cache
from math import fsum
from typing import NamedTuple

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.constants import constants, temperatures_c
from crumbcoat_calc.science.constituents import constituents_of
from crumbcoat_calc.science.solubility import grams_per_gram_water, saturated_percent

CRYSTALS = frozenset(("sugar", "chocolate"))
"""Groups of dry foods whose sugar is in crystals; that of milk powder is not."""

DRY_PERCENT = 10.0
"""The most water, in g per 100 g, that a food with its sugar in crystals has (common practice, no source)."""

Band = tuple[float, float, float]
"""Typical value, low end and high end."""


class SugarPart(NamedTuple):
    """A part of a mixture: a food, its mass in g, its temperature in °C, and whether it was heated or cooled before."""

    food: Food
    mass_g: float
    t_c: float
    brought: bool


def dissolving_heat_j(parts: Sequence[SugarPart], boiled_off_g: float = 0.0) -> Band:
    """Heat that dissolving sugar takes from a mixture, in J: when all has dissolved that can, and from none to that.

        heat = q * min(crystals, water S / (100 - S) - sugar in solution before)

    What was heated or cooled before is at rest: its sugar is dissolved as far as its water can dissolve it. Sugars that
    the table does not list one by one, such as those of chocolate, count as sucrose; dextrose and fructose dissolve
    first. A mixture just stirred has dissolved little of it, so the low end is zero.

    Source:
        memory (heats of solution); vavrinecz-1962 for the saturation.

    >>> from crumbcoat_calc.foods.table import food
    >>> sugar, water = SugarPart(food("sugar_granulated"), 100, 20, False), SugarPart(food("water_tap"), 100, 20, False)
    >>> [round(heat_j) for heat_j in dissolving_heat_j([sugar, water])]
    [1697, 0, 1846]
    """
    crystals = [0.0, 0.0, 0.0]
    solution_g = resting_g = resting_water_g = water_g = heat_g_c = mass_g = hottest = 0.0
    for part in parts:
        per_100g = _of_100g(part.food)
        share = part.mass_g / 100
        water_g += per_100g.water_g * share
        sugars_g = fsum(per_100g.sugars_g) * share
        heat_g_c += part.mass_g * part.t_c
        mass_g += part.mass_g
        if part.brought:
            resting_g += sugars_g
            resting_water_g += per_100g.water_g * share
            hottest = max(hottest, part.t_c)
        elif per_100g.crystals:
            for at, sugar_g in enumerate(per_100g.sugars_g):
                crystals[at] += sugar_g * share
        else:
            solution_g += sugars_g
    dissolved_g = min(resting_g, max(0.0, resting_water_g - boiled_off_g) * _per_g_water(hottest))
    crystals[0] += resting_g - dissolved_g
    if mass_g <= 0 or not any(crystals):
        return 0.0, 0.0, 0.0
    left_g = max(0.0, water_g - boiled_off_g) * _per_g_water(heat_g_c / mass_g) - solution_g - dissolved_g
    heat = constants("dissolving-heat")
    typical, high = [], []
    for sugar, sugar_g in zip(("fructose", "glucose", "sucrose"), reversed(crystals), strict=True):
        dissolves_g = max(0.0, min(sugar_g, left_g))
        left_g -= dissolves_g
        typical.append(heat[sugar] * dissolves_g)
        high.append(heat[f"{sugar}_high"] * dissolves_g)
    return fsum(typical), 0.0, fsum(high)


class _SugarContent(NamedTuple):
    """Water and sugars of 100 g: sucrose with all that is not listed, glucose, fructose; whether they are crystals."""

    water_g: float
    sugars_g: tuple[float, float, float]
    crystals: bool


@lru_cache(maxsize=1024)
def _of_100g(food: Food) -> _SugarContent:
    made = constituents_of([(food, 100.0)])
    sucrose = made.sucrose_g + made.maltose_g + made.lactose_g + made.sugars_low_g
    crystals = food.group in CRYSTALS and made.water_g < DRY_PERCENT
    return _SugarContent(made.water_g, (sucrose, made.glucose_g, made.fructose_g), crystals)


def has_crystals(food: Food) -> bool:
    """Whether the sugar of a food is in crystals."""
    return _of_100g(food).crystals


def _per_g_water(t_c: float) -> float:
    """Sucrose that 1 g of water dissolves, in g; at 0 or 100 °C where it is colder or hotter."""
    coldest, hottest = temperatures_c("vavrinecz-saturation")
    return grams_per_gram_water(saturated_percent(min(hottest, max(coldest, t_c))))
