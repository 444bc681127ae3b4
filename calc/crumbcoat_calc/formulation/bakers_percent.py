"""Baker's percentages: every ingredient per 100 of a declared base."""

from collections.abc import Mapping
from math import fsum

from crumbcoat_calc.errors import InputError


def masses_from_total_g(percents: Mapping[str, float], total_g: float) -> dict[str, float]:
    """Masses of a formula in baker's percentages for a total mass, in g.

        base = total / (sum of percents / 100);  each = base * percent / 100

    A flourless frosting needs a declared base ingredient, which stands at 100.

    Args:
        percents: of each ingredient, zero or more; one of them, the base, is 100.
        total_g: zero or more.

    Raises:
        InputError: if no ingredient stands at 100.

    Source:
        common-practice (bakers' percentages).

    >>> masses_from_total_g({"flour": 100, "water": 67, "salt": 2, "yeast": 1}, 28470)["salt"]
    334.94117647058823
    """
    if 100 not in percents.values():
        raise InputError("no ingredient stands at 100 %", "declare the base ingredient with 100 %")
    base_g = total_g / (fsum(percents.values()) / 100)
    return {name: base_g * percent / 100 for name, percent in percents.items()}


def bakers_percents(masses_g: Mapping[str, float], base: str) -> dict[str, float]:
    """Baker's percentages of weighed ingredients over a declared base.

    Raises:
        InputError: at `base`, if there is none of it.

    Source:
        common-practice (bakers' percentages).

    >>> bakers_percents({"flour": 40, "water": 23}, "flour")["water"]
    57.5
    """
    if masses_g.get(base, 0.0) <= 0:
        raise InputError(f"there is no {base!r} to count by", "name an ingredient that has a mass", ("base",))
    return {name: 100 * mass_g / masses_g[base] for name, mass_g in masses_g.items()}
