"""The volume of fats: liquid fat expands as it warms, and fat that crystallises contracts."""

from functools import lru_cache
from math import fsum

from crumbcoat_calc.science.choi_okos import density_g_per_ml
from crumbcoat_calc.science.fat_sorts import Fats
from crumbcoat_calc.science.solid_fat import Band, fat_constants, solid_percents


def fat_ml(fats: Fats, t_c: float) -> Band:
    """Volume of fats in mL: typical, low, high; 0 to 100 °C.

    Source:
        that of `specific_volume_ml_per_g`; assumption (volumes add up).

    >>> [round(10 / volume, 2) for volume in fat_ml((("milk", 10),), 20)]
    [0.92, 0.93, 0.91]
    """
    typical, low, high = [], [], []
    for fat, mass_g in fats:
        of_1g = specific_volume_ml_per_g(fat, t_c)
        typical.append(mass_g * of_1g[0])
        low.append(mass_g * of_1g[1])
        high.append(mass_g * of_1g[2])
    return fsum(typical), fsum(low), fsum(high)


@lru_cache(maxsize=256)
def specific_volume_ml_per_g(fat: str, t_c: float) -> Band:
    """Volume of 1 g of a fat in mL: typical, low, high; 0 to 100 °C.

        v = 1 / (rho_40 + choi_okos(t) - choi_okos(40)) - S dv

    S is its solid share and dv the volume that 1 g loses as it crystallises.

    Source:
        memory (milk fat; dv), found-web (liquid cocoa butter); choi-okos-1986 for the slope.
    """
    of_fat = fat_constants(fat)
    warmer = density_g_per_ml("fat", t_c) - density_g_per_ml("fat", 40)
    typical, low, high = solid_percents(fat, t_c)
    return (
        1 / (of_fat["liquid_density_40c"] + warmer) - of_fat["dilation"] * typical / 100,
        1 / (of_fat["liquid_density_40c_high"] + warmer) - of_fat["dilation_high"] * high / 100,
        1 / (of_fat["liquid_density_40c_low"] + warmer) - of_fat["dilation_low"] * low / 100,
    )
