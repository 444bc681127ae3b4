"""Amounts as readers type them and as pages show them: `250`, `1 lb 1.65 oz`, `1 US cup + 2 US tbsp, sifted`."""

import re
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.values.fields import line, text
from crumbcoat_calc.values.units import grams, number_and_words

_POUNDS = re.compile(r"([0-9./ ¼½¾⅓⅔⅛⅜⅝⅞]+lbs?)\s+([0-9.¼½¾⅓⅔⅛⅜⅝⅞].*oz)")


def in_grams(written: object) -> float:
    """A mass from a form, in g; a number without a unit is in g.

    >>> in_grams("1.5 kg"), in_grams("750"), in_grams("½"), in_grams("1 lb 2 oz")
    (1500.0, 750.0, 0.5, 510.29141625)
    """
    shown = line(written)
    both = _POUNDS.fullmatch(shown)
    if both:
        return grams(both[1]) + grams(both[2])
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
        return fsum([amount_in_form(kind, f"{part}{comma}{how}") for part in parts])
    if _POUNDS.fullmatch(line(written)):
        return in_grams(written)
    count, words = number_and_words(measures)
    return amount_of(kind, written).mass_g if words and count else in_grams(written)
