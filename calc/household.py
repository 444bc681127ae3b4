"""A mass as household measures of that very ingredient: named cups and spoons, pieces, pounds and ounces."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from calc.display import plain_number_text
from calc.errors import InputError
from calc.fields import did_you_mean
from calc.foods import AS_IT_COMES, Food, grams_of
from calc.rounding import as_written, fraction_text, to_fraction, to_step
from calc.units import factor, is_volume

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
_CUP_PARTS = (2, 3, 4)
_SMALLEST_TSP = Fraction(1, 10)


@dataclass(frozen=True, slots=True)
class Part:
    """So many of one measure; `text` is for people, such as `1½ US cups`."""

    number: Fraction
    unit: str
    text: str


@dataclass(frozen=True, slots=True)
class Household:
    """A mass in household measures: the parts, their text, what they weigh, and how much that is off the exact mass."""

    parts: tuple[Part, ...]
    text: str
    grams: float
    error_g: float

    @property
    def error_share(self) -> float:
        """How much too much, as a share of the exact mass; below zero where it is too little."""
        exact_g = self.grams - self.error_g
        return self.error_g / exact_g if exact_g else 0.0


def ways(food: Food) -> tuple[str, ...]:
    """The states in which a cup or spoon of the food has a weight, such as `sifted`; the plain one first.

    >>> from calc.foods import food
    >>> ways(food("sugar_powdered"))
    ('as it comes', 'sifted', 'unsifted')
    """
    found = sorted({measure.how for measure in food.measures if is_volume(measure.unit)})
    return tuple(sorted(found, key=lambda how: how != AS_IT_COMES))


def household(food: Food, mass_g: float, system: str, how: str = AS_IT_COMES, within: float = 0.03) -> Household | None:
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

    >>> from calc.foods import food
    >>> household(food("butter_unsalted"), 255, "us").text
    '1 US cup + 2 US tbsp'
    >>> household(food("butter_unsalted"), 255, "metric").text
    '1 metric cup + 1 metric tbsp'
    """
    if system not in SYSTEMS:
        raise InputError(
            f"there is no system of measures {system!r}",
            did_you_mean(system, SYSTEMS, f"use {', '.join(SYSTEMS)}"),
            ("system",),
        )
    if how not in ways(food):
        return None
    cup, tablespoon, teaspoon = (as_written(grams_of(food, 1, unit, how)) for unit in SYSTEMS[system])
    mass = as_written(mass_g)
    if mass < teaspoon * _SMALLEST_TSP:
        return None
    found = []
    for cups, tablespoons, teaspoons in _choices(mass, cup, tablespoon, teaspoon):
        grams = cups * cup + tablespoons * tablespoon + teaspoons * teaspoon
        measures = sum(1 for number in (cups, tablespoons, teaspoons) if number)
        off = abs(grams - mass) / mass
        near_enough = off <= as_written(within)
        found.append(((not near_enough, measures if near_enough else off, off, measures, -cups, -tablespoons), grams,
                      (cups, tablespoons, teaspoons)))  # fmt: skip
    _, grams, numbers = min(found)
    parts = tuple([_part(number, unit) for number, unit in zip(numbers, SYSTEMS[system], strict=True) if number])
    shown = " + ".join(part.text for part in parts) + ("" if how == AS_IT_COMES else f", {how}")
    return Household(parts, shown, float(grams), float(grams - mass))


def _choices(
    mass: Fraction, cup: Fraction, tablespoon: Fraction, teaspoon: Fraction
) -> Iterator[tuple[Fraction, Fraction, Fraction]]:
    """Cups, tablespoons and teaspoons that come near the mass, none of them empty."""
    none = Fraction(0)
    for cups in _marks_near(mass / cup, _CUP_PARTS):
        if cups:
            yield cups, none, none
            rest = mass - cups * cup
            for spoons in _marks_near(rest / tablespoon, ()):
                if 0 < spoons * tablespoon < cup * Fraction(9, 40):
                    yield cups, spoons, none
            for spoons in _marks_near(rest / teaspoon, (2,)):
                if 0 < spoons < 3:
                    yield cups, none, spoons
    for spoons in _marks_near(mass / tablespoon, (2,)):
        if 0 < spoons <= 4:
            yield none, spoons, none
    for whole in _marks_near(mass / tablespoon, ()):
        rest = mass - whole * tablespoon
        for spoons in _marks_near(rest / teaspoon, (4,)):
            if 0 < whole <= 7 and 0 < spoons * teaspoon < tablespoon:
                yield none, whole, spoons
    for spoons in (*_marks_near(mass / teaspoon, (4,)), Fraction(1, 8)):
        if 0 < spoons <= max(Fraction(3), tablespoon / teaspoon):
            yield none, none, spoons


def _marks_near(value: Fraction, parts: tuple[int, ...]) -> tuple[Fraction, ...]:
    """The marks of a measure next to a value: the two below it and the two above; none for a value below zero."""
    if value < 0:
        return ()
    whole = value.__floor__()
    marks = {Fraction(top, part) for part in (1, *parts) for top in range(part)}
    near = sorted({base + mark for base in (whole - 1, whole, whole + 1) for mark in marks if base + mark >= 0})
    below = [mark for mark in near if mark <= value]
    above = [mark for mark in near if mark > value]
    return tuple(below[-2:] + above[:2])


def pieces(food: Food, mass_g: float, unit: str, parts: tuple[int, ...] = (2, 4)) -> Household | None:
    """A mass as pieces of the food, such as sticks of butter, to the nearest of the given fractions.

    Returns:
        None if the food is not weighed by this piece, or if there is less than half of the smallest part.

    Source:
        usda-sr28 (household weights).

    >>> from calc.foods import food
    >>> pieces(food("butter_unsalted"), 170, "stick").text
    '1½ sticks'
    """
    if not any(measure.unit == unit and measure.how == AS_IT_COMES for measure in food.measures):
        return None
    each = as_written(grams_of(food, 1, unit))
    number = to_fraction(as_written(mass_g) / each, parts).value
    if not number:
        return None
    word = unit.replace("_", " ")
    part = Part(number, unit, f"{fraction_text(number)} {word}{'s' if number > 1 else ''}")
    return Household((part,), part.text, float(number * each), float(number * each - as_written(mass_g)))


def ounces(mass_g: float, step_oz: str = "0.05") -> Household:
    """A mass in ounces, and from one pound on in pounds and ounces, to the step of the scale.

    Args:
        mass_g: zero or more.
        step_oz: what the scale resolves, in oz.

    Source:
        nist-hb44 (ounce and pound, exact).

    >>> ounces(113.4).text, ounces(500).text
    ('4 oz', '1 lb 1.65 oz')
    """
    ounce = as_written(factor("ounce", "gram"))
    total = to_step(as_written(mass_g) / ounce, Fraction(step_oz))
    pounds, rest = divmod(total, 16)
    parts = []
    if pounds:
        parts.append(Part(Fraction(pounds), "pound", f"{pounds} lb"))
    if rest or not pounds:
        parts.append(Part(rest, "ounce", f"{plain_number_text(float(rest), 3)} oz"))
    grams = total * ounce
    return Household(
        tuple(parts), " ".join(part.text for part in parts), float(grams), float(grams - as_written(mass_g))
    )


def _part(number: Fraction, unit: str) -> Part:
    one, many = _SHORT[unit]
    return Part(number, unit, f"{fraction_text(number)} {many if number > 1 else one}")
