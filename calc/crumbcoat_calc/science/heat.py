"""Temperatures of mixing: specific heat, the melting of milk fat, mixer work, and how cold an ingredient must be."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.choi_okos import components
from crumbcoat_calc.science.constants import temperatures_c
from crumbcoat_calc.science.constituents import Constituents, constituents_of
from crumbcoat_calc.science.estimate import Answer, Estimate, Model, Withheld, increasing_root, outside
from crumbcoat_calc.science.milk_fat import melting_heat_j_per_g, solid_percents

MIXING = Model(
    "heat balance: specific heats of the components (Choi and Okos) and the melting of milk fat as a band",
    "0 to 120 °C; heat exchanged with bowl and room, freezing, boiling, the dissolving of sugar and the melting of "
    "other fats left out",
    "choi-okos-1986",
)
_COMPONENTS = ("water", "protein", "fat", "carbohydrate", "ash")


@dataclass(frozen=True, slots=True)
class HeatContent:
    """How so much of something stores heat: J as a t + b t2 + c t3 from 0 °C, and g of milk fat that can melt.

    `unknown` names the ingredients whose water or fat is not known.
    """

    a: float
    b: float
    c: float
    milk_fat_g: float
    mass_g: float
    unknown: tuple[str, ...] = ()

    def sensible_j(self, t_c: float) -> float:
        """Heat from 0 °C to t, without melting."""
        return t_c * (self.a + t_c * (self.b + t_c * self.c))


Portion = tuple[HeatContent, float]
"""An ingredient as heat sees it, and its temperature in °C."""


def heat_content(food: Food, mass_g: float) -> HeatContent:
    """How so many g of a food store heat.

    Source:
        choi-okos-1986; usda-sr28 for the composition.
    """
    one = _per_100g(food)
    share = mass_g / 100
    return HeatContent(one.a * share, one.b * share, one.c * share, one.milk_fat_g * share, mass_g, one.unknown)


def together(contents: Sequence[HeatContent]) -> HeatContent:
    """Several of them as one."""
    return HeatContent(
        fsum([content.a for content in contents]),
        fsum([content.b for content in contents]),
        fsum([content.c for content in contents]),
        fsum([content.milk_fat_g for content in contents]),
        fsum([content.mass_g for content in contents]),
        tuple(dict.fromkeys([name for content in contents for name in content.unknown])),
    )


def mixing_temperature_c(portions: Sequence[Portion], work_j: float = 0.0) -> Answer:
    """Temperature of a mixture in °C from the temperatures of its ingredients and the work of the mixer.

        sum of h_i(T) = sum of h_i(t_i) + work,  h = integral of cp dt - milk fat * solid share * melting heat

    Enthalpy rises with temperature, so there is one T; it is found by false position. The band comes from the melting
    of the milk fat: its typical, low and high curve, and 70 to 100 J/g. Sugar that dissolves cools the mixture
    further, which is left out.

    Args:
        work_j: heat that the mixer leaves in the mixture, J.

    Source:
        choi-okos-1986, versteeg-2016, memory (melting heat).
    """
    reason = _unknown(portions)
    if reason:
        return reason
    heat = together([content for content, _ in portions])
    sensible, solid = _stored(portions)
    found: list[float] = []
    for curve, melting in _readings(heat.milk_fat_g):
        there = sensible - melting * solid[curve] + work_j
        t_c = _temperature_c(heat, there, curve, melting, found)
        if t_c is None:
            return Withheld(f"the mixture would come out {'above 120 °C' if there > 0 else 'below 0 °C'}")
        found.append(t_c)
    return Estimate(found[0], min(found), max(found), MIXING)


def ingredient_temperature_c(
    others: Sequence[Portion], ingredient: HeatContent, target_c: float, work_j: float = 0.0
) -> Answer:
    """How cold or warm one ingredient must be for the mixture to come out at a wanted temperature.

    Args:
        others: all other ingredients at their temperatures.
        ingredient: what the one to be tempered is made of.
        target_c: the wanted temperature, 0 to 120 °C.
        work_j: heat that the mixer leaves in the mixture, J.

    Source:
        choi-okos-1986, versteeg-2016, memory (melting heat); derivation (the same balance, solved for one).
    """
    reason = _unknown([*others, (ingredient, target_c)])
    if reason:
        return reason
    before, solid_before = _stored(others)
    after, solid_after = _stored([*[(content, target_c) for content, _ in others], (ingredient, target_c)])
    found: list[float] = []
    for curve, melting in _readings(together([ingredient, *[content for content, _ in others]]).milk_fat_g):
        wanted = after - before - melting * (solid_after[curve] - solid_before[curve]) - work_j
        t_c = _temperature_c(ingredient, wanted, curve, melting, found)
        if t_c is None:
            side = "above 120 °C" if wanted > 0 else "below 0 °C"
            return Withheld(f"it alone cannot bring the mixture to {target_c:.3g} °C: it would have to be {side}")
        found.append(t_c)
    return Estimate(found[0], min(found), max(found), MIXING)


def mixer_work_j(power_w: float, share_into_batch: float, seconds: float) -> float:
    """Heat that a mixer leaves in the batch, J.

        work = power * share * time

    Args:
        power_w: electric power drawn, zero or more.
        share_into_batch: 0 to 1; the rest warms the motor.
        seconds: zero or more.

    Source:
        definition.

    >>> mixer_work_j(200, 0.25, 60)
    3000.0
    """
    return power_w * share_into_batch * seconds


def _temperature_c(
    heat: HeatContent, wanted_j: float, curve: int, heat_j_per_g: float, near: list[float]
) -> float | None:
    """Where so much heat is stored; looked for near the first reading's answer, then everywhere."""
    store_j = heat.milk_fat_g * heat_j_per_g / 100
    a, b, c = heat.a, heat.b, heat.c

    def surplus_j(t: float) -> float:
        sensible = t * (a + t * (b + t * c)) - wanted_j
        return sensible - store_j * solid_percents(t)[curve] if store_j else sensible

    coldest, hottest = temperatures_c("heat-balance")
    if near:
        found = increasing_root(surplus_j, max(coldest, near[0] - 1), min(hottest, near[0] + 1))
        if found is not None:
            return found
    return increasing_root(surplus_j, coldest, hottest)


