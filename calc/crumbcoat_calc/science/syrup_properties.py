"""How dense and how thick a sucrose syrup is."""

from collections.abc import Callable
from functools import cache, lru_cache

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld, outside

DENSITY = Model(
    "density of sucrose syrup (Bubnik and others)", "0 to 84 % sucrose, 0 to 100 °C; ±0.8 kg/m³", "bubnik-1995"
)
VISCOSITY = Model(
    "viscosity of sucrose syrup (Genotelle)",
    "0 to 70 % sucrose, 0 to 60 °C; ±6 % from 20 °C, ±15 % below",
    "genotelle-1978",
)


def water_density_g_per_ml(t_c: float) -> float:
    """Density of water in g/mL, 0 to 100 °C; the range is not checked, the caller must.

        rho = (a0 + a1 t + a2 t2 + a3 t3 + a4 t4 + a5 t5) / (1 + b1 t)

    Source:
        bubnik-1995.

    >>> round(water_density_g_per_ml(20), 4)
    0.9982
    """
    a0, a1, a2, a3, a4, a5, b1 = _water()
    return (a0 + t_c * (a1 + t_c * (a2 + t_c * (a3 + t_c * (a4 + t_c * a5))))) / (1 + b1 * t_c) / 1000


def syrup_density_g_per_ml(sucrose_percent: float, t_c: float) -> Estimated:
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
    """The same without a check of the range; the caller must check it."""
    rho, c1, c2, c3, c4, c5, c6 = _bubnik_at(t_c)
    w = sucrose_percent / 100
    return rho + w * (c1 + w * (c2 + w * (c3 + w * (c4 + w * (c5 + w * c6)))))


def syrup_viscosity_mpa_s(sucrose_percent: float, t_c: float) -> Estimated:
    """Viscosity of a sucrose syrup in mPa s, 0 to 70 g per 100 g, 0 to 60 °C.

        x = S / (1900 - 18 S);  phi = (30 - t) / (91 + t)
        log10 mu = 22.46 x - 0.114 + phi (1.1 + 43.1 x^1.25)

    Source:
        genotelle-1978; ±6 % from 20 °C and ±15 % below, against handbook tables (crc-97) and, up to 60 °C, the
        measurements of bingham-jackson-1918.

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


def density_over_band(strength: Estimated, t_c: float) -> Estimated:
    """Density of a syrup in g/mL over the band of its strength, with all its sugars taken as sucrose."""
    return _over_band(syrup_density_g_per_ml, strength, t_c)


def viscosity_over_band(strength: Estimated, t_c: float) -> Estimated:
    """Viscosity of a syrup in mPa s over the band of its strength, with all its sugars taken as sucrose."""
    return _over_band(syrup_viscosity_mpa_s, strength, t_c)


def _over_band(of_strength: Callable[[float, float], Estimated], strength: Estimated, t_c: float) -> Estimated:
    if isinstance(strength, Withheld):
        return strength
    middle, low, high = [of_strength(percent, t_c) for percent in (strength.value, strength.low, strength.high)]
    if isinstance(middle, Withheld):
        return middle
    if isinstance(low, Withheld) or isinstance(high, Withheld):
        return Withheld("the band of the strength reaches beyond the model")
    return Estimate(middle.value, low.low, high.high, middle.model)


def _too_strong(sucrose_percent: float, model: str) -> Withheld | None:
    return outside("the syrup", sucrose_percent, 0, constants(model)["highest_percent"], "% sucrose")


@lru_cache(maxsize=64)
def _bubnik_at(t_c: float) -> tuple[float, ...]:
    """Density of water in g/mL and the coefficients of w, w2 … w6 at one temperature."""
    t = (t_c - 20) / 100
    factors = []
    for row in _bubnik():
        factor = 0.0
        for c in reversed(row):
            factor = factor * t + c
        factors.append(factor / 1000)
    return water_density_g_per_ml(t_c), *factors


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
