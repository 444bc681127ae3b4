"""Linear programs on exact fractions."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Sense = Literal["<=", "=", ">="]


@dataclass(frozen=True, slots=True)
class Constraint:
    """The sum of coefficients times variables is at most, at least or equal to the right side."""

    coefficients: tuple[Fraction, ...]
    sense: Sense
    right_side: Fraction


@dataclass(frozen=True, slots=True)
class LinearProgram:
    """Minimise cost times x under the constraints, with low <= x <= high; low is zero or more, high may be None."""

    cost: tuple[Fraction, ...]
    constraints: tuple[Constraint, ...]
    low: tuple[Fraction, ...]
    high: tuple[Fraction | None, ...]


@dataclass(frozen=True, slots=True)
class Solution:
    """The best x and its cost, exact."""

    x: tuple[Fraction, ...]
    cost: Fraction


class UnboundedError(ArithmeticError):
    """The cost has no minimum: a bug in the program, not in a person's wishes."""


def as_fraction(number: float | Fraction) -> Fraction:
    """A number as it is written: 0.1 is one tenth, not the nearest binary fraction.

    >>> as_fraction(0.1)
    Fraction(1, 10)
    """
    return number if isinstance(number, Fraction) else Fraction(repr(float(number)))
