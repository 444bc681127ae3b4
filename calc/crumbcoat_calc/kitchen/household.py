"""A mass as household measures of that very ingredient: named cups and spoons, and pieces."""

import bisect
import math
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import AS_IT_COMES, Food, grams_of
from crumbcoat_calc.kitchen.eggs import egg_sizes
from crumbcoat_calc.kitchen.rounding import exact_fraction, fraction_text, round_to_fraction
from crumbcoat_calc.values.fields import did_you_mean
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


def _with_neighbours(*marks: int) -> tuple[int, ...]:
    return tuple([whole + mark for whole in (-_WHOLE, 0, _WHOLE) for mark in marks])


_WHOLES, _HALVES, _QUARTERS = _with_neighbours(0), _with_neighbours(0, 12), _with_neighbours(0, 6, 12, 18)
_CUP_MARKS = _with_neighbours(0, 6, 8, 12, 16, 18)
"""The marks of a measure, of the one before and of the one after it, in 24ths, which hold halves, thirds, quarters and
eighths: a page asks for many at once."""
_SMALLEST_TSP = 0.1
_FINEST = 1e12
"""Errors are compared in such parts of the mass, so that no noise of float arithmetic decides between equals."""


@lru_cache(maxsize=1024)
def _ways(food: Food) -> tuple[str, ...]:
    found = sorted({measure.how for measure in food.measures if is_volume(measure.unit)})
    return tuple(sorted(found, key=lambda how: how != AS_IT_COMES))


def in_cups_and_spoons(
    food: Food, mass_g: float, system: str, how: str = AS_IT_COMES, within: float = 0.03
) -> str | None:
    """A mass as cups and spoons, by the food's own weight of them: the fewest measures that come near enough.

    Cups come in halves, thirds and quarters, tablespoons in halves, teaspoons in quarters, and there is an eighth of a
    teaspoon. A cup may have spoons added, fewer than make a quarter of it, and a tablespoon teaspoons. Of those
    `within` that share of the mass the one with the fewest measures is taken, else the nearest. Where the food has no
    weight for a measure of the system, its largest measure serves by the ratio of the volumes (see `grams_of`).

    Args:
        mass_g: zero or more.
        system: one of SYSTEMS.
        how: the state in which the food is measured, such as `sifted`.
        within: the error that is near enough, as a share of the mass.

    Returns:
        None if no weight of a cup or spoon of this food in this state is known, or if the mass is less than can be
        measured with an eighth of a teaspoon.

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
            f"there is no system of measures {system!r}",
            did_you_mean(system, SYSTEMS, f"use {', '.join(SYSTEMS)}"),
            ("system",),
        )
    if how not in _ways(food):
        return None
    return _household(food, mass_g, system, how, within)


@lru_cache(maxsize=256)
def _household(food: Food, mass_g: float, system: str, how: str, within: float) -> str | None:
    """Kept for as many as a page shows: an edit of one amount leaves the others as they are."""
    cup_g, tablespoon_g, teaspoon_g = _weights(food, system, how)
    if mass_g < teaspoon_g * _SMALLEST_TSP:
        return None
    best: tuple[float, ...] = (math.inf,)
    numbers = (0, 0, 0)
    for choices in (_single, _double):
        for cups, tablespoons, teaspoons in choices(mass_g, cup_g, tablespoon_g, teaspoon_g):
            grams = (cups * cup_g + tablespoons * tablespoon_g + teaspoons * teaspoon_g) / _WHOLE
            measures = 1 if choices is _single else 2
            off = int(abs(grams - mass_g) / mass_g * _FINEST + 0.5)
            rank = (0, measures, off, measures) if off <= within * _FINEST else (1, off, off, measures)
            key = (*rank, -cups, -tablespoons, teaspoons)
            if key < best:
                best, numbers = key, (cups, tablespoons, teaspoons)
        if best[0] == 0:
            break  # one measure near enough is better than any two
    shown = [_measure_text(number, unit) for number, unit in zip(numbers, SYSTEMS[system], strict=True) if number]
    measures_text = " + ".join(shown)
    return measures_text if how == AS_IT_COMES else f"{measures_text}, {how}"


@lru_cache(maxsize=1024)
def _weights(food: Food, system: str, how: str) -> tuple[float, float, float]:
    """What the cup, the tablespoon and the teaspoon of a system hold of a food, in g."""
    cup, tablespoon, teaspoon = SYSTEMS[system]
    return grams_of(food, 1, cup, how), grams_of(food, 1, tablespoon, how), grams_of(food, 1, teaspoon, how)


def _single(mass: float, cup: float, tablespoon: float, teaspoon: float) -> Iterator[tuple[int, int, int]]:
    """Cups, tablespoons or teaspoons alone, counted in parts of `_WHOLE`, that come near the mass; none empty."""
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
    """The same for cups with spoons, and for tablespoons with teaspoons."""
    for cups in _marks_near(mass / cup, _CUP_MARKS, above=0):
        if cups:
            rest = mass - cups * cup / _WHOLE
            for spoons in _marks_near(rest / tablespoon, _WHOLES):
                if 0 < spoons * tablespoon < _WHOLE * cup * 9 / 40:
                    yield cups, spoons, 0
            for spoons in _marks_near(rest / teaspoon, _HALVES):
                if 0 < spoons < 3 * _WHOLE:
                    yield cups, 0, spoons
    if mass <= 9 * tablespoon:
        for whole in _marks_near(mass / tablespoon, _WHOLES, above=0):
            if 0 < whole <= 7 * _WHOLE:
                for spoons in _marks_near((mass - whole * tablespoon / _WHOLE) / teaspoon, _QUARTERS):
                    if 0 < spoons * teaspoon < _WHOLE * tablespoon:
                        yield 0, whole, spoons


def _marks_near(value: float, marks: tuple[int, ...], above: int = 1) -> list[int]:
    """The marks of a measure next to a value, in parts of `_WHOLE`: two at or below, one above; none below zero.

    Two below, for the next one may be more than there is a spoon for.
    """
    if value < 0:
        return []
    base = int(value) * _WHOLE
    first_above = bisect.bisect_right(marks, value * _WHOLE - base)
    return [base + mark for mark in marks[max(0, first_above - 2) : first_above + above] if base + mark >= 0]


def in_pieces(food: Food, mass_g: float, unit: str, parts: tuple[int, ...] = (2, 4)) -> str | None:
    """A mass as pieces of the food, such as sticks of butter, to the nearest of the given fractions.

    Returns:
        None if the food is not weighed by this piece, or if there is less than half of the smallest part.

    Source:
        usda-sr28 (household weights).

    >>> from crumbcoat_calc.foods.table import food
    >>> in_pieces(food("butter_unsalted"), 170, "stick")
    '1½ sticks'
    """
    if not any(measure.unit == unit and measure.how == AS_IT_COMES for measure in food.measures):
        return None
    each = exact_fraction(grams_of(food, 1, unit))
    number = round_to_fraction(exact_fraction(mass_g) / each, parts)
    if not number:
        return None
    word = egg_sizes()[unit].name if unit in egg_sizes() else f"{unit.replace('_', ' ')}{'s' if number > 1 else ''}"
    return f"{fraction_text(number)} {word}"


@lru_cache(maxsize=4096)
def _measure_text(number: int, unit: str) -> str:
    one, many = _SHORT[unit]
    exact = Fraction(number, _WHOLE)
    return f"{fraction_text(exact)} {many if exact > 1 else one}"
