"""Round amounts to what can be weighed or measured: parts that still add up, kitchen fractions, and what it changes."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.tables import load_rows, number_in
from crumbcoat_calc.values.exact import exact

Number = int | float | Fraction | Decimal

KITCHEN_PARTS = (2, 3, 4)
"""The fractions that measuring cups come in: halves, thirds and quarters. Spoons are also found in eighths."""

VULGAR = {
    Fraction(1, 2): "½", Fraction(1, 3): "⅓", Fraction(2, 3): "⅔", Fraction(1, 4): "¼", Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛", Fraction(3, 8): "⅜", Fraction(5, 8): "⅝", Fraction(7, 8): "⅞",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A kind of scale by what it resolves."""

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


def as_written(value: Number) -> Fraction:
    """The number as it is written and not as it is stored, without the noise of float arithmetic: 0.15 is 3/20.

    >>> as_written(0.15), as_written(0.1 + 0.2)
    (Fraction(3, 20), Fraction(3, 10))
    """
    return Fraction(exact(value)) if isinstance(value, float) else Fraction(value)


def to_step(value: Number, step: Number) -> Fraction:
    """The nearest multiple of a step; halves go up.

        floor(value / step + 1/2) * step

    Args:
        value: zero or more.
        step: more than zero, in the same unit.

    Raises:
        InputError: if one is out of range.

    Source:
        definition.

    >>> float(to_step(0.15, 0.1)), float(to_step(47.5, 5)), float(to_step(2.675, 0.01))
    (0.2, 50.0, 2.68)
    """
    number, unit = as_written(value), as_written(step)
    _check(number, unit)
    return (number / unit + Fraction(1, 2)).__floor__() * unit


def worst_share(mass: Number, step: Number) -> float:
    """The largest share by which rounding to a step can change so much: half a step, of the amount; 1 at most.

    >>> worst_share(5, 1)
    0.1
    """
    number, unit = as_written(mass), as_written(step)
    _check(number, unit)
    return 1.0 if number <= unit / 2 else float(unit / 2 / number)


def parts_to_step(parts: Sequence[Number], step: Number) -> tuple[Fraction, ...]:
    """Parts of a whole, each a multiple of the step, that add up to the rounded whole.

    Each part is cut down to a multiple; what is then missing from the rounded sum is given, one step each, to those
    that lost most (the largest remainder), and among equals to the first. So no part moves by a whole step or more.

    Args:
        parts: zero or more each.
        step: more than zero, in the same unit.

    Raises:
        InputError: if one is out of range.

    Source:
        definition (method of the largest remainder); derivation.

    >>> [int(part) for part in parts_to_step([33.3, 33.3, 33.3], 1)]
    [34, 33, 33]
    """
    numbers, unit = [as_written(part) for part in parts], as_written(step)
    for number in numbers:
        _check(number, unit)
    whole = to_step(sum(numbers, Fraction(0)), unit)
    steps = [(number / unit).__floor__() for number in numbers]
    missing = int(whole / unit) - sum(steps)
    lost = sorted(range(len(numbers)), key=lambda place: (steps[place] - numbers[place] / unit, place))
    for place in lost[:missing]:
        steps[place] += 1
    return tuple([count * unit for count in steps])


def counts_of_steps(parts: Sequence[float], step: float) -> list[int]:
    """The same in floats, as numbers of steps: for pages that round a whole batch at every touch.

    It differs from `parts_to_step` at most where a part lies within 1e-9 steps of a half.

    Args:
        parts: zero or more each.
        step: more than zero, in the same unit.

    Source:
        definition (method of the largest remainder).

    >>> counts_of_steps([33.3, 33.3, 33.3], 1)
    [34, 33, 33]
    """
    exact = [part / step for part in parts]
    counts = [math.floor(number + 1e-9) for number in exact]
    missing = math.floor(fsum(exact) + 0.5 + 1e-9) - sum(counts)
    if missing > 0:
        lost = sorted(range(len(exact)), key=lambda place: (round(counts[place] - exact[place], 9), place))
        for place in lost[:missing]:
            counts[place] += 1
    return counts


@dataclass(frozen=True, slots=True)
class Rounded:
    """A number rounded, and how much it differs from the exact one, which is positive when it was rounded up."""

    value: Fraction
    error: Fraction


def to_fraction(value: Number, parts: Iterable[int] = KITCHEN_PARTS) -> Rounded:
    """The nearest number of wholes and one fraction of the given kinds; halves go up.

    The error is at most half of the widest gap between two such fractions: 1/8 for halves, thirds and quarters,
    1/16 for eighths.

    Args:
        value: zero or more.
        parts: the denominators allowed, such as 2, 3, 4 or 8.

    Raises:
        InputError: if the value is below zero.

    Source:
        definition.

    >>> to_fraction(1.7).value, to_fraction(0.125).value
    (Fraction(5, 3), Fraction(1, 4))
    """
    number = as_written(value)
    _check(number, Fraction(1))
    whole = number.__floor__()
    rest = number - whole
    marks = {Fraction(top, part) for part in (1, *parts) for top in range(part + 1)}
    best = min(marks, key=lambda mark: (abs(mark - rest), -mark))
    return Rounded(value=whole + best, error=best - rest)


def fraction_text(value: Fraction) -> str:
    """A number with its fraction as people write it in a kitchen.

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


@dataclass(frozen=True, slots=True)
class Effect:
    """A share of a mixture before and after rounding, in g per 100 g."""

    before: float
    after: float

    @property
    def points(self) -> float:
        """The difference in percentage points; positive when it rose."""
        return self.after - self.before

    def matters(self, from_points: float = 0.1) -> bool:
        """Whether the difference is so many percentage points or more."""
        return abs(self.points) >= from_points - 1e-9


def rounding_effect(
    before_g: Sequence[Number], after_g: Sequence[Number], contents_per_100g: Sequence[float | None]
) -> Effect | None:
    """What rounding the ingredients does to the share of a component, such as fat.

        share = 100 * sum(mass * content / 100) / sum(mass)

    Args:
        before_g, after_g: the same ingredients in the same order, zero or more, not all zero.
        contents_per_100g: the content of the component in each; None where it is not known.

    Returns:
        None if a content is not known, or if there is nothing before or after.

    Source:
        definition (mass balance).

    >>> rounding_effect([112.5, 225], [113, 225], [80, 0]).matters()
    False
    """
    shares = []
    for masses in (before_g, after_g):
        amounts = [
            (float(mass), content) for mass, content in zip(masses, contents_per_100g, strict=True) if float(mass) > 0
        ]
        whole = fsum([mass for mass, _ in amounts])
        known = [mass * content for mass, content in amounts if content is not None]
        if whole <= 0 or len(known) < len(amounts):
            return None
        shares.append(fsum(known) / whole)
    return Effect(before=shares[0], after=shares[1])


def _check(number: Fraction, step: Fraction) -> None:
    if number < 0:
        raise InputError(f"{float(number):g} is negative", "give zero or more")
    if step <= 0:
        raise InputError(f"a step of {float(step):g} rounds to nothing", "give more than zero", ("step",))
