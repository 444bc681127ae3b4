"""The sugars of a mixture: how much is dissolved, how much is not, and how much more would dissolve."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.constituents import Constituents
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld
from crumbcoat_calc.science.mixed_sugars import crystal_water_g_per_g, soluble_beside
from crumbcoat_calc.science.solubility import (
    Band,
    grams_per_gram_water,
    saturated_percent,
    saturation_spread_percent,
    solubility_g_per_g_water,
)

SUCROSE = Model(
    "sucrose by its saturation curve (Vavrinecz), lowered beside other sugars by Norrish's rule with Gibbs and Duhem; "
    "the band reaches from no such lowering to one and a half times as much, and takes sugars that the table does not "
    "list one by one as anything from all sucrose to all soluble",
    "0 to 100 °C; less alcohol than water; at rest; milk sugar and dextrose at most 2.3 times saturated",
    "vavrinecz-1962",
)


_STEEPEST = 0.75
"""Other sugars of x g per g of water leave a sugar at least exp(-0.75 x) of its solubility, by the model itself."""


class Solution(NamedTuple):
    """A syrup: free water, and each dissolved sugar by its name in norrish_constants.csv; in g."""

    water_g: float
    sugars_g: dict[str, float]

    @property
    def sugar_g(self) -> float:
        """All its sugars."""
        return math.fsum(self.sugars_g.values())


@dataclass(frozen=True, slots=True, kw_only=True)
class Syrup:
    """The water of a mixture and what is dissolved in it, masses in g.

    `solutions` has the value, the end with the fewest dissolved sugars and that with the most; `sure` is the second,
    with nothing of the sugars that the table does not list. `undissolved_g` is without the water in crystals.
    `slow_g` is what may crystallise of each sugar that does so slowly. `headroom_g` is how much more sucrose would
    dissolve. `saturated` with sucrose is None if the band leaves that open.
    """

    solutions: tuple[Solution, Solution, Solution]
    sure: Solution
    undissolved_g: Band
    slow_g: dict[str, float]
    headroom_g: Band
    saturated: bool | None

    @property
    def water_g(self) -> float:
        """Free water."""
        return self.solutions[0].water_g

    @property
    def dissolved_g(self) -> Band:
        """All dissolved sugars."""
        value, fewest, most = self.solutions
        return value.sugar_g, fewest.sugar_g, most.sugar_g

    def dissolved_of(self, sugar: str) -> Band:
        """One of the dissolved sugars."""
        value, fewest, most = [solution.sugars_g.get(sugar, 0.0) for solution in self.solutions]
        return value, fewest, most


def syrup_of(constituents: Constituents, t_c: float) -> Syrup | Withheld:
    """Split the sugars of a mixture into dissolved and undissolved, at rest at one temperature.

        most = water S / (100 - S);  dissolved = min(sucrose, most - displaced by the other dissolved sugars)

    S is from the saturation curve with its spread; what is displaced is from `mixed_sugars`. From no displacement to
    one and a half times that covers the recalled maxima of syrups of sucrose and invert sugar.

    Sugars that the table does not list one by one are anything from all sucrose (fewest dissolved) to all soluble
    (most). The value takes them as sucrose, which most of them are in chocolate and confectionery; those of a syrup,
    which would set if they were, as soluble.

    Lactose, glucose, maltose and fructose crystallise slowly. The value has what dissolves of each in water alone, the
    low end what stays dissolved beside the others, the high end 2.3 times what water alone dissolves, as honey holds
    its glucose. Crystals take their water along, at most half of the water.

    Alcohol dissolves no sugar and takes water from it: up to its own mass at the low end, half of that in the value,
    none at the high end. Starch does not dissolve in the cold.

    Args:
        t_c: 0 to 100 °C.

    Source:
        vavrinecz-1962; norrish-1966; usda-sr28 (honey); memory (one and a half times, alcohol).
    """
    names = constituents.unknown_of("water", "sugar")
    if names:
        return Withheld(f"the water or sugar content of {names} is not known")
    reason = too_hot_or_cold(t_c, "vavrinecz-saturation")
    if reason:
        return reason
    if constituents.water_g <= 0:
        return Withheld("there is no water for sugar to dissolve in")
    if constituents.ethanol_g >= constituents.water_g:
        return Withheld("there is at least as much alcohol as water, and no saturation curve applies")
    sucrose, low_g, high_g = constituents.sucrose_g, constituents.sugars_low_g, constituents.sugars_high_g
    in_syrup = constituents.syrup_sugars_g
    as_sucrose = max(0.0, constituents.likely_sugars_g - in_syrup)
    slow = _slow_sugars(constituents, t_c, sucrose + as_sucrose)
    (water, values), (water_low, lows), (water_high, highs) = slow
    if in_syrup > 0:
        values["maltose"] = values.get("maltose", 0.0) + in_syrup
    at, at_low, at_high = _saturation(t_c)
    most = water * soluble_beside("sucrose", at, {name: mass / water for name, mass in values.items()})
    lowest = _lowest(at_low, water_low, lows)
    surely = lowest if lows == highs else _lowest(at_low, water_low, highs)
    highest = water_high * at_high
    amounts = {name: mass for name, mass in _amounts(constituents) if mass > 0}
    in_most = highs | {"glucose": highs.get("glucose", 0.0) + high_g} if high_g > 0 else highs
    solutions = (
        Solution(water + constituents.ethanol_g / 2, {"sucrose": min(sucrose + as_sucrose, most), **values}),
        Solution(water_low + constituents.ethanol_g, {"sucrose": min(sucrose + low_g, lowest), **lows}),
        Solution(water_high, {"sucrose": min(sucrose, highest), **in_most}),
    )
    total = math.fsum(amounts.values())
    slow_g = {name: mass - lows[name] for name, mass in amounts.items()}
    undissolved = (
        max(0.0, sucrose + as_sucrose - most) + total + in_syrup - math.fsum(values.values()),
        max(0.0, sucrose - highest) + total - math.fsum(highs.values()),
        max(0.0, sucrose + high_g - lowest) + math.fsum(slow_g.values()),
    )
    return Syrup(
        solutions=solutions,
        sure=Solution(solutions[1].water_g, {"sucrose": min(sucrose, lowest), **lows}) if high_g > 0 else solutions[1],
        undissolved_g=undissolved,
        slow_g=slow_g,
        headroom_g=(
            max(0.0, most - sucrose - as_sucrose),
            max(0.0, surely - sucrose - high_g),
            max(0.0, highest - sucrose),
        ),
        saturated=False if sucrose + high_g <= surely else True if sucrose >= highest else None,
    )


def strength_percent(syrup: Syrup) -> Estimate:
    """Strength of the syrup: dissolved sugars in g per 100 g of water and dissolved sugars, similar to °Brix.

    Source:
        definition.
    """
    value, low, high = [100 * solution.sugar_g / (solution.water_g + solution.sugar_g) for solution in syrup.solutions]
    return Estimate(value, min(low, value), max(high, value), SUCROSE)


def estimate(band: Band) -> Estimated:
    """A band of this module as an estimate."""
    return Estimate(*band, SUCROSE)


def _amounts(constituents: Constituents) -> tuple[tuple[str, float], ...]:
    return (
        ("lactose", constituents.lactose_g),
        ("glucose", constituents.glucose_g),
        ("maltose", constituents.maltose_g),
        ("fructose", constituents.fructose_g),
    )


def _lowest(at_low: float, water_g: float, dissolved_g: dict[str, float]) -> float:
    """The least sucrose that dissolves beside other dissolved sugars."""
    beside = soluble_beside("sucrose", at_low, {name: mass / water_g for name, mass in dissolved_g.items()})
    return water_g * max(0.0, at_low - constants("mixed-sugars")["displacement_high"] * (at_low - beside))


@lru_cache(maxsize=64)
def _saturation(t_c: float) -> Band:
    """Sucrose that water alone dissolves, in g per g."""
    percent, spread = saturated_percent(t_c), saturation_spread_percent()
    return grams_per_gram_water(percent), grams_per_gram_water(percent - spread), grams_per_gram_water(percent + spread)


def _slow_sugars(
    constituents: Constituents, t_c: float, sucrose_g: float
) -> tuple[tuple[float, dict[str, float]], ...]:
    """For the value, the low and the high end: water that dissolves sugar, and all dissolved sugars but sucrose."""
    water, ethanol = constituents.water_g, constituents.ethanol_g
    amounts = [(name, mass) for name, mass in _amounts(constituents) if mass > 0]
    waters = (water - ethanol / 2, water - ethanol, water)
    if not amounts:
        return tuple([(part, {}) for part in waters])
    held = constants("mixed-sugars")["held"]
    bands = {name: solubility_g_per_g_water(name, t_c) for name, _ in amounts}
    beside = {name: min(mass / waters[1], bands[name][0]) for name, mass in amounts}
    beside["sucrose"] = min((sucrose_g + constituents.syrup_sugars_g) / waters[1], _saturation(t_c)[0])
    strong = math.fsum(beside.values())
    ends: list[tuple[float, dict[str, float]]] = []
    for end, part in enumerate(waters):
        dissolved, bound = {}, 0.0
        for name, mass in amounts:
            soluble = bands[name][end]
            if end == 1 and mass > soluble * part * math.exp(-_STEEPEST * strong):
                soluble = soluble_beside(name, soluble, {other: of for other, of in beside.items() if other != name})
            elif end == 2:
                soluble *= held
            taken = crystal_water_g_per_g(name)
            dissolved[name] = dissolved_g(mass, soluble, part, taken)
            bound += taken * (mass - dissolved[name])
        ends.append((part - min(bound, part / 2), dissolved))
    return tuple(ends)


def dissolved_g(mass_g: float, soluble_g_per_g: float, water_g: float, crystal_water: float) -> float:
    """How much of a sugar is dissolved, if its crystals take water along, in g per g; at most half of the water.

    >>> round(dissolved_g(30, 0.19, 100, 0.0526), 2), dissolved_g(5, 0.19, 100, 0.0526)
    (18.89, 5)
    """
    if mass_g <= soluble_g_per_g * water_g / 2:
        return mass_g
    freely = soluble_g_per_g * (water_g - crystal_water * mass_g) / (1 - crystal_water * soluble_g_per_g)
    return min(mass_g, max(freely, soluble_g_per_g * water_g / 2))
