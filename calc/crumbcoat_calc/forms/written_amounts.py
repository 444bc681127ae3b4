"""Amounts as readers type them and as pages show them: `250`, `1 lb 1.65 oz`, `1 US cup + 2 US tbsp, sifted`."""

from collections.abc import Callable
from functools import partial
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food, written_unit
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.values.display import mass_text
from crumbcoat_calc.values.fields import line, text
from crumbcoat_calc.values.units import (
    grams,
    is_volume,
    millilitres,
    number_and_words,
    pounds_and_ounces,
    unit_name,
    units_called,
)


def in_grams(written: object) -> float:
    """A mass from a form, in g; a number without a unit is in g.

    >>> in_grams("1.5 kg"), in_grams("750"), in_grams("½"), in_grams("1 lb 2 oz")
    (1500.0, 750.0, 0.5, 510.29141625)
    """
    shown = line(written)
    return grams(shown if number_and_words(shown)[1] else f"{shown} g")


def amount_in_form(kind: Food, written: str) -> float:
    """The mass in g of an amount of a food in a form: a mass, or measures of that food; zero is allowed.

    What follows a comma, such as `sifted`, holds for all the measures.

    Raises:
        InputError: if it is not an amount, or the food has no weight for a measure.

    >>> from crumbcoat_calc.foods.table import food
    >>> amount_in_form(food("butter_unsalted"), "1 US cup + 2 US tbsp")
    255.4
    """
    measures, comma, how = text(written).partition(",")
    parts = measures.split("+")
    if len(parts) > 1:
        return fsum([_part(kind, f"{part}{comma}{how}") for part in parts])
    if pounds_and_ounces(written):
        return in_grams(written)
    count, words = number_and_words(measures)
    if any(sign.isdigit() for sign in words):
        raise InputError(f"{written!r} is not one number with a unit", f"write it like {_example(kind)}")
    _refuse_shared_name(partial(_mass_text, kind), measures, words, comma + how)
    return amount_of(kind, written).mass_g if words and count else in_grams(written)


def batch_in_grams(density_g_per_ml: float | None, written: str) -> float:
    """The mass in g of an amount of a frosting: a mass, or a volume if its density is known.

    Raises:
        InputError: if it is not an amount, or a volume of a frosting whose density is not known.

    >>> batch_in_grams(0.5, "700"), batch_in_grams(0.5, "1 l")
    (700.0, 500.0)
    """
    measure = line(written)
    words = number_and_words(measure)[1]
    name = (units_called(words) or (words,))[0]
    if not words or not is_volume(unit_name(name) or ""):
        return in_grams(measure)
    if density_g_per_ml is None:
        problem = f"{words!r} is not a unit of mass, and the density of this frosting is not known"
        raise InputError(problem, "give a mass, such as `700 g`")

    def mass(volume: str) -> str:
        return mass_text(density_g_per_ml * millilitres(volume))

    _refuse_shared_name(mass, measure, words)
    return density_g_per_ml * millilitres(measure)


def _part(kind: Food, written: str) -> float:
    """One of several measures; what it could be instead is not instead of them all."""
    try:
        return amount_in_form(kind, written)
    except InputError as error:
        raise type(error)(error.problem, error.remedy, error.path) from None


def _example(kind: Food) -> str:
    """Amounts of the food, as an example.

    >>> from crumbcoat_calc.foods.table import food
    >>> _example(food("butter_unsalted"))
    '`250 g` or `1 US cup`'
    """
    measures = [measure.unit for measure in kind.measures if measure.unit in ("us_cup", "us_tablespoon")]
    return " or ".join(["`250 g`", *[f"`1 {written_unit(unit)}`" for unit in measures[:1]]])


def _mass_text(kind: Food, written: str) -> str:
    """The mass of an amount of a food; empty if that is not known."""
    try:
        return mass_text(amount_of(kind, written).mass_g)
    except InputError:
        return ""


def _refuse_shared_name(mass_of: Callable[[str], str], measures: str, words: str, how: str = "") -> None:
    """Refuse a measure that is not the same everywhere, such as a cup, with the mass of each that has this name."""
    choices = units_called(words)
    if not choices:
        return
    count = measures.strip().removesuffix(words).strip()
    instead = [(f"{count} {unit}", mass_of(f"{count} {unit}{how}")) for unit in choices]
    shown = [f"`{measure}` ({mass})" if mass else f"`{measure}`" for measure, mass in instead]
    listed = " or ".join([part for part in (", ".join(shown[:-1]), shown[-1]) if part])
    offered = tuple((f"{measure}{how}", mass) for measure, mass in instead if mass)
    raise InputError(f"{words!r} is not the same measure everywhere", f"write {listed}", choices=offered)