def _stored(portions: Sequence[Portion]) -> tuple[float, tuple[float, float, float]]:
    """What portions hold: heat in J, and solid milk fat in g by the typical, low and high curve."""
    typical = low = high = sensible = 0.0
    for content, t_c in portions:
        sensible += content.sensible_j(t_c)
        if content.milk_fat_g > 0:
            solid = solid_percents(t_c)
            typical += content.milk_fat_g * solid[0] / 100
            low += content.milk_fat_g * solid[1] / 100
            high += content.milk_fat_g * solid[2] / 100
    return sensible, (typical, low, high)


def _readings(milk_fat_g: float) -> list[tuple[int, float]]:
    """The corners of the band: curve of solid fat and melting heat in J/g; the typical one first."""
    typical, low, high = melting_heat_j_per_g()
    readings = [(0, typical)]
    if milk_fat_g > 0:
        readings += [(curve, heat) for curve in (1, 2) for heat in (low, high)]
    return readings


def _masses(made: Constituents) -> tuple[float, ...]:
    sugars = made.sucrose_g + made.lactose_g + made.glucose_g + made.fructose_g + made.maltose_g + made.sugars_low_g
    return (
        made.water_g + made.ethanol_g,
        made.dissolved_protein_g + made.suspended_protein_g,
        made.milk_fat_g + made.other_fat_g,
        sugars + made.other_carbohydrate_g,
        made.minerals_g,
    )


@lru_cache(maxsize=1024)
def _per_100g(food: Food) -> HeatContent:
    made = constituents_of([(food, 100.0)])
    masses = _masses(made)
    polynomials = [components()[name].specific_heat for name in _COMPONENTS]
    a, b, c = [
        fsum([mass * polynomial[power] for mass, polynomial in zip(masses, polynomials, strict=True)])
        for power in range(3)
    ]
    names = made.unknown_of("water", "fat", "milk fat")
    return HeatContent(a, b / 2, c / 3, made.milk_fat_g, 100.0, (names,) if names else ())


def _unknown(portions: Sequence[Portion]) -> Withheld | None:
    coldest, hottest = temperatures_c("heat-balance")
    for _, t_c in portions:
        if not coldest <= t_c <= hottest:
            return outside("an ingredient's temperature", t_c, coldest, hottest, "°C")
    whole = together([content for content, _ in portions])
    if whole.unknown:
        return Withheld(f"the water or the fat of {', '.join(whole.unknown)} is not known")
    return None if whole.mass_g > 0 else Withheld("there is no mixture")
