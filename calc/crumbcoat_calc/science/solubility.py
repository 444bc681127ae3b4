"""How much of each sugar dissolves in water alone."""

import math
from functools import cache, lru_cache
from itertools import pairwise

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model
from crumbcoat_calc.tables import load_rows

SATURATION = Model(
    "saturation curve of sucrose in water (Vavrinecz)",
    "0 to 100 °C; ±0.5 % between published tables",
    "vavrinecz-1962",
)
LACTOSE = Model(
    "solubility of lactose in water (Hudson), straight lines in its logarithm between table points; beside other "
    "sugars by Norrish's rule, and up to half of the way back to that in water alone",
    "0 to 89 °C; ±8 % between published tables; how much other sugars lower it was not found measured",
    "hudson-lowe",
)

Band = tuple[float, float, float]
"""Value, low end and high end."""

Points = tuple[tuple[float, float, float], ...]
"""Temperature in °C, ln of g per g of water, and tolerance as a share, in rising order."""


def saturated_percent(t_c: float) -> float:
    """Sucrose in a saturated syrup, g per 100 g of syrup, without a check of the range.

        S = 64.447 + 0.08222 t + 1.6169e-3 t2 - 1.558e-6 t3 - 4.63e-8 t4

    Args:
        t_c: 0 to 100 °C; not checked, the caller must.

    Source:
        vavrinecz-1962.

    >>> round(saturated_percent(20), 3)
    66.718
    """
    a0, a1, a2, a3, a4 = _vavrinecz()
    return a0 + t_c * (a1 + t_c * (a2 + t_c * (a3 + t_c * a4)))


def sucrose_saturation_percent(t_c: float) -> Estimated:
    """Sucrose in a saturated syrup, g per 100 g of syrup; 0 to 100 °C, with the spread of published tables.

    Source:
        vavrinecz-1962; spread from mohos-2010.

    >>> sucrose_saturation_percent(120).reason
    'the temperature, 120 °C, is outside the model: 0 to 100 °C'
    """
    reason = too_hot_or_cold(t_c, "vavrinecz-saturation")
    if reason:
        return reason
    percent, spread = saturated_percent(t_c), saturation_spread_percent()
    return Estimate(percent, percent - spread, percent + spread, SATURATION)


def saturation_spread_percent() -> float:
    """How much published saturation tables differ, in g per 100 g of syrup, up or down."""
    return constants("sucrose-saturation")["tolerance"]


def grams_per_gram_water(percent: float) -> float:
    """Solute in g per g of water, in a solution of a strength in g per 100 g of solution, below 100.

    >>> round(grams_per_gram_water(66.718), 4)
    2.0046
    """
    return percent / (100 - percent)


@lru_cache(maxsize=64)
def solubility_g_per_g_water(sugar: str, t_c: float) -> Band:
    """How much of lactose, glucose, maltose or fructose dissolves in water alone, at equilibrium, with its band.

    Straight lines between table points in the logarithm. Beyond the last point, the low end and the value stay what
    they are there, and there is no high end; below the first one, which is near 0 °C, all stay.

    Args:
        t_c: 0 to 100 °C; not checked, the caller must.

    Source:
        hudson-lowe (lactose), gillis-lowe (maltose), jackson-silsbee-1922 and combs-bele-lowe (glucose); memory
        (glucose at 50 °C, fructose).

    >>> round(100 * solubility_g_per_g_water("lactose", 20)[0], 1)
    19.1
    """
    points = _points()[sugar]
    at, tolerance = points[-1][1:]
    for (t_1, ln_1, tolerance_1), (t_2, ln_2, tolerance_2) in pairwise(points):
        if t_c <= t_2:
            along = max(0.0, (t_c - t_1) / (t_2 - t_1))
            at, tolerance = ln_1 + along * (ln_2 - ln_1), tolerance_1 + along * (tolerance_2 - tolerance_1)
            break
    value = math.exp(at)
    return value, value * (1 - tolerance), math.inf if t_c > points[-1][0] else value * (1 + tolerance)


@cache
def _vavrinecz() -> tuple[float, float, float, float, float]:
    c = constants("vavrinecz-saturation")
    return c["a0"], c["a1"], c["a2"], c["a3"], c["a4"]


@cache
def _points() -> dict[str, Points]:
    rows = load_rows("sugar_solubility", lambda cells: (cells["sugar"], _point(cells)), ("sugar", "t_c"))
    return {sugar: tuple([point for of, point in rows if of == sugar]) for sugar, _ in rows}


def _point(cells: dict[str, str]) -> tuple[float, float, float]:
    return float(cells["t_c"]), math.log(float(cells["g_per_100g_water"]) / 100), float(cells["tolerance"])
