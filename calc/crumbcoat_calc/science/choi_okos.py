"""Density and specific heat of a food's components, by their temperature."""

from dataclasses import dataclass
from functools import cache, lru_cache

from crumbcoat_calc.tables import load_rows

Polynomial = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class ComponentProperties:
    """The polynomials A + B t + C t2 of a component: density in kg/m3 and specific heat in kJ/(kg K), t in °C."""

    density: Polynomial
    specific_heat: Polynomial


@cache
def component_properties() -> dict[str, ComponentProperties]:
    """The properties of each component: ash, carbohydrate, fat, protein, water."""
    return dict(load_rows("choi_okos", _component_from, ("component",)))


@lru_cache(maxsize=256)
def density_g_per_ml(component: str, t_c: float) -> float:
    """Density of one component in g/mL.

        rho = A + B t + C t2

    Args:
        t_c: 0 to 150 °C; not checked, the caller must.

    Source:
        choi-okos-1986, restated in ASHRAE 2006, chapter 9.

    >>> round(density_g_per_ml("fat", 20), 6)
    0.917239
    """
    a, b, c = component_properties()[component].density
    return (a + t_c * (b + t_c * c)) / 1000


def _component_from(cells: dict[str, str]) -> tuple[str, ComponentProperties]:
    density = (float(cells["density_a"]), float(cells["density_b"]), float(cells["density_c"]))
    specific_heat = (float(cells["cp_a"]), float(cells["cp_b"]), float(cells["cp_c"]))
    return cells["component"], ComponentProperties(density=density, specific_heat=specific_heat)
