"""The unit registry, and readers of quantities: units are checked here, where text comes in."""

import re
from collections.abc import Callable
from fractions import Fraction
from functools import cache, lru_cache
from math import fsum
from pathlib import Path
from typing import TYPE_CHECKING

from crumbcoat_calc.errors import EmptyFieldError, InputError
from crumbcoat_calc.values.fields import did_you_mean, text
from crumbcoat_calc.values.written_numbers import plain_numbers

if TYPE_CHECKING:
    from pint import UnitRegistry

_DATA = Path(__file__).parents[1] / "data"
_NUMBER = re.compile(
    r"(?P<whole>[0-9]+)(?:\s+|(?=[¼½¾⅓⅔⅛⅜⅝⅞]))(?P<top>[0-9]+/[0-9]+|[¼½¾⅓⅔⅛⅜⅝⅞])|(?P<only>[0-9]+/[0-9]+|[¼½¾⅓⅔⅛⅜⅝⅞])|(?P<decimal>[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
)
_BRIX_SIGN = re.compile(r"\s*(°\s*(Bx|Brix)?|%)$", re.IGNORECASE)
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_SPELLINGS = {
    "tbsp": "tablespoon", "tsp": "teaspoon", "fl oz": "fluid ounce", "qt": "quart", "°c": "degc", "°f": "degf",
    "µg": "ug", "μg": "ug", "hr": "hour", "sec": "second", '"': "inch", "″": "inch", "gr": "gram", "gramme": "gram",
}  # fmt: skip
_AMBIGUOUS = {
    "cup": {"US cup": "236.6 mL", "metric cup": "250 mL"},
    "tablespoon": {"US tbsp": "14.8 mL", "metric tbsp": "15 mL", "AU tbsp": "20 mL"},
    "fluid_ounce": {"US fl oz": "29.6 mL", "imperial fl oz": "28.4 mL"},
    "quart": {"US quart": "946 mL"},
    "pint": {"US pint": "473 mL", "imperial pint": "568 mL"},
}
"""The measures that share a name, with their volumes as messages show them."""
_AGREED = {"teaspoon": "us_teaspoon"}
"""Names that several measures share whose volumes are within 2 %: a US teaspoon has 4.93 mL, a metric one 5 mL."""
_POUNDS = re.compile(r"([0-9./ ¼½¾⅓⅔⅛⅜⅝⅞]+(?:lbs?|pounds?)\.?),? +([0-9.¼½¾⅓⅔⅛⅜⅝⅞].*(?:oz|ounces?)\.?)")
_SYMBOLS = {"gram": "g", "millilitre": "mL", "millimetre": "mm", "second": "s", "degC": "°C"}
LARGEST = 10**9


@cache
def registry() -> "UnitRegistry[float]":
    """The one pint registry, defined by `data/units.txt` alone."""
    import pint

    return pint.UnitRegistry(str(_DATA / "units.txt"), autoconvert_offset_to_baseunit=True)


@cache
def factor(unit: str, to: str) -> float:
    """How many `to` make one `unit`; both are names in `data/units.txt` without an offset.

    >>> factor("us_cup", "ml")
    236.5882365
    """
    units = registry()
    return float(units.Quantity(1, unit).m_as(to))


@lru_cache(maxsize=512)
def degrees(count: float, unit: str, to: str) -> float:
    """A temperature in another unit; both are names in `data/units.txt`.

    >>> degrees(20.0, "degree_Celsius", "degC")
    20.0
    """
    return float(registry().Quantity(count, unit).m_as(to))


@cache
def dimension(unit: str) -> str:
    """What the unit measures: `mass`, `length`, `volume`, `time`, `temperature` or another dimension."""
    shown = str(registry().Unit(unit).dimensionality)
    return {"[length] ** 3": "volume"}.get(shown, shown.strip("[]"))


def is_volume(unit: str) -> bool:
    """Whether the word is a unit of volume in `data/units.txt`; a word for a piece, such as `stick`, is not."""
    return unit in _volumes()


@cache
def _volumes() -> frozenset[str]:
    return frozenset(name for name in _spelled().values() if dimension(name) == "volume")


