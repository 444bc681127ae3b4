"""A map of a mixture: two ingredients on the axes, and at each point its fat, undissolved sugar and behaviour."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.constituents import constituents_of
from crumbcoat_calc.science.dissolving import Syrup, strength_percent, syrup_of
from crumbcoat_calc.science.emulsion import Inside, inside_by_amount
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.state import MoreSugar, more_sugar
from crumbcoat_calc.science.volumes import fat_volume_percent, volumes_ml


class Region(Enum):
    """What a mixture is like at a point of the map, by amount: advice."""

    WATER_IN_FAT = "water in fat: like butter"
    THINS = "sugar still dissolves: more of it thins"
    UNSATURATED = "sugar still dissolves: what more of it does is not known"
    NEARLY_SATURATED = "sugar is about to stay undissolved"
    STIFFENS = "sugar stays undissolved: more of it stiffens"
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Point:
    """One point of the map; None where a figure is withheld."""

    fat_percent: float | None
    undissolved_sugar_g: float | None
    fat_volume_percent: float | None
    region: Region


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """The map: `points[row][column]` at so many g of the ingredient of the rows and of that of the columns."""

    column_g: tuple[float, ...]
    row_g: tuple[float, ...]
    points: tuple[tuple[Point, ...], ...]


def plane_of(
    others: Sequence[tuple[Food, float]],
    column: tuple[Food, Sequence[float]],
    row: tuple[Food, Sequence[float]],
    t_c: float,
    *,
    boiled_off_g: float = 0.0,
    emulsified: bool | None = None,
) -> Plane:
    """Map a mixture over the amounts of two of its ingredients, all at one temperature.

    Args:
        others: the other ingredients with their mass in g.
        column, row: the ingredient of each axis, and the masses in g to map, zero or more.
        t_c: temperature in °C; outside a model's range the figures are None.
        emulsified: whether the fat is known to be in droplets; None where it is not known.

    Source:
        see `dissolving`, `volumes` and `state`, whose figures these are.

    >>> from crumbcoat_calc.foods.table import food
    >>> butter, sugar, milk = food("butter_unsalted"), food("sugar_granulated"), food("milk_whole")
    >>> made = plane_of([(butter, 300)], (sugar, [100, 600]), (milk, [200]), 20)
    >>> [point.region.name for point in made.points[0]]
    ['THINS', 'STIFFENS']
    """
    (column_food, columns), (row_food, rows) = column, row
    return Plane(
        column_g=tuple(columns),
        row_g=tuple(rows),
        points=tuple(
            [
                tuple(
                    [
                        point_of([*others, (column_food, x), (row_food, y)], t_c, boiled_off_g, emulsified)
                        for x in columns
                    ]
                )
                for y in rows
            ]
        ),
    )


def point_of(
    parts: Sequence[tuple[Food, float]], t_c: float, boiled_off_g: float = 0.0, emulsified: bool | None = None
) -> Point:
    """One point of a map: the figures of one mixture."""
    made = constituents_of(parts, boiled_off_g)
    mass_g = fsum([mass for _, mass in parts]) - boiled_off_g
    syrup = syrup_of(made, t_c)
    strength = strength_percent(syrup) if isinstance(syrup, Syrup) else syrup
    phi = fat_volume_percent(volumes_ml(made, syrup, strength, t_c))
    fat = None if made.unknown_of("fat") or mass_g <= 0 else 100 * made.fat_g / mass_g
    if isinstance(syrup, Withheld):
        return Point(fat, None, phi.value if isinstance(phi, Estimate) else None, Region.UNKNOWN)
    return Point(
        fat,
        syrup.sucrose_undissolved_g[0] + syrup.lactose_undissolved_g,
        phi.value if isinstance(phi, Estimate) else None,
        _region(syrup, phi, emulsified),
    )


def _region(syrup: Syrup, phi: Estimate | Withheld, emulsified: bool | None) -> Region:
    if isinstance(phi, Estimate) and not emulsified and inside_by_amount(phi.value / 100) is Inside.WATER:
        return Region.WATER_IN_FAT
    if syrup.saturated is None:
        return Region.NEARLY_SATURATED
    does = more_sugar(syrup.saturated, phi, emulsified)
    if does is MoreSugar.DISSOLVES_AND_THINS:
        return Region.THINS
    return Region.STIFFENS if does is MoreSugar.STIFFENS else Region.UNSATURATED
