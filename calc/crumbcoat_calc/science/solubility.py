"""How much sucrose, lactose and dextrose dissolves in water."""

from functools import cache, lru_cache
from itertools import pairwise

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, outside
from crumbcoat_calc.tables import load_rows

SATURATION = Model(
    "saturation curve of sucrose in water (Vavrinecz)",
    "0 to 100 °C; ±0.5 % between published tables",
    "vavrinecz-1962",
)
LACTOSE = Model(
    "solubility of lactose in water alone, straight lines between table points",
    "0 to 89 °C; ±8 % between published tables",
    "hudson-lowe",
)
DEXTROSE = Model(
    "solubility of dextrose in water alone, a straight line between two found points",
    "0 to 25 °C; ±10 %",
    "jackson-silsbee-1922",
)

Points = tuple[tuple[float, float], ...]
"""Temperature in °C, and g per 100 g of water, in rising order."""


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
def lactose_solubility_g_per_100g_water(t_c: float) -> Estimated:
    """Lactose that dissolves in water alone, at equilibrium; 0 to 89 °C. Other sugars lower it, by no known model.

    Source:
        hudson-lowe, straight lines between its points; ±8 % covers the other values that were found.
    """
    return _between(_lactose(), t_c, LACTOSE, constants("lactose-solubility")["tolerance"])


@lru_cache(maxsize=64)
def dextrose_solubility_g_per_100g_water(t_c: float) -> Estimated:
    """Dextrose that dissolves in water alone, at equilibrium; 0 to 25 °C. At first, fresh monohydrate dissolves less.

    Source:
        jackson-silsbee-1922 at 25 °C; found-web at 0 °C; a straight line between.
    """
    return _between(_dextrose(), t_c, DEXTROSE, constants("dextrose-solubility")["tolerance"])


def _between(points: Points, t_c: float, model: Model, tolerance: float) -> Estimated:
    reason = outside("the temperature", t_c, points[0][0], points[-1][0], "°C")
    if reason:
        return reason
    for (t_1, at_1), (t_2, at_2) in pairwise(points):
        if t_c <= t_2:
            value = at_1 + (at_2 - at_1) * (t_c - t_1) / (t_2 - t_1)
            return Estimate(value, value * (1 - tolerance), value * (1 + tolerance), model)
    raise AssertionError("the range was checked")


@cache
def _vavrinecz() -> tuple[float, float, float, float, float]:
    c = constants("vavrinecz-saturation")
    return c["a0"], c["a1"], c["a2"], c["a3"], c["a4"]


@cache
def _lactose() -> Points:
    return load_rows("lactose_solubility", _point, ("t_c",))


@cache
def _dextrose() -> Points:
    return load_rows("dextrose_solubility", _point, ("t_c",))


def _point(cells: dict[str, str]) -> tuple[float, float]:
    return float(cells["t_c"]), float(cells["g_per_100g_water"])
