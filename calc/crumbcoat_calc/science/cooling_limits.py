"""How quickly cooked food has to cool, by the codes of a region, and which of their times a bowl would exceed."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.science.chilling import chilling_min
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.tables import UNKNOWN, load_rows, number_in


@dataclass(frozen=True, slots=True)
class CoolingLimit:
    """A time in minutes within which `who` wants food cooled, in °C; `to_c` is None where they name no temperature."""

    region: str
    from_c: float
    to_c: float | None
    minutes: float
    who: str


def cooling_limits(region: str) -> tuple[CoolingLimit, ...]:
    """The limits of a region, the first stretch first.

    Source:
        fda-food-code, fsa-sfbb, eu-852-2004, as cooling_limits.csv says.

    >>> [(limit.from_c, limit.to_c, limit.minutes) for limit in cooling_limits("US")]
    [(57.0, 21.0, 120.0), (57.0, 5.0, 360.0)]
    """
    return tuple(limit for limit in _all_limits() if limit.region == region)


def exceeded(
    limits: Sequence[CoolingLimit], surroundings_c: float, tau_min: float
) -> tuple[tuple[CoolingLimit, float | None], ...]:
    """Each limit that a bowl would exceed, with the minutes that it would take, None if it never got there.

    A limit without a temperature cannot be judged like that, and is never among them.

    Args:
        surroundings_c: the refrigerator, or what else is around the bowl.
        tau_min: from `chilling.time_constant_min`.

    Source:
        definition (Newton's law of cooling).

    >>> [(limit.to_c, round(minutes)) for limit, minutes in exceeded(cooling_limits("US"), 4, 95)]
    [(5.0, 377)]
    """
    found: list[tuple[CoolingLimit, float | None]] = []
    for limit in limits:
        if limit.to_c is None:
            continue
        needed = chilling_min(limit.from_c, limit.to_c, surroundings_c, tau_min)
        if isinstance(needed, Withheld):
            found.append((limit, None))
        elif needed.value > limit.minutes:
            found.append((limit, needed.value))
    return tuple(found)


@cache
def _all_limits() -> tuple[CoolingLimit, ...]:
    rows = load_rows("cooling_limits", _limit_from, ("region", "minutes"))
    return tuple(sorted(rows, key=lambda limit: (limit.region, limit.minutes)))


def _limit_from(cells: dict[str, str]) -> CoolingLimit:
    to_c = None if cells["to_c"] == UNKNOWN else number_in(cells, "to_c", 0, 30)
    return CoolingLimit(
        cells["region"], number_in(cells, "from_c", 50, 70), to_c, number_in(cells, "minutes", 30, 600), cells["who"]
    )
