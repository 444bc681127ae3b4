"""A mass in household measures of its ingredient: named cups and spoons, and pieces."""

import bisect
import math
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import AS_IT_COMES, Food, grams_of
from crumbcoat_calc.kitchen.eggs import egg_sizes
from crumbcoat_calc.kitchen.rounding import exact_fraction, fraction_text, round_to_fraction
from crumbcoat_calc.values.fields import nearest_of
from crumbcoat_calc.values.units import is_volume

SYSTEMS = {
    "us": ("us_cup", "us_tablespoon", "us_teaspoon"),
    "metric": ("metric_cup", "metric_tablespoon", "metric_teaspoon"),
    "australian": ("metric_cup", "au_tablespoon", "metric_teaspoon"),
}
"""The measuring cup and the spoons of each system, by their names in units.txt."""

_SHORT = {
    "us_cup": ("US cup", "US cups"),
    "us_tablespoon": ("US tbsp", "US tbsp"),
    "us_teaspoon": ("US tsp", "US tsp"),
    "metric_cup": ("metric cup", "metric cups"),
    "metric_tablespoon": ("metric tbsp", "metric tbsp"),
    "metric_teaspoon": ("metric tsp", "metric tsp"),
    "au_tablespoon": ("AU tbsp", "AU tbsp"),
}
_WHOLE = 24
"""Parts of a measure that are counted: 24ths express halves, thirds, quarters and eighths as whole numbers."""


def _with_neighbours(*marks: int) -> tuple[int, ...]:
    return tuple([measure + mark for measure in (-_WHOLE, 0, _WHOLE) for mark in marks])


_WHOLES, _HALVES, _QUARTERS = _with_neighbours(0), _with_neighbours(0, 12), _with_neighbours(0, 6, 12, 18)
_CUP_MARKS = _with_neighbours(0, 6, 8, 12, 16, 18)
"""The marks of a measure and of its neighbours below and above; computed once, since a page needs many."""
_SMALLEST_TSP = 0.1
_FINEST = 1e12
"""Errors are compared as multiples of mass / `_FINEST`, so that float noise does not decide between equals."""


@lru_cache(maxsize=1024)
def _ways(food: Food) -> tuple[str, ...]:
    found = sorted({measure.how for measure in food.measures if is_volume(measure.unit)})
    return tuple(sorted(found, key=lambda how: how != AS_IT_COMES))


def in_cups_and_spoons(
    food: Food, mass_g: float, system: str, how: str = AS_IT_COMES, within: float = 0.03
) -> str | None:
    """A mass as cups and spoons, by the food's own weights: the fewest measures that are accurate enough.

    Cups come in halves, thirds and quarters, tablespoons in halves, teaspoons in quarters, and there is an eighth of a
    teaspoon. Spoons, less than a quarter cup of them, can be added to cups, and teaspoons to tablespoons. Among the
    combinations `within` that share of the mass, the one with the fewest measures wins; if there is none, the closest
    does. If the food has no weight for a measure of the system, its largest measure is used, scaled by the ratio of
    the volumes (see `grams_of`).

    Args:
        mass_g: zero or more.
        system: one of SYSTEMS.
        how: the way the food is measured, such as `sifted`.
        within: the acceptable error, as a share of the mass.

    Returns:
        None if no cup or spoon of this food has a weight when measured this way, or if the mass is too small for an
        eighth of a teaspoon.

    Raises:
        InputError: at `system` if there is no such system.

    Source:
        usda-sr28 (household weights); definition (ratio of volumes).

    >>> from crumbcoat_calc.foods.table import food
    >>> in_cups_and_spoons(food("butter_unsalted"), 255, "us")
    '1 US cup + 2 US tbsp'
    >>> in_cups_and_spoons(food("butter_unsalted"), 255, "metric")
    '1 metric cup + 1 metric tbsp'
    """
    if system not in SYSTEMS:
        raise InputError(
            f"unknown system of measures {system!r}",
            nearest_of(system, SYSTEMS),
            ("system",),
        )
    return _household(food, mass_g, system, how, within)


@lru_cache(maxsize=256)
def _household(food: Food, mass_g: float, system: str, how: str, within: float) -> str | None:
    """Cached for as many amounts as a page shows: an edit of one amount does not change the others."""
    weights = _weights(food, system, how)
    if weights is None:
        return None
    cup_g, tablespoon_g, teaspoon_g = weights
    if mass_g < teaspoon_g * _SMALLEST_TSP:
        return None
    best: tuple[float, ...] = (math.inf,)
    most_off = within * _FINEST
    numbers = (0, 0, 0)
    for combinations in (_single, _double):
        for cups, tablespoons, teaspoons in combinations(mass_g, cup_g, tablespoon_g, teaspoon_g):
            grams = (cups * cup_g + tablespoons * tablespoon_g + teaspoons * teaspoon_g) / _WHOLE
            measures = 1 if combinations is _single else 2
            off = int(abs(grams - mass_g) / mass_g * _FINEST + 0.5)
            if off > most_off and (best[0] == 0 or (best[0] == 1 and off > best[1])):
                continue  # what is accurate, or at least closer, has been found
            rank = (0, measures, off, measures) if off <= most_off else (1, off, off, measures)
            key = (*rank, -cups, -tablespoons, teaspoons)
            if key < best:
                best, numbers = key, (cups, tablespoons, teaspoons)
        if best[0] == 0:
            break  # a single measure that is accurate enough beats any two
    shown = [_measure_text(number, unit) for number, unit in zip(numbers, SYSTEMS[system], strict=True) if number]
    measures_text = " + ".join(shown)
    return measures_text if how == AS_IT_COMES else f"{measures_text}, {how}"


