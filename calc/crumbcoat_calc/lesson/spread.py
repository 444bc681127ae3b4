"""Mean and spread of what the groups of a class measured."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt


@dataclass(frozen=True, slots=True)
class Spread:
    """Of `count` numbers, one or more, in the unit they have: mean, lowest, highest, and the standard deviation."""

    count: int
    mean: float
    low: float
    high: float
    deviation: float | None


def spread_of(values: Sequence[float]) -> Spread | None:
    """The mean and the spread of some numbers; None without any.

    The standard deviation is that of a sample, None for a single number:

        s = sqrt(sum((x - mean)^2) / (n - 1))

    Source:
        definition.

    >>> spread_of([7.0, 8.0, 6.0])
    Spread(count=3, mean=7.0, low=6.0, high=8.0, deviation=1.0)
    """
    if not values:
        return None
    count = len(values)
    mean = fsum(values) / count
    squares = fsum([(value - mean) ** 2 for value in values])
    deviation = sqrt(squares / (count - 1)) if count > 1 else None
    return Spread(count, mean, min(values), max(values), deviation)
