"""Rounding to what can be weighed or measured: parts that still add up to their total, and kitchen fractions."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.tables import load_rows, number_in
from crumbcoat_calc.values.exact import exact_decimal

Number = int | float | Fraction | Decimal

VULGAR = {
    Fraction(1, 2): "½", Fraction(1, 3): "⅓", Fraction(2, 3): "⅔", Fraction(1, 4): "¼", Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛", Fraction(3, 8): "⅜", Fraction(5, 8): "⅝", Fraction(7, 8): "⅞",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A kind of scale and its resolution."""

    key: str
    name: str
    step_g: Fraction


@cache
def scales() -> Mapping[str, Scale]:
    """The kinds of scale found in kitchens, by key: common practice, no source.

    >>> scales()["kitchen"].step_g
    Fraction(1, 1)
    """

    def row(cells: dict[str, str]) -> Scale:
        number_in(cells, "step_g", 0.001, 1000)
        return Scale(key=cells["key"], name=cells["name"], step_g=Fraction(cells["step_g"]))

    return {scale.key: scale for scale in load_rows("scales", row, ("key",))}


def exact_fraction(value: Number) -> Fraction:
    """The exact fraction of a number's decimal form, without the noise of float arithmetic: 0.15 is 3/20.

    >>> exact_fraction(0.15), exact_fraction(0.1 + 0.2)
    (Fraction(3, 20), Fraction(3, 10))
    """
    return Fraction(exact_decimal(value)) if isinstance(value, float) else Fraction(value)


def step_counts(parts: Sequence[float], step: float) -> list[int]:
    """Round parts to whole numbers of steps that add up to the rounded total.

    Each part is rounded down to whole steps. The steps then missing from the rounded total go, one each, to the parts
    that lost most (the largest remainder), the first among equals. So no part changes by a whole step or more. The
    total rounds half up. It uses floats, not fractions, because a page rounds a whole batch with every edit: within
    1e-9 steps of a half the result may differ from exact arithmetic.

    Args:
        parts: zero or more each.
        step: more than zero, in the same unit.

    Source:
        definition (method of the largest remainder).

    >>> step_counts([33.3, 33.3, 33.3], 1)
    [34, 33, 33]
    """
    in_steps = [part / step for part in parts]
    counts = [math.floor(number + 1e-9) for number in in_steps]
    missing = math.floor(fsum(in_steps) + 0.5 + 1e-9) - sum(counts)
    if missing > 0:
        lost = sorted(range(len(in_steps)), key=lambda place: (round(counts[place] - in_steps[place], 9), place))
        for place in lost[:missing]:
            counts[place] += 1
    return counts


def round_to_fraction(value: Number, parts: Iterable[int]) -> Fraction:
    """Round to a whole number plus one fraction with an allowed denominator; halves go up.

    The rounding error is at most half of the widest gap between two such fractions: 1/8 for halves, thirds and
    quarters, 1/16 for eighths.

    Args:
        value: zero or more.
        parts: the allowed denominators, such as 2, 3, 4 or 8.

    Raises:
        InputError: if the value is below zero.

    Source:
        definition.

    >>> round_to_fraction(1.7, (2, 3, 4)), round_to_fraction(0.125, (2, 3, 4))
    (Fraction(5, 3), Fraction(1, 4))
    """
    number = exact_fraction(value)
    if number < 0:
        raise InputError(f"{float(number):g} is negative", "use zero or more")
    whole = number.__floor__()
    rest = number - whole
    marks = {Fraction(top, part) for part in (1, *parts) for top in range(part + 1)}
    return whole + min(marks, key=lambda mark: (abs(mark - rest), -mark))


def fraction_text(value: Fraction) -> str:
    """A number with its fraction, as people write it in a kitchen.

    >>> fraction_text(Fraction(3, 2)), fraction_text(Fraction(2, 3)), fraction_text(Fraction(2))
    ('1½', '⅔', '2')
    """
    whole, rest = value.__floor__(), value - value.__floor__()
    if not rest:
        return str(whole)
    shown = VULGAR.get(rest)
    if shown:
        return f"{whole or ''}{shown}"
    return f"{whole} {rest}" if whole else str(rest)
