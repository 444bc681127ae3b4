"""The density of a frosting as a kitchen measures it: what a level cup of it weighs."""

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.units import factor

CUPS = ("us_cup", "metric_cup", "decilitre", "litre")
"""The measures that are filled and weighed, by their names in units.txt."""


def density_of_measure(weighs_g: float, measure: str) -> float:
    """Density in g/mL of what fills a measure level, weighed without the measure: mass / volume.

    Args:
        weighs_g: more than zero.
        measure: one of CUPS.

    Raises:
        InputError: if the result lies outside 0.1 to 2 g/mL.

    Source:
        definition; nist-hb44 (US cup).

    >>> round(density_of_measure(213, "us_cup"), 3)
    0.9
    """
    result = weighs_g / factor(measure, "millilitre")
    if not 0.1 <= result <= 2:
        raise InputError(
            f"a {measure.replace('us_', 'US ').replace('_', ' ')} of {weighs_g:g} g is {result:.3g} g/mL, which no "
            "frosting is",
            "fill it level, and weigh it without the measure",
        )
    return result