@lru_cache(maxsize=512)
def unit_name(words: str) -> str | None:
    """The unit with this name, or None if there is none.

    Raises:
        InputError: if several units share the name, such as `cup`.

    >>> unit_name("US tbsp"), unit_name("g"), unit_name("large")
    ('us_tablespoon', 'gram', None)
    """
    known = _spelled()
    for candidate in _candidates(words):
        if candidate in known:
            return known[candidate]
        if candidate in _AGREED:
            return _AGREED[candidate]
        if candidate in _AMBIGUOUS:
            choices = [f"`{unit}` ({volume})" for unit, volume in _AMBIGUOUS[candidate].items()]
            listed = " or ".join([part for part in (", ".join(choices[:-1]), choices[-1]) if part])
            raise InputError(f"{words!r} is ambiguous", f"say which one: {listed}")
    return None


def units_called(words: str) -> tuple[str, ...]:
    """The units that share this name; none if it belongs to one unit or to none.

    >>> units_called("cups"), units_called("US cup")
    (('US cup', 'metric cup'), ())
    """
    for candidate in _candidates(words):
        if candidate in _spelled():
            return ()
        if candidate in _AMBIGUOUS:
            return tuple(_AMBIGUOUS[candidate])
    return ()


@lru_cache(maxsize=512)
def _candidates(words: str) -> tuple[str, ...]:
    """How a unit with this name may be spelled in `data/units.txt`."""
    key = " ".join(words.split()).lower().replace(".", "").replace("° ", "°")
    key = key.replace("liter", "litre").replace("meter", "metre")
    for short, full in _SPELLINGS.items():
        key = re.sub(rf"(?<![a-z]){re.escape(short)}s?(?![a-z])", full, key)
    key = key.replace(" ", "_")
    return key, key.removesuffix("s"), key.removesuffix("es")


@cache
def _spelled() -> dict[str, str]:
    units = registry()
    return {spelling.lower(): units.get_name(spelling) for spelling in units._units if spelling}


def unit_spellings(kind: str) -> tuple[str, ...]:
    """Every spelling of the units of mass, volume, length, time or temperature, in lower case.

    >>> unit_spellings("mass")[:4]
    ('gram', 'g', 'kilogram', 'kg')
    """
    return tuple([word.replace("_", " ") for word, full in _spelled().items() if dimension(full) == kind])


@lru_cache(maxsize=256)
def number(words: str) -> Fraction:
    """A number, zero or more, as people write it: `2`, `1.5`, `1,5`, `1/2`, `1 1/2`, `1½`.

    >>> number("1 1/2"), number("½"), number("0.25")
    (Fraction(3, 2), Fraction(1, 2), Fraction(1, 4))
    """
    words = plain_numbers(" ".join(words.split()))
    if re.match(r"[-−–]\s*[0-9.¼½¾⅓⅔⅛⅜⅝⅞]", words):
        raise InputError(f"{words!r} is negative", "remove the minus sign")
    if not words:
        raise EmptyFieldError("the field is empty", "write a number such as `2`, `0.5` or `1 1/2`")
    if len(words) > 40:
        raise InputError(f"the number is too long, with {len(words)} characters", "write fewer digits")
    match = _NUMBER.fullmatch(words)
    if not match:
        raise InputError(f"{words!r} is not a number", "write a number such as `2`, `0.5` or `1 1/2`")
    part = match["top"] or match["only"]
    try:
        value = Fraction(match["whole"] or match["decimal"] or 0) + (Fraction(_VULGAR.get(part, part)) if part else 0)
    except ZeroDivisionError:
        raise InputError(f"{words!r} divides by zero", "write another fraction, such as `1/2`") from None
    if value > LARGEST:
        raise InputError(f"{words!r} is too large", f"use {LARGEST} or less")
    return value


def number_and_words(value: object, example: str = "250 g") -> tuple[Fraction, str]:
    """A number and the words after it, which may be empty; the example goes into the error.

    >>> number_and_words("1 1/2 US cups")
    (Fraction(3, 2), 'US cups')
    """
    written = plain_numbers(" ".join(text(value).split()))
    match = re.match(r"([-−–]?\s*[0-9.,/ ¼½¾⅓⅔⅛⅜⅝⅞]*)(.*)", written)
    assert match is not None
    digits, words = match[1].strip(), match[2].strip()
    if not digits:
        raise InputError(
            f"{written[:60]!r} does not start with a number", f"write a number and a unit, such as `{example}`"
        )
    return number(digits), words


