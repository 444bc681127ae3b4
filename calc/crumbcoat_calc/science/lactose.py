"""Milk sugar (lactose): how much of it is dissolved, and how much may crystallise in the cold."""

from typing import NamedTuple

from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.constituents import Constituents
from crumbcoat_calc.science.dissolving import Syrup, dissolved_g
from crumbcoat_calc.science.estimate import Estimate, Estimated, Withheld
from crumbcoat_calc.science.mixed_sugars import crystal_water_g_per_g, soluble_beside
from crumbcoat_calc.science.solubility import (
    LACTOSE,
    Band,
    grams_per_gram_water,
    saturated_percent,
    solubility_g_per_g_water,
)

_UNLISTED = 0.005
"""Sugars that the table does not list, as a share of the mass, from which they could hide lactose that matters."""


class Lactose(NamedTuple):
    """The lactose of a mixture: dissolved in the bowl, crystals with their water in the cold, and what drives them.

    `supersaturation` is lactose in g per g of what stays dissolved in the cold.
    """

    dissolved_g: Estimated
    crystals_g: Estimated
    supersaturation: Estimated


def lactose_of(constituents: Constituents, syrup: Syrup | Withheld) -> Lactose:
    """The lactose of a mixture, in its bowl and in a refrigerator; crystals form over days.

    Soluble lactose beside the other sugars is S f, with S from the table for water alone. `mixed_sugars` gives the
    lowest f; the value is a quarter of the way from there to 1, and the highest half of the way, which covers what is
    recalled of syrups saturated with sucrose (0.35 to 0.65). Crystals are the monohydrate and bind 5.26 g of water for
    100 g of lactose.

    Source:
        hudson-lowe; norrish-1966; memory (the quarter and the half).
    """
    if isinstance(syrup, Withheld):
        return Lactose(syrup, syrup, syrup)
    lactose, water = constituents.lactose_g, constituents.water_g
    unlisted = constituents.sugars_high_g
    if unlisted > max(lactose, _UNLISTED * constituents.mass_g):
        hidden = Withheld("the ingredient table does not list all the sugars one by one, and lactose can be among them")
        return Lactose(hidden, hidden, hidden)
    soluble = _soluble_in_the_cold(constituents, syrup)
    taken = crystal_water_g_per_g("lactose")
    value, most, least = [(1 + taken) * (lactose - dissolved_g(lactose, at, water, taken)) for at in soluble]
    times, fewest_times, most_times = [lactose / water / at for at in (soluble[0], soluble[2], soluble[1])]
    return Lactose(
        Estimate(*syrup.dissolved_of("lactose"), LACTOSE),
        Estimate(value, least, most, LACTOSE),
        Estimate(times, fewest_times, most_times, LACTOSE),
    )


def _soluble_in_the_cold(constituents: Constituents, syrup: Syrup) -> Band:
    """Lactose that stays dissolved beside the other sugars in a refrigerator, g per g of water."""
    cold, shares = constants("kitchen")["refrigerator"], constants("lactose-solubility")
    alone, low, high = solubility_g_per_g_water("lactose", cold)
    water = constituents.water_g
    others = {name: mass / water for name, mass in syrup.solutions[0].sugars_g.items() if name != "lactose"}
    sucrose = grams_per_gram_water(saturated_percent(cold))
    others["sucrose"] = min(others["sucrose"], sucrose)
    share = soluble_beside("lactose", alone, others) / alone
    middle, highest = [share + shares[back] * (1 - share) for back in ("back_middle", "back_high")]
    return alone * middle, low * share, high * highest
