"""How much of a sugar dissolves beside others: Norrish's model of water activity, read for the sugars themselves."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.tables import load_rows

MOLECULES_OF_WATER = {"glucose": 1, "lactose": 1, "maltose": 1}
"""Water in a crystal, molecules for each of the sugar; sucrose and fructose crystallise without."""

_STRONGEST = {"glucose": 2.0, "maltose": 2.0, "lactose": 5.0, "sucrose": 5.0, "fructose": 5.0}
"""Other sugars, in g per g of water, beyond which the model would have more of them raise the solubility again."""

_STEPS = 5
"""Newton's steps at most; the equation is nearly straight in the logarithm, so that two or three are enough."""


@dataclass(frozen=True, slots=True)
class Solute:
    """A sugar: molar mass in g/mol, and the square root of Norrish's K for natural logarithms."""

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


@cache
def crystal_water_g_per_g(sugar: str) -> float:
    """Water in the crystals of a sugar, in g per g of the sugar without it.

    >>> round(100 * (1 + crystal_water_g_per_g("lactose")), 2)
    105.26
    """
    return MOLECULES_OF_WATER.get(sugar, 0) * constants("molar-mass")["water"] / solutes()[sugar].molar_mass_g_mol


def soluble_beside(sugar: str, alone: float, others: Mapping[str, float]) -> float:
    """How much of a sugar dissolves beside other dissolved sugars, in g per g of water.

    Norrish's rule for several sugars is that of a regular solution, so by Gibbs and Duhem it gives the activity of
    each sugar too. With b = sqrt(K), and b = 0 for water:

        ln a = ln X - (b - sum over j of b_j X_j)^2

    Saturated, a (times the activity of water, for a crystal with water) is what it is where the sugar is alone.

    Args:
        alone: what dissolves in water alone, g per g of water, above zero.
        others: g per g of water, each by its name in norrish_constants.csv; more than `_STRONGEST` in all counts as
            that much.

    Source:
        norrish-1966; derivation (Gibbs and Duhem).

    >>> round(soluble_beside("sucrose", 2.0046, {}), 4), round(soluble_beside("sucrose", 2.0046, {"glucose": 0.5}), 3)
    (2.0046, 1.79)
    """
    table = solutes()
    water = 1 / constants("molar-mass")["water"]
    moles, weighted = water, 0.0
    for name, mass in others.items():
        solute = table[name]
        moles += mass / solute.molar_mass_g_mol
        weighted += solute.root_k * mass / solute.molar_mass_g_mol
    if moles == water:
        return alone
    strong = math.fsum(others.values())
    if strong > _STRONGEST[sugar]:
        moles = water + (moles - water) * _STRONGEST[sugar] / strong
        weighted *= _STRONGEST[sugar] / strong
    own, with_water = table[sugar], MOLECULES_OF_WATER.get(sugar, 0)
    root, molar = own.root_k, own.molar_mass_g_mol
    wanted, _ = _log_activity(root, with_water, alone / molar, water, 0.0, water)
    amount = alone / molar
    for _ in range(_STEPS):
        activity, slope = _log_activity(root, with_water, amount, moles, weighted, water)
        step = (wanted - activity) / slope
        amount *= math.exp(step)
        if abs(step) < 1e-5:  # The next one would be about its square.
            break
    return min(alone, amount * molar)


def _log_activity(
    root: float, with_water: int, amount: float, moles: float, weighted: float, water: float
) -> tuple[float, float]:
    """ln a of a sugar and how it rises with the logarithm of its amount; in mol, the others and water in `moles`."""
    total = moles + amount
    x, mean = amount / total, (weighted + root * amount) / total
    apart = root - mean
    activity, slope = math.log(x) - apart * apart, 1 - x + 2 * x * apart * apart
    if with_water:
        activity += with_water * (math.log(water / total) - mean * mean)
        slope -= with_water * x * (1 + 2 * mean * apart)
    return activity, slope
