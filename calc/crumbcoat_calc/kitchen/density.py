"""The density of a frosting, measured by weighing a level cup of it."""

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import written_unit
from crumbcoat_calc.values.units import factor

CUPS = ("us_cup", "metric_cup", "decilitre", "litre")
"""The measures that can be filled and weighed, by their names in units.txt."""


def density_of_measure(weighs_g: float, measure: str) -> float:
    """The density in g/mL of a level measure, weighed without the measure: mass / volume.

    Args:
        weighs_g: more than zero.
        measure: one of CUPS.

    Raises:
        InputError: if the result is outside 0.1 to 2 g/mL.

    Source:
        definition; nist-hb44 (US cup).

    >>> round(density_of_measure(213, "us_cup"), 3)
    0.9
    """
    result = weighs_g / factor(measure, "millilitre")
    if not 0.1 <= result <= 2:
        raise InputError(
            f"a {written_unit(measure)} that weighs {weighs_g:g} g means {result:.3g} g/mL, "
            "not a possible density for a frosting",
            "fill the measure level, and subtract its own weight",
        )
    return result
