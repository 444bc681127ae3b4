"""How a body warms or cools through and through: plates, blocks and balls in air, by series of the heat equation."""

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import NamedTuple

from crumbcoat_calc.science.estimate import increasing_root

TERMS = 6
"""Terms of the series: enough from a few minutes on."""


class Term(NamedTuple):
    """A term of the series: the root z of the equation of the surface, and its coefficient C."""

    z: float
    c: float


class Axis(NamedTuple):
    """One direction of a body: its terms, each with its coefficient at one place, and diffusivity by L2 in 1/s."""

    terms: tuple[Term, ...]
    per_s: float


@lru_cache(maxsize=64)
def plate_terms(biot: float) -> tuple[Term, ...]:
    """The terms of a plate of half-thickness L in air on both sides, or of thickness L on an insulating board.

        z tan z = Bi;  C = 4 sin z / (2 z + sin 2 z)

    Args:
        biot: h L / k, above zero.

    Source:
        derivation (heat equation, heat given off in proportion to the difference of temperature).

    >>> [round(figure, 4) for figure in plate_terms(1.0)[0]]
    [0.8603, 1.1191]
    """
    found = []
    for n in range(TERMS):
        z = _root(n, lambda z: z * math.sin(z) - biot * math.cos(z), (n + 0.5) * math.pi)
        found.append(Term(z, 4 * math.sin(z) / (2 * z + math.sin(2 * z))))
    return tuple(found)


@lru_cache(maxsize=64)
def ball_terms(biot: float) -> tuple[Term, ...]:
    """The terms of the mean temperature of a ball of radius r, or of half a ball on an insulating board.

        1 - z cot z = Bi;  C = 12 (sin z - z cos z)2 / (z3 (2 z - sin 2 z))

    Args:
        biot: h r / k, above zero.

    Source:
        derivation (heat equation, heat given off in proportion to the difference of temperature).
    """
    found = []
    for n in range(TERMS):
        z = _root(n, lambda z: (1 - biot) * math.sin(z) - z * math.cos(z), (n + 1) * math.pi)
        bend = math.sin(z) - z * math.cos(z)
        found.append(Term(z, 12 * bend * bend / (z**3 * (2 * z - math.sin(2 * z)))))
    return tuple(found)


def at_place(terms: Sequence[Term], place: float) -> tuple[Term, ...]:
    """The terms of a plate at x / L: 0 in the middle or on the board, 1 at the surface."""
    return tuple([Term(z, c * math.cos(z * place)) for z, c in terms])


def left_over(axes: Sequence[Axis], time_s: float) -> float:
    """Share of the first difference of temperature that is left after a time: of each direction, multiplied.

    theta = product of sum of C exp(-z2 a t / L2)
    """
    share = 1.0
    for terms, per_s in axes:
        share *= math.fsum([c * math.exp(-z * z * per_s * time_s) for z, c in terms])
    return share


def time_until_s(axes: Sequence[Axis], share: float) -> float:
    """The time after which this share of the first difference of temperature is left, in s.

    Args:
        share: above 0; from 1 on, no time has passed.
    """
    if share >= 1:
        return 0.0
    longest_s = 60.0
    while left_over(axes, longest_s) > share:
        longest_s *= 2
    return increasing_root(lambda time_s: share - left_over(axes, time_s), 0.0, longest_s) or 0.0


def _root(n: int, function: Callable[[float], float], high: float) -> float:
    """The root number n of a function that changes its sign once from n pi to `high`, upwards if n is even."""
    sign = -1.0 if n % 2 else 1.0
    return increasing_root(lambda z: sign * function(z), n * math.pi + 1e-6, high) or 0.0
