"""Temperatures as people write them."""

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.tables import load_rows, number_in
from crumbcoat_calc.values.fields import text
from crumbcoat_calc.values.units import degrees, number, number_and_words, quantity, unit_name
from crumbcoat_calc.values.written_numbers import plain_numbers

_DEGREES = re.compile(r"(?<![A-Za-z])\s*(?:°|º|˚|deg(?:ree)?s?\.?)?\s*([CcFf])(?:elsius|ahrenheit)?\.?$")
_BARE = re.compile(r"[-−–]?\s*[0-9]+(?:\.[0-9]+)?")
_GAS_MARK = re.compile(r"(?:gas(?: ?mark)?|mark) ?([0-9][0-9 ./]*|[0-9 ]*[¼½¾])", re.IGNORECASE)


def celsius(value: object) -> float:
    """A temperature such as `20 °C`, `68 F` or `-18 °C`, in °C; -60 to 300 °C.

    Raises:
        InputError: also for a gas mark, which is how hot an oven is: nothing in it gets that hot.

    >>> celsius("20 C"), celsius("-18 degrees C"), celsius("20,5 °C")
    (20.0, -18.0, 20.5)
    """
    written = plain_numbers(text(value))
    if _BARE.fullmatch(written):
        raise InputError(f"{written!r} has no unit", f"write `{written} °C` or `{written} °F`")
    mark = _GAS_MARK.fullmatch(written)
    if mark:
        raise _oven(written, oven_f(number(mark[1])))
    letter = _DEGREES.search(written)
    if letter and letter.start():
        written = f"{written[: letter.start()]} °{letter[1].upper()}"
    cold = re.match(r"[-−–]\s*([0-9.¼½¾⅓⅔⅛⅜⅝⅞].*)", written)
    if not cold:
        return quantity("degC", "temperature", "20 °C", -60.0, 300.0, written)
    count, words = number_and_words(cold[1])
    unit = unit_name(words)
    if unit == "kelvin":
        raise InputError(f"{written!r} is below absolute zero", "check the number and its unit")
    if unit not in ("degree_Celsius", "degree_Fahrenheit"):
        raise InputError(f"{words[:40]!r} is not a unit of temperature", "write it like `-18 °C`")
    result = degrees(-float(count), unit, "degC")
    if result < -60:
        raise InputError(f"{written!r} is below -60 °C", "check the number and its unit")
    return result


def oven_f(mark: Fraction) -> float | None:
    """How hot an oven is at a gas mark, in °F, as marks are defined; None if no oven has that mark.

    Source:
        gas-marks-web.

    >>> oven_f(Fraction(4)), oven_f(Fraction(3, 4))
    (350.0, None)
    """
    return _gas_marks().get(mark)


def _oven(written: str, t_f: float | None) -> InputError:
    hot = "" if t_f is None else f", {degrees(t_f, 'degF', 'degC'):.0f} °C ({t_f:.0f} °F),"
    problem = f"{written!r} is how hot an oven is{hot} and not what is in it"
    return InputError(problem, "write what a thermometer in the food shows, such as `82 °C`")


@cache
def _gas_marks() -> Mapping[Fraction, float]:
    rows = load_rows("gas_marks", lambda cells: (Fraction(cells["mark"]), number_in(cells, "t_f", 200, 550)), ("mark",))
    return dict(rows)
