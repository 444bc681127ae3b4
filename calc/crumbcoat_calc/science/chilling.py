"""Cooling of a bowl, only from a pair of temperatures that the reader measured in it."""

import math

from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Answer, Estimate, Model, Withheld

COOLING = Model(
    "exponential cooling (Newton), its time constant fitted to one pair measured in this bowl",
    "the same bowl, amount and place; a stirred or thin batch: a thick one is warmer in the middle",
    "definition",
)


def time_constant_min(start_c: float, later_c: float, after_min: float, surroundings_c: float) -> Answer:
    """Time constant of a bowl in minutes, from two temperatures measured in it so many minutes apart.

        tau = t / ln((T0 - Ta) / (T - Ta))

    Args:
        start_c, later_c: measured, both on the same side of the surroundings, the later one nearer to them.
        after_min: above zero.
        surroundings_c: of the refrigerator or room.

    Source:
        definition (Newton's law of cooling).

    >>> round(time_constant_min(57, 21, 34.1, 4).value, 1)
    30.0
    """
    if after_min <= 0:
        return Withheld("the second reading must be taken later than the first")
    first, second = start_c - surroundings_c, later_c - surroundings_c
    if first == 0 or second / first <= 0 or second / first >= 1:
        return Withheld("the second reading must lie between the first and the temperature around the bowl")
    value = after_min / math.log(first / second)
    return Estimate(value, value, value, COOLING)


def chilling_min(start_c: float, target_c: float, surroundings_c: float, tau_min: float | None) -> Answer:
    """How long to chill a bowl, in minutes, by its own time constant; withheld without one.

        t = tau ln((T0 - Ta) / (T - Ta))

    Args:
        tau_min: from `time_constant_min`; None where nothing was measured.

    Source:
        definition (Newton's law of cooling).

    >>> round(chilling_min(57, 5, 4, 30).value, 1)
    119.1
    """
    if tau_min is None:
        minutes = constants("cooling")["chill_minutes"]
        return Withheld(
            "no time is told without two temperatures measured in this bowl; "
            f"common practice: about {minutes:g} min in the refrigerator, then whisk again"
        )
    if tau_min <= 0:
        return Withheld("a time constant is above zero")
    first, last = start_c - surroundings_c, target_c - surroundings_c
    if first == 0 or last / first <= 0:
        return Withheld(f"a bowl never reaches {target_c:g} °C where it is {surroundings_c:g} °C around it")
    if last / first >= 1:
        return Estimate(0.0, 0.0, 0.0, COOLING) if last == first else Withheld("the bowl moves away from that")
    value = tau_min * math.log(first / last)
    return Estimate(value, value, value, COOLING)
