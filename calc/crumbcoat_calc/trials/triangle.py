"""The sheet of a triangle test: orders and codes for each person, and how many right answers show a difference."""

from collections.abc import Sequence
from math import comb

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.trials.protocols import Protocol, numbers

ORDERS = ("AAB", "ABA", "BAA", "BBA", "BAB", "ABB")
"""All orders of three cups of two samples, one of them twice."""

PEOPLE = 24
LEVEL = 0.05


def least_right(people: int, level: float = LEVEL) -> int:
    """The fewest right answers that guessing alone reaches with a chance of `level` at most.

    The chance of x or more right ones of n is the sum over k from x to n of C(n, k) (1/3)^k (2/3)^(n - k).

    Raises:
        InputError: if even all answers right are likelier than that.

    Source:
        the binomial distribution with 1/3, exact.

    >>> least_right(12), least_right(24)
    (8, 13)
    """
    chance = 0.0
    for right in range(people, -1, -1):
        chance += comb(people, right) * 2 ** (people - right) / 3**people
        if chance > level:
            if right == people:
                raise InputError(f"{people} people are too few for a triangle test", "ask more people")
            return right + 1
    return 0


def triangle_sheet(codes: Sequence[str]) -> Protocol:
    """The sheet for 24 people: each order comes four times.

    Args:
        codes: four different ones; the first two are those of sample A, the others of sample B.
    """
    of_a, of_b = codes[:2], codes[2:4]
    rows = []
    for person, number in enumerate(numbers(PEOPLE)):
        order = ORDERS[person % len(ORDERS)]
        left = {"A": iter(of_a), "B": iter(of_b)}
        rows.append(f"{number}: {order}, {' '.join([next(left[sample]) for sample in order])}")
    needed = ", ".join([f"{least_right(people)} of {people}" for people in (12, 18, 24, 30, 36)])
    return Protocol(
        key="triangle",
        title="Triangle test: for the one who serves",
        question="Can people find a difference between two batches at all?",
        equipment=f"Three cups for each person, water, plain crackers. Codes: {of_a[0]} and {of_a[1]} are sample A, "
        f"{of_b[0]} and {of_b[1]} are sample B. A is trial ____, B is trial ____.",
        pieces="15 to 20 g in each cup: two cups of one batch, one cup of the other.",
        conditions="24 to 36 people. Samples at the same temperature; a dim or coloured light if they look different.",
        steps=(
            "Put the cups in a row in the order of the table, each with its code.",
            "Each person tastes from left to right, and writes down the code of the odd one. They have to choose one.",
            "Only afterwards, mark which answers are right.",
        ),
        measure=(
            f"A difference is shown at the 5 % level by {needed} right answers, or more (exact binomial, one in three "
            "by guessing). Fewer do not show that the two are the same.",
        ),
        stop="When everyone has chosen.",
        columns=("person: order, codes", "odd one", "right?"),
        rows=tuple(rows),
        entry="- {test: triangle, against: ___, people: ___, right: ___}",
        sources=("iso-4120",),
        eaten=True,
    )
