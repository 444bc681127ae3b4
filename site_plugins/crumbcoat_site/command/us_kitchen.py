"""A recipe file as a US kitchen writes it: its words, °F, and cups and sticks where a kind has weights for them."""

import re

from crumbcoat_calc.foods.table import food
from crumbcoat_calc.kitchen.eggs import egg_sizes
from crumbcoat_calc.kitchen.household import in_cups_and_spoons, in_pieces
from crumbcoat_calc.values.display import plain_number_text
from crumbcoat_calc.values.region import text_in

_WORDS = {
    "icing_sugar": "powdered_sugar",
    "icing sugar": "powdered sugar",
    "plain flour": "all-purpose flour",
    "cornflour": "cornstarch",
    "whipping cream, 36 % fat": "heavy cream",
    "sieved": "sifted",
    "bring it to the boil": "bring it to a boil",
    "lay film on": "lay plastic wrap on",
}
_AMOUNT = re.compile(r"(?P<head>\{kind: (?P<kind>\w+),.*\bamount: )(?P<mass>[0-9.]+) g\b")
_DEGREES = re.compile(r"([0-9.]+) °C\b")
_WITHIN = 0.03
"""As close as cups and spoons themselves are shown."""


def for_the_us(text: str) -> str:
    """The text of a recipe file with the same ingredients, within 3 % of their masses, and the same temperatures.

    >>> for_the_us("icing_sugar: {kind: sugar_powdered, name: icing sugar, amount: 320 g, preparation: sieved}")
    'powdered_sugar: {kind: sugar_powdered, name: powdered sugar, amount: 2⅔ cups, preparation: sifted}'
    >>> for_the_us("butter: {kind: butter_unsalted, amount: 220 g, temperature: 20 °C}")
    'butter: {kind: butter_unsalted, amount: 2 sticks, temperature: 68 °F}'
    """
    for word, in_us in _WORDS.items():
        text = text.replace(word, in_us)
    text = _AMOUNT.sub(lambda found: found["head"] + household(found["kind"], float(found["mass"])), text)
    return fahrenheit(text)


def fahrenheit(text: str, digits: int = 0) -> str:
    """A text with its temperatures in °F instead of °C.

    >>> fahrenheit("{at: 1.1, from: 18 °C, to: 20 °C}"), fahrenheit("22.5 °C", 1)
    ('{at: 1.1, from: 64 °F, to: 68 °F}', '72.5 °F')
    """
    return _DEGREES.sub(lambda found: f"{plain_number_text(float(found[1]) * 9 / 5 + 32, digits)} °F", text)


def household(kind: str, mass_g: float) -> str:
    """A mass in sticks or eggs, else in cups and spoons, of a kind that has weights for them; else in g.

    >>> household("egg_whole_raw", 150), household("chocolate_dark_60_69", 200)
    ('3 large', '200 g')
    """
    of = food(kind)
    counted = in_pieces(of, mass_g, "stick", within=_WITHIN) or in_pieces(of, mass_g, "large", (1,), within=_WITHIN)
    if counted:
        return counted
    is_egg = any(measure.unit in egg_sizes() for measure in of.measures)
    cups = None if is_egg else in_cups_and_spoons(of, mass_g, "us")
    return text_in("US", cups) if cups else f"{plain_number_text(mass_g)} g"
