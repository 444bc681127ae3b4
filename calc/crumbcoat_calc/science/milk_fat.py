"""Milk fat: how much of it is solid, and the heat that melts it."""

from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model
from crumbcoat_calc.tables import load_rows

SOLID = Model(
    "solid share of milk fat: straight lines between published points, with a band for season, feed and cooling",
    "0 to 150 °C; liquid above 40 °C; milk fat only",
    "versteeg-2016",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Point:
    t_c: float
    typical: float
    low: float
    high: float


def solid_fat_percent(t_c: float) -> Estimated:
    """Solid fat in g per 100 g of milk fat, with its band; 0 to 150 °C, none above 40 °C.

    Straight lines between the points of milk_fat_solid.csv: published ranges at 5 and 20 °C; the typical curve is from
    memory.

    Source:
        versteeg-2016 (5 and 20 °C); techniques-f6320 (liquid above 40 °C); memory (the rest).

    >>> solid_fat_percent(20).low, solid_fat_percent(20).high
    (14.0, 29.6)
    """
    reason = too_hot_or_cold(t_c, "choi-okos")
    if reason:
        return reason
    typical, low, high = solid_percents(t_c)
    return Estimate(typical, low, high, SOLID)


def solid_percents(t_c: float) -> tuple[float, float, float]:
    """Solid fat in g per 100 g of milk fat: typical, low, high; from 0 °C, not checked, the caller must."""
    points = _points()
    if t_c >= points[-1].t_c:
        return 0.0, 0.0, 0.0
    step = points[1].t_c - points[0].t_c
    position = t_c / step
    at = int(position)
    share = position - at
    below, above = points[at], points[at + 1]
    return (
        below.typical + share * (above.typical - below.typical),
        below.low + share * (above.low - below.low),
        below.high + share * (above.high - below.high),
    )


def melting_heat_j_per_g() -> tuple[float, float, float]:
    """Heat that melts milk fat which is all solid, in J per g: typical, low, high.

    Source:
        memory (70 to 100 J/g); rahman-1998 found 80.8.
    """
    c = constants("milk-fat")
    return c["latent_heat"], c["latent_heat_low"], c["latent_heat_high"]


@cache
def _points() -> tuple[_Point, ...]:
    points = load_rows("milk_fat_solid", _point_from, ("t_c",))
    steps = {round(above.t_c - below.t_c, 9) for below, above in pairwise(points)}
    if len(steps) != 1 or points[0].t_c != 0:
        raise ValueError("milk_fat_solid.csv: the temperatures do not rise from 0 °C in equal steps")
    return points


def _point_from(cells: dict[str, str]) -> _Point:
    point = _Point(
        t_c=float(cells["t_c"]),
        typical=float(cells["typical_percent"]),
        low=float(cells["low_percent"]),
        high=float(cells["high_percent"]),
    )
    if not 0 <= point.low <= point.typical <= point.high <= 100:
        raise ValueError("the typical value is not between low and high")
    return point
