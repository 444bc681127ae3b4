"""How a bowl cools, from two temperatures that the reader measured in it."""

import math

from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld

COOLING = Model(
    "exponential cooling (Newton), with a time constant fitted to two temperatures measured in this bowl",
    "the same bowl, amount and place; a stirred or thin batch, since a thick one stays warmer in the middle",
    "definition",
)


def time_constant_min(start_c: float, later_c: float, after_min: float, surroundings_c: float) -> Estimated:
    """Time constant of a bowl in minutes, from two temperatures measured in it.

        tau = t / ln((T0 - Ta) / (T - Ta))

    Args:
        start_c, later_c: measured; both warmer or both colder than the surroundings, the later one nearer to them.
        after_min: time between the two readings, above zero.
        surroundings_c: temperature of the refrigerator or room.

    Source:
        definition (Newton's law of cooling).

    >>> round(time_constant_min(57, 21, 34.1, 4).value, 1)
    30.0
    """
    if after_min <= 0:
        return Withheld("the second reading must be taken later than the first")
    first, second = start_c - surroundings_c, later_c - surroundings_c
    if first == 0 or second / first <= 0 or second / first >= 1:
        return Withheld("the second reading must be between the first one and the temperature around the bowl")
    value = after_min / math.log(first / second)
    return Estimate(value, value, value, COOLING)


def chilling_min(start_c: float, target_c: float, surroundings_c: float, tau_min: float | None) -> Estimated:
    """How long to chill a bowl, in minutes, by its time constant; withheld without one.

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
            "a time needs two temperatures measured in this bowl; "
            f"common practice: about {minutes:g} min in the refrigerator, then whisk again"
        )
    if tau_min <= 0:
        return Withheld("a time constant must be above zero")
    first, last = start_c - surroundings_c, target_c - surroundings_c
    if first == 0 or last / first <= 0:
        return Withheld(f"a bowl in surroundings of {surroundings_c:g} °C never reaches {target_c:g} °C")
    if last / first >= 1:
        return (
            Estimate(0.0, 0.0, 0.0, COOLING)
            if last == first
            else Withheld("the bowl is moving away from that temperature")
        )
    value = tau_min * math.log(first / last)
    return Estimate(value, value, value, COOLING)