def quantity(unit: str, kind: str, example: str, lowest: float, highest: float, value: object) -> float:
    """A number with a unit, in the unit `unit`, from `lowest` to `highest`.

    Args:
        kind: what is measured, as `dimension` calls it.
        example: how it may be written, for errors.
    """
    count, words = number_and_words(value, example)
    if any(sign.isdigit() for sign in words):
        raise InputError(f"{text(value)[:60]!r} is not one number with a unit", f"write it like `{example}`")
    if not words:
        raise InputError(f"{text(value)[:60]!r} has no unit", f"write it like `{example}`")
    shared = units_called(words)
    name = unit_name(shared[0] if shared else words)
    if name is None:
        remedy = did_you_mean(words.lower(), unit_spellings(kind), f"write it like `{example}`")
        raise InputError(f"{words[:40]!r} is not a unit of {kind}", remedy)
    if dimension(name) != kind:
        raise InputError(f"{words[:40]!r} is not a unit of {kind}", f"only a {kind} fits here, such as `{example}`")
    if shared:
        name = unit_name(words)  # Says which ones there are.
    is_temperature = kind == "temperature"
    result = degrees(float(count), name, unit) if is_temperature else float(count) * factor(name, unit)
    if not lowest <= result <= highest:
        raise InputError(
            f"{text(value)[:60]!r} is outside {lowest:.12g} to {highest:.12g} {_SYMBOLS[unit]}",
            "check the number and its unit",
        )
    return result


def grams(value: object) -> float:
    """A mass such as `250 g`, `1/2 lb` or `1 lb 2 oz`, in g; 0 to 10 t."""
    return fsum([quantity("gram", "mass", "250 g", 0.0, 1e7, part) for part in pounds_and_ounces(value) or (value,)])


def pounds_and_ounces(value: object) -> tuple[str, ...]:
    """The pounds and the ounces of `1 lb 2 oz`; nothing if it is not written like that."""
    found = _POUNDS.fullmatch(" ".join(text(value).split()))
    return found.groups() if found else ()


def millilitres(value: object) -> float:
    """A volume such as `250 mL` or `1 US cup`, in mL; 0 to 10 m3."""
    return quantity("millilitre", "volume", "250 mL", 0.0, 1e7, value)


def millimetres(value: object) -> float:
    """A length such as `20 cm` or `8 in`, in mm; 0 to 100 m."""
    return quantity("millimetre", "length", "20 cm", 0.0, 1e5, value)


def share(value: object) -> float:
    """A share such as `36 %`, `1/3` or `0.36`, as a number from 0 to 1."""
    count, words = number_and_words(value, "36 %")
    if words not in ("", "%"):
        raise InputError(f"unexpected {words[:40]!r} after the number", "write a percentage such as `36 %`")
    result = float(count / 100 if words else count)
    if result > 1:
        raise InputError(f"{text(value)[:60]!r} is more than 100 %", "use a share from 0 to 100 %")
    return result


def brix_percent(value: object) -> float:
    """Degrees Brix, g of dissolved sugar in 100 g of syrup, with or without a sign after the number.

    >>> brix_percent("48.5 °Bx"), brix_percent("50")
    (48.5, 50.0)
    """
    return 100 * share(f"{_BRIX_SIGN.sub('', text(value))} %")


def between(lowest: Fraction, highest: Fraction) -> Callable[[object], float]:
    """A reader of numbers without a unit, within a range."""

    def read(value: object) -> float:
        result = number(text(value))
        if not lowest <= result <= highest:
            size = "large" if result > highest else "small"
            problem = f"{text(value)!r} is too {size}"
            raise InputError(problem, f"use a number from {float(lowest):g} to {float(highest):g}")
        return float(result)

    return read


def whole_number(lowest: int, highest: int) -> Callable[[object], int]:
    """A reader of whole numbers within a range."""

    def read(value: object) -> int:
        result = number(text(value))
        if result.denominator != 1 or not lowest <= result <= highest:
            problem = f"{text(value)!r} is not a whole number from {lowest} to {highest}"
            raise InputError(problem, f"write a number such as `{lowest + 2}`")
        return int(result)

    return read
