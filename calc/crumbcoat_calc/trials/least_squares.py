"""Least squares with one unknown, and the band that is left: small enough to need no library."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

CONFIDENCE = 0.95
"""The confidence of every band here (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Slope:
    """A slope through the origin, and its band; one reading alone gives none."""

    value: float
    band: tuple[float, float] | None


def slope_of(points: Sequence[tuple[float, float]]) -> Slope:
    """The straight line through the origin that is nearest to all points; with x = 1, the mean of y.

        b = sum x y / sum x2,  band = b ± t s / sqrt(sum x2),  s2 = sum (y - b x)2 / (n - 1)

    t is Student's for CONFIDENCE and n - 1 degrees of freedom: the band is what the scatter of the readings leaves.

    Args:
        points: x and y of each reading, at least one, with an x that is not zero.

    Source:
        definition (least squares).

    >>> slope_of([(1, 9), (1, 11), (1, 10)]).value, slope_of([(2, 10)])
    (10.0, Slope(value=5.0, band=None))
    """
    squares = fsum([x * x for x, _ in points])
    value = fsum([x * y for x, y in points]) / squares
    if len(points) < 2:
        return Slope(value, None)
    free = len(points) - 1
    variance = fsum([(y - value * x) ** 2 for x, y in points]) / free
    half = student_t(free) * math.sqrt(variance / squares)
    return Slope(value, (value - half, value + half))


def student_t(free: int) -> float:
    """Student's t that CONFIDENCE of all cases are within, for a whole number of degrees of freedom.

    Source:
        definition (closed form of the distribution for whole degrees of freedom).

    >>> round(student_t(2), 3), round(student_t(30), 3)
    (4.303, 2.042)
    """
    low, high = 0.0, math.pi / 2
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if _within(middle, free) < CONFIDENCE else (low, middle)
    return math.sqrt(free) * math.tan((low + high) / 2)


def _within(angle: float, free: int) -> float:
    """The share of cases within ±t, with tan(angle) = t / sqrt(free)."""
    sine, cosine = math.sin(angle), math.cos(angle)
    if free % 2:
        term, terms = cosine, [cosine] if free > 1 else []
        for n in range(3, free - 1, 2):
            term *= (n - 1) / n * cosine * cosine
            terms.append(term)
        return 2 / math.pi * (angle + sine * fsum(terms))
    term, terms = 1.0, [1.0]
    for n in range(2, free - 1, 2):
        term *= (n - 1) / n * cosine * cosine
        terms.append(term)
    return sine * fsum(terms)