@lru_cache(maxsize=1024)
def _weights(food: Food, system: str, how: str) -> tuple[float, float, float] | None:
    """The mass of a food in the cup, the tablespoon and the teaspoon of a system, in g; None if it is not known."""
    if how not in _ways(food):
        return None
    cup, tablespoon, teaspoon = SYSTEMS[system]
    return grams_of(food, 1, cup, how), grams_of(food, 1, tablespoon, how), grams_of(food, 1, teaspoon, how)


def _single(mass: float, cup: float, tablespoon: float, teaspoon: float) -> Iterator[tuple[int, int, int]]:
    """Cups, tablespoons or teaspoons alone that come close to the mass, in 24ths; none of them is empty."""
    for cups in _marks_near(mass / cup, _CUP_MARKS):
        if cups:
            yield cups, 0, 0
    if mass <= 4.5 * tablespoon:
        for spoons in _marks_near(mass / tablespoon, _HALVES):
            if 0 < spoons <= 4 * _WHOLE:
                yield 0, spoons, 0
    most = _WHOLE * max(3.0, tablespoon / teaspoon)
    if mass <= 8 * teaspoon:
        for spoons in (*_marks_near(mass / teaspoon, _QUARTERS), _WHOLE // 8):
            if 0 < spoons <= most:
                yield 0, 0, spoons


def _double(mass: float, cup: float, tablespoon: float, teaspoon: float) -> Iterator[tuple[int, int, int]]:
    """Cups with spoons, and tablespoons with teaspoons, that come close to the mass, in 24ths."""
    for cups in _marks_near(mass / cup, _CUP_MARKS, above=0):
        if cups:
            rest = mass - cups * cup / _WHOLE
            if rest < cup * 9 / 40 + 2 * tablespoon:
                for spoons in _marks_near(rest / tablespoon, _WHOLES):
                    if 0 < spoons * tablespoon < _WHOLE * cup * 9 / 40:
                        yield cups, spoons, 0
            if rest < 4 * teaspoon:
                for spoons in _marks_near(rest / teaspoon, _HALVES):
                    if 0 < spoons < 3 * _WHOLE:
                        yield cups, 0, spoons
    if mass <= 9 * tablespoon:
        for tablespoons in _marks_near(mass / tablespoon, _WHOLES, above=0):
            if 0 < tablespoons <= 7 * _WHOLE:
                for spoons in _marks_near((mass - tablespoons * tablespoon / _WHOLE) / teaspoon, _QUARTERS):
                    if 0 < spoons * teaspoon < _WHOLE * tablespoon:
                        yield 0, tablespoons, spoons


def _marks_near(value: float, marks: tuple[int, ...], above: int = 1) -> list[int]:
    """The marks of a measure closest to a value, in 24ths: two at or below it, one above it, none below zero.

    Two below, because the closest one may leave a rest that no spoon can measure.
    """
    if value < 0:
        return []
    base = int(value) * _WHOLE
    first_above = bisect.bisect_right(marks, value * _WHOLE - base)
    return [base + mark for mark in marks[max(0, first_above - 2) : first_above + above] if base + mark >= 0]


def in_pieces(food: Food, mass_g: float, unit: str, parts: tuple[int, ...] = (2, 4), within: float = 1.0) -> str | None:
    """A mass as pieces of the food, such as sticks of butter, rounded to the nearest allowed fraction.

    Returns:
        None if this piece of the food has no weight, if there is less than half of the smallest fraction, or if the
        error would be more than `within` of the mass.

    Source:
        usda-sr28 (household weights).

    >>> from crumbcoat_calc.foods.table import food
    >>> in_pieces(food("butter_unsalted"), 170, "stick")
    '1½ sticks'
    """
    if not _is_piece(food, unit):
        return None
    each = exact_fraction(grams_of(food, 1, unit))
    number = round_to_fraction(exact_fraction(mass_g) / each, parts)
    if not number or abs(float(number * each) - mass_g) > within * mass_g:
        return None
    word = egg_sizes()[unit].name if unit in egg_sizes() else f"{unit.replace('_', ' ')}{'s' if number > 1 else ''}"
    return f"{fraction_text(number)} {word}"


def _is_piece(food: Food, unit: str) -> bool:
    return (unit, AS_IT_COMES) in [(measure.unit, measure.how) for measure in food.measures]


@lru_cache(maxsize=4096)
def _measure_text(number: int, unit: str) -> str:
    singular, plural = _SHORT[unit]
    measures = Fraction(number, _WHOLE)
    return f"{fraction_text(measures)} {plural if measures > 1 else singular}"
