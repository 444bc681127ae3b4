"""Water activity of a water phase, by two independent models."""

import math
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.constituents import Constituents
from crumbcoat_calc.science.dissolving import Syrup
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld
from crumbcoat_calc.science.mixed_sugars import solutes
from crumbcoat_calc.tables import load_rows

NORRISH = Model(
    "water activity by Norrish, with his rule for several sugars; salt by Ross' product",
    "0 to 40 °C; sugars up to saturation, salt up to 5 mol per kg of water, less alcohol than water",
    "norrish-1966",
)
MONEY_BORN = Model(
    "water activity by Money and Born, each sugar by its moles; salt by Ross' product",
    "0 to 40 °C; sugars up to saturation, salt up to 5 mol per kg of water, less alcohol than water",
    "money-born-1951",
)
BOTH = Model(
    "water activity by Norrish; the band reaches to Money and Born's value and covers unknown contents",
    "0 to 40 °C; dissolved sugars, salt, salts of milk and alcohol only; a prediction, never a measurement",
    "norrish-1966",
)


def norrish_and_money_born(water_g: float, dissolved: dict[str, float]) -> tuple[float, float]:
    """Water activity of dissolved sugars by both models, in one pass, without a check of the range.

        Norrish: ln aw = ln Xw - (sum over i of sqrt(K_i) X_i)^2
        Money and Born: aw = 1 / (1 + 0.27 n),  n = mol of sugar per 100 g of water

    X are mole fractions. For one solute Norrish's is aw = Xw exp(-K X^2).

    Args:
        water_g: above zero.
        dissolved: each in g, by its name in norrish_constants.csv.

    Source:
        norrish-1966; K chirife-1982; the rule for several is from memory. money-born-1951.

    >>> [round(activity, 4) for activity in norrish_and_money_born(33, {"sucrose": 67})]
    [0.8506, 0.862]
    """
    table = solutes()
    sugars, weighted = 0.0, 0.0
    for name, mass_g in dissolved.items():
        solute = table[name]
        moles = mass_g / solute.molar_mass_g_mol
        sugars += moles
        weighted += solute.root_k * moles
    water = water_g / constants("molar-mass")["water"]
    total = water + sugars
    by_norrish = water / total * math.exp(-((weighted / total) ** 2))
    return by_norrish, 1 / (1 + constants("money-born")["slope"] * sugars * 100 / water_g)


def salt_water_activity(molality_mol_per_kg: float) -> float | None:
    """Water activity of sodium chloride in water at 25 °C, 0 to 5 mol/kg; None beyond.

    Straight lines in ln aw / m between the points of salt_water_activity.csv; below the first point, its value.

    Source:
        steiger-2008.

    >>> round(salt_water_activity(1.0), 4)
    0.9669
    """
    points = _salt()
    if molality_mol_per_kg <= points[0][0]:
        return math.exp(points[0][1] * max(0.0, molality_mol_per_kg))
    for (m_1, slope_1), (m_2, slope_2) in pairwise(points):
        if molality_mol_per_kg <= m_2:
            slope = slope_1 + (slope_2 - slope_1) * (molality_mol_per_kg - m_1) / (m_2 - m_1)
            return math.exp(slope * molality_mol_per_kg)
    return None


class WaterActivities(NamedTuple):
    """Water activity by each model, and by Norrish with a band that covers both.

    `sure` is the last with a high end to which sugars that the table does not list add nothing, for advice about
    keeping.
    """

    norrish: Estimated
    money_born: Estimated
    both: Estimated
    sure: Estimated


def water_activities(constituents: Constituents, syrup: Syrup | Withheld, t_c: float) -> WaterActivities:
    """Water activity by both models, from dissolved substances only.

    Undissolved sucrose keeps the syrup saturated, so more of it changes nothing. Why these two models: Norrish has a
    constant for each sugar and agrees with freezing points to 0.0015 up to 42 %; Money and Born needs no constants and
    tends to 1 in water, where Grover's polynomial gives 1.04. Sodium counts as sodium chloride by Ross' product
    (each solute alone in all the water). The other salts of milk are an ideal solute of 0.9 ± 0.2 mmol per g of milk
    solids not fat, and are left out where advice about keeping needs the high end. Ethanol counts as an ideal solute at
    the low end, and as evaporated at the high end. Sugars that the table does not list count as sucrose at the high
    end, and as glucose at the low end. Proteins, starch and other minerals, which would lower it, are left out.

    Source:
        norrish-1966, money-born-1951; ross-1975 (product); steiger-2008 (salt); milk-freezing (salts of milk).
    """
    if isinstance(syrup, Withheld):
        return WaterActivities(syrup, syrup, syrup, syrup)
    reason = too_hot_or_cold(t_c, "water-activity")
    if reason:
        return WaterActivities(reason, reason, reason, reason)
    masses = constants("molar-mass")
    salt = salt_water_activity(1000 * constituents.salt_g / masses["sodium_chloride"] / syrup.water_g)
    if salt is None:
        beyond = Withheld("there is more salt than 5 mol per kg of water, the limit of the salt table")
        return WaterActivities(beyond, beyond, beyond, beyond)
    water = syrup.water_g / masses["water"]
    milk, per_g = constituents.milk_solids_not_fat_g / 1000, constants("milk-salts")
    with_milk, least_milk = (salt * water / (water + milk * per_g[name]) for name in ("mmol", "mmol_low"))
    others = constituents.ethanol_g / masses["ethanol"] + milk * per_g["mmol_high"]
    with_all = salt * water / (water + others)
    middle, fewest, most = [norrish_and_money_born(*solution) for solution in syrup.solutions]
    tolerance = constants("norrish")["tolerance"]
    estimates = []
    for place, (model, spread) in enumerate(((NORRISH, tolerance), (MONEY_BORN, 0.0))):
        value = middle[place] * with_milk
        low = min(value, most[place] * with_all) - spread
        high = min(1.0, max(value, fewest[place] * least_milk) + spread)
        estimates.append(Estimate(value, low, high, model))
    norrish, money_born = estimates
    both = Estimate(norrish.value, min(norrish.low, money_born.low), max(norrish.high, money_born.high), BOTH)
    if syrup.sure is syrup.solutions[1] and not milk:
        return WaterActivities(norrish, money_born, both, both)
    highest = max(norrish_and_money_born(*syrup.sure)) * salt + tolerance
    sure = both._replace(high=min(1.0, max(both.high, highest)))
    return WaterActivities(norrish, money_born, both, sure)


@cache
def _salt() -> tuple[tuple[float, float], ...]:
    rows = load_rows(
        "salt_water_activity",
        lambda cells: (float(cells["molality_mol_kg"]), float(cells["water_activity"])),
        ("molality_mol_kg",),
    )
    return tuple([(molality, math.log(activity) / molality) for molality, activity in rows])
