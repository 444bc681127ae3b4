"""Sugars in water: how much dissolves, and how dense and thick the syrup is."""

from functools import cache, lru_cache
from itertools import pairwise

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.estimate import Answer, Estimate, Model, Withheld, outside
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
DENSITY = Model(
    "density of sucrose syrup (Bubnik and others)", "0 to 84 % sucrose, 0 to 100 °C; ±0.8 kg/m³", "bubnik-1995"
)
VISCOSITY = Model(
    "viscosity of sucrose syrup (Genotelle)",
    "0 to 70 % sucrose, 0 to 40 °C; ±6 % from 20 °C, ±15 % below",
    "genotelle-1978",
)


Points = tuple[tuple[float, float], ...]


def saturated_percent(t_c: float) -> float:
    """Sucrose in a saturated syrup, g per 100 g of syrup, without a check of the range.

        S = 64.447 + 0.08222 t + 1.6169e-3 t2 - 1.558e-6 t3 - 4.63e-8 t4

    Args:
        t_c: 0 to 100 °C; the caller sees to it.

    Source:
        vavrinecz-1962.

    >>> round(saturated_percent(20), 3)
    66.718
    """
    a0, a1, a2, a3, a4 = _vavrinecz()
    return a0 + t_c * (a1 + t_c * (a2 + t_c * (a3 + t_c * a4)))


def sucrose_saturation_percent(t_c: float) -> Answer:
    """Sucrose in a saturated syrup, g per 100 g of syrup; 0 to 100 °C, with the spread between published tables.

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
    """How far published saturation tables differ, g per 100 g of syrup, either way."""
    return constants("sucrose-saturation")["tolerance"]


def grams_per_gram_water(percent: float) -> float:
    """Solute per g of water in a solution of so many g per 100 g of solution; less than 100.

    >>> round(grams_per_gram_water(66.718), 4)
    2.0046
    """
    return percent / (100 - percent)


@lru_cache(maxsize=64)
def lactose_solubility_g_per_100g_water(t_c: float) -> Answer:
    """Lactose that dissolves in water alone, final solubility; 0 to 89 °C. Other sugars lower it, by no known model.

    Source:
        hudson-lowe, straight lines between its points; ±8 % covers the other values found.
    """
    return _between(_lactose(), t_c, LACTOSE, constants("lactose-solubility")["tolerance"])


@lru_cache(maxsize=64)
def dextrose_solubility_g_per_100g_water(t_c: float) -> Answer:
    """Dextrose that dissolves in water alone at equilibrium; 0 to 25 °C. A fresh monohydrate dissolves less at first.

    Source:
        jackson-silsbee-1922 at 25 °C; found-web at 0 °C; a straight line between.
    """
    return _between(_dextrose(), t_c, DEXTROSE, constants("dextrose-solubility")["tolerance"])


def water_density_g_per_ml(t_c: float) -> float:
    """Density of water in g/mL, 0 to 100 °C; the caller sees to the range.

        rho = (a0 + a1 t + a2 t2 + a3 t3 + a4 t4 + a5 t5) / (1 + b1 t)

    Source:
        bubnik-1995.

    >>> round(water_density_g_per_ml(20), 4)
    0.9982
    """
    a0, a1, a2, a3, a4, a5, b1 = _water()
    return (a0 + t_c * (a1 + t_c * (a2 + t_c * (a3 + t_c * (a4 + t_c * a5))))) / (1 + b1 * t_c) / 1000


def syrup_density_g_per_ml(sucrose_percent: float, t_c: float) -> Answer:
    """Density of a sucrose syrup, 0 to 84 g per 100 g, 0 to 100 °C.

        rho = rho_water + sum over i, j of c(i, j) w^i ((t - 20) / 100)^j,  w = sucrose / 100

    Source:
        bubnik-1995; ±0.82 kg/m3 against crc-97 at 20 °C.

    >>> round(syrup_density_g_per_ml(67, 20).value, 5)
    1.32881
    """
    reason = _too_strong(sucrose_percent, "bubnik-density") or too_hot_or_cold(t_c, "bubnik-density")
    if reason:
        return reason
    density = unchecked_density_g_per_ml(sucrose_percent, t_c)
    tolerance = constants("bubnik-water")["tolerance"] / 1000
    return Estimate(density, density - tolerance, density + tolerance, DENSITY)


def unchecked_density_g_per_ml(sucrose_percent: float, t_c: float) -> float:
    """The same without a check of the range; the caller sees to it."""
    rho, c1, c2, c3, c4, c5, c6 = _bubnik_at(t_c)
    w = sucrose_percent / 100
    return rho + w * (c1 + w * (c2 + w * (c3 + w * (c4 + w * (c5 + w * c6)))))


def syrup_viscosity_mpa_s(sucrose_percent: float, t_c: float) -> Answer:
    """Viscosity of a sucrose syrup in mPa s, 0 to 70 g per 100 g, 0 to 40 °C.

        x = S / (1900 - 18 S);  phi = (30 - t) / (91 + t)
        log10 mu = 22.46 x - 0.114 + phi (1.1 + 43.1 x^1.25)

    Source:
        genotelle-1978; ±6 % from 20 °C and ±15 % below, against handbook tables (crc-97).

    >>> round(syrup_viscosity_mpa_s(60, 20).value, 2)
    59.74
    """
    reason = _too_strong(sucrose_percent, "genotelle-viscosity") or too_hot_or_cold(t_c, "genotelle-viscosity")
    if reason:
        return reason
    c = constants("genotelle-viscosity")
    x = sucrose_percent / (c["molar"] - c["molar_slope"] * sucrose_percent)
    phi = (c["t_reference"] - t_c) / (c["t_high"] + t_c)
    viscosity: float = 10 ** (c["a"] * x + c["b"] + phi * (c["c"] + c["d"] * x ** c["exponent"]))
    tolerance = c["tolerance_warm"] if t_c >= c["warm_from_t"] else c["tolerance_cold"]
    return Estimate(viscosity, viscosity * (1 - tolerance), viscosity * (1 + tolerance), VISCOSITY)


def _too_strong(sucrose_percent: float, model: str) -> Withheld | None:
    return outside("the syrup", sucrose_percent, 0, constants(model)["highest_percent"], "% sucrose")


@lru_cache(maxsize=64)
def _bubnik_at(t_c: float) -> tuple[float, ...]:
    """Density of water in g/mL and the coefficients of w, w2 … w6, at one temperature."""
    t = (t_c - 20) / 100
    factors = []
    for row in _bubnik():
        factor = 0.0
        for c in reversed(row):
            factor = factor * t + c
        factors.append(factor / 1000)
    return water_density_g_per_ml(t_c), *factors


def _between(points: Points, t_c: float, model: Model, tolerance: float) -> Answer:
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
def _water() -> tuple[float, ...]:
    c = constants("bubnik-water")
    return tuple([c[name] for name in ("a0", "a1", "a2", "a3", "a4", "a5", "b1")])


@cache
def _bubnik() -> tuple[tuple[float, ...], ...]:
    c = constants("bubnik-density")
    return tuple(
        tuple([c[f"w{i}_t{j}" if j else f"w{i}"] for j in range(5) if (f"w{i}_t{j}" if j else f"w{i}") in c])
        for i in range(1, 7)
    )


@cache
def _lactose() -> Points:
    return load_rows("lactose_solubility", _point, ("t_c",))


@cache
def _dextrose() -> Points:
    return load_rows("dextrose_solubility", _point, ("t_c",))


def _point(cells: dict[str, str]) -> tuple[float, float]:
    return float(cells["t_c"]), float(cells["g_per_100g_water"])
