"""Water activity of a water phase, by two models that know nothing of each other."""

import math
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.constituents import Constituents
from crumbcoat_calc.science.dissolving import Syrup
from crumbcoat_calc.science.estimate import Answer, Estimate, Model, Withheld
from crumbcoat_calc.tables import load_rows

NORRISH = Model(
    "water activity by Norrish, several sugars by his own rule; salt by Ross' product",
    "0 to 40 °C; sugars up to saturation, salt up to 5 mol per kg of water, ethanol up to 5 g per 100 g of water",
    "norrish-1966",
)
MONEY_BORN = Model(
    "water activity by Money and Born, every sugar by its moles; salt by Ross' product",
    "0 to 40 °C; sugars up to saturation, salt up to 5 mol per kg of water, ethanol up to 5 g per 100 g of water",
    "money-born-1951",
)
BOTH = Model(
    "water activity: Norrish's value, with the spread to Money and Born's and what the contents leave open",
    "0 to 40 °C; dissolved sugars, salt and a little ethanol only; a prediction, never a measurement",
    "norrish-1966",
)


@dataclass(frozen=True, slots=True)
class Solute:
    """A sugar or polyol: molar mass in g/mol, and the square root of Norrish's K for natural logarithms."""

    molar_mass_g_mol: float
    root_k: float


@cache
def solutes() -> dict[str, Solute]:
    """The solutes of norrish_constants.csv by name."""
    return dict(
        load_rows(
            "norrish_constants",
            lambda cells: (
                cells["solute"],
                Solute(float(cells["molar_mass_g_mol"]), math.sqrt(float(cells["k"]))),
            ),
            ("solute",),
        )
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
        norrish-1966; K chirife-1982, baeza-2010; the rule for several is from memory. money-born-1951.

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

    Straight lines in ln aw / m between the points of salt_water_activity.csv; the first value holds below it.

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


def water_activities(made: Constituents, syrup: Syrup | Withheld, t_c: float) -> tuple[Answer, Answer, Answer]:
    """Water activity by both models and by Norrish with the spread, from what is dissolved only.

    Undissolved sucrose holds the sucrose at saturation, so more of it changes nothing. Why these two: Norrish has a
    constant for each sugar and is confirmed by freezing points to 0.0015 up to 42 %; Money and Born needs none and
    tends to 1 in water, where Grover's polynomial gives 1.04. Sodium counts as sodium chloride by Ross' product
    (each solute alone in all the water). Ethanol, at most 5 g per 100 g of water, counts as an ideal solute at the
    low end, and as gone at the high end. Proteins, starch and other minerals are left out; they would lower it.

    Source:
        norrish-1966, money-born-1951; ross-1975 (product); steiger-2008 (salt).
    """
    if isinstance(syrup, Withheld):
        return syrup, syrup, syrup
    reason = too_hot_or_cold(t_c, "water-activity")
    if reason:
        return reason, reason, reason
    masses = constants("molar-mass")
    salt = salt_water_activity(1000 * made.salt_g / masses["sodium_chloride"] / syrup.water_g)
    if salt is None:
        beyond = Withheld("there is more salt than 5 mol per kg of water, the end of the salt table")
        return beyond, beyond, beyond
    water = syrup.water_g / masses["water"]
    with_ethanol = salt * water / (water + made.ethanol_g / masses["ethanol"])
    fewest = norrish_and_money_born(syrup.water_g, _dissolved(made, syrup, 1, "maltose"))
    middle = norrish_and_money_born(syrup.water_g, _dissolved(made, syrup, 0, "maltose"))
    most = norrish_and_money_born(syrup.water_g, _dissolved(made, syrup, 2, "glucose"))
    tolerance = constants("norrish")["tolerance"]
    answers = []
    for place, (model, spread) in enumerate(((NORRISH, tolerance), (MONEY_BORN, 0.0))):
        value = middle[place] * salt
        low = min(value, most[place] * with_ethanol) - spread
        high = min(1.0, max(value, fewest[place] * salt) + spread)
        answers.append(Estimate(value, low, high, model))
    one, other = answers
    return one, other, Estimate(one.value, min(one.low, other.low), max(one.high, other.high), BOTH)


def _dissolved(made: Constituents, syrup: Syrup, end: int, not_told_apart: str) -> dict[str, float]:
    """The dissolved sugars at one end of the band: fewest (1), middle (0) or most (2)."""
    open_sugars = (
        (made.sugars_low_g + made.sugars_high_g) / 2,
        made.sugars_low_g,
        made.sugars_high_g,
    )[end]
    sugars = {
        "sucrose": syrup.sucrose_dissolved_g[end],
        "lactose": syrup.lactose_dissolved_g[end],
        "glucose": made.glucose_g,
        "fructose": made.fructose_g,
        "maltose": made.maltose_g,
    }
    sugars[not_told_apart] += open_sugars
    return {name: mass_g for name, mass_g in sugars.items() if mass_g}


@cache
def _salt() -> tuple[tuple[float, float], ...]:
    rows = load_rows(
        "salt_water_activity",
        lambda cells: (float(cells["molality_mol_kg"]), float(cells["water_activity"])),
        ("molality_mol_kg",),
    )
    return tuple([(molality, math.log(activity) / molality) for molality, activity in rows])
