"""A map of a mixture: two ingredients on the axes, and at each point fat, undissolved sugar and behaviour."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.constituents import constituents_of
from crumbcoat_calc.science.dissolving import Syrup, strength_percent, syrup_of
from crumbcoat_calc.science.emulsion import InnerPhase, inner_phase_by_amount
from crumbcoat_calc.science.ends import ends_of
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.fat_sorts import fats_of
from crumbcoat_calc.science.more_sugar import SugarEffect, sugar_effect
from crumbcoat_calc.science.volumes import fat_volume_percent, volumes_of


class Region(Enum):
    """What a mixture is like at a point of the map, by amount: advice only."""

    WATER_IN_FAT = "water in fat: like butter"
    THINS = "sugar still dissolves: more of it thins"
    UNSATURATED = "sugar still dissolves"
    NEARLY_SATURATED = "sugar may still dissolve or stay undissolved"
    STIFFENS = "sugar stays undissolved: more of it stiffens"
    UNKNOWN = "not known"


@dataclass(frozen=True, slots=True)
class MapPoint:
    """A point of the map; None for a figure that is withheld."""

    fat_percent: float | None
    undissolved_sugar_g: float | None
    fat_volume_percent: float | None
    region: Region


@dataclass(frozen=True, slots=True, kw_only=True)
class MixtureMap:
    """The map: `points[row][column]` at `row_g` of the ingredient of the rows and `column_g` of that of the columns."""

    column_g: tuple[float, ...]
    row_g: tuple[float, ...]
    points: tuple[tuple[MapPoint, ...], ...]


def map_mixture(
    others: Sequence[tuple[Food, float]],
    column: tuple[Food, Sequence[float]],
    row: tuple[Food, Sequence[float]],
    t_c: float,
    *,
    boiled_off_g: float = 0.0,
    emulsified: bool | None = None,
) -> MixtureMap:
    """A map of a mixture over the amounts of two of its ingredients, at one temperature.

    Args:
        others: the other ingredients with their mass in g.
        column, row: the ingredient of each axis, and the masses in g to map, zero or more.
        t_c: temperature in °C; outside a model's range the figures are None.
        emulsified: whether droplets of fat are known to hold it, or known not to; None if that is unknown.

    Source:
        that of `dissolving`, `volumes` and `more_sugar`, whose figures these are.

    >>> from crumbcoat_calc.foods.table import food
    >>> butter, sugar, milk = food("butter_unsalted"), food("sugar_granulated"), food("milk_whole")
    >>> mixture_map = map_mixture([(butter, 300)], (sugar, [100, 600]), (milk, [200]), 20)
    >>> [point.region.name for point in mixture_map.points[0]]
    ['UNSATURATED', 'STIFFENS']
    """
    (column_food, columns), (row_food, rows) = column, row
    return MixtureMap(
        column_g=tuple(columns),
        row_g=tuple(rows),
        points=tuple(
            [
                tuple(
                    [
                        map_point([*others, (column_food, x), (row_food, y)], t_c, boiled_off_g, emulsified)
                        for x in columns
                    ]
                )
                for y in rows
            ]
        ),
    )


def map_point(
    parts: Sequence[tuple[Food, float]], t_c: float, boiled_off_g: float = 0.0, emulsified: bool | None = None
) -> MapPoint:
    """A point of a map: the figures of one mixture; in the middle of the ends of what is not known, if they agree."""
    ends = ends_of([food for food, _ in parts])
    masses = [mass_g for _, mass_g in parts]
    points = [_point(list(zip(end, masses, strict=True)), t_c, boiled_off_g, emulsified) for end in ends]
    if len(points) == 1:
        return points[0]
    regions = {point.region for point in points}
    return MapPoint(
        _middle([point.fat_percent for point in points]),
        _middle([point.undissolved_sugar_g for point in points]),
        _middle([point.fat_volume_percent for point in points]),
        regions.pop() if len(regions) == 1 else Region.UNKNOWN,
    )


def _middle(ends: Sequence[float | None]) -> float | None:
    known = [end for end in ends if end is not None]
    return (min(known) + max(known)) / 2 if len(known) == len(ends) else None


def _point(parts: Sequence[tuple[Food, float]], t_c: float, boiled_off_g: float, emulsified: bool | None) -> MapPoint:
    constituents = constituents_of(parts, boiled_off_g)
    mass_g = fsum([mass for _, mass in parts]) - boiled_off_g
    syrup = syrup_of(constituents, t_c)
    strength = strength_percent(syrup) if isinstance(syrup, Syrup) else syrup
    phi = fat_volume_percent(volumes_of(constituents, fats_of(parts), syrup, strength, t_c))
    fat = None if constituents.unknown_of("fat") or mass_g <= 0 else 100 * constituents.fat_g / mass_g
    if isinstance(syrup, Withheld):
        return MapPoint(fat, None, phi.value if isinstance(phi, Estimate) else None, Region.UNKNOWN)
    return MapPoint(
        fat,
        syrup.undissolved_g[0],
        phi.value if isinstance(phi, Estimate) else None,
        _region(syrup, phi, emulsified),
    )


def _region(syrup: Syrup, phi: Estimate | Withheld, emulsified: bool | None) -> Region:
    if isinstance(phi, Estimate) and not emulsified and inner_phase_by_amount(phi.value / 100) is InnerPhase.WATER:
        return Region.WATER_IN_FAT
    if syrup.saturated is None:
        return Region.NEARLY_SATURATED
    effect = sugar_effect(syrup.saturated, phi, emulsified)
    if effect is SugarEffect.DISSOLVES_AND_THINS:
        return Region.THINS
    return Region.STIFFENS if effect is SugarEffect.STIFFENS else Region.UNSATURATED
