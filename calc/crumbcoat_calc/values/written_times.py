"""Times as people write them: `3 min`, `1 h 30 min`, `1 hour 30`, `2:30 h`."""

import re
from itertools import pairwise
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import text
from crumbcoat_calc.values.units import dimension, factor, number_and_words, quantity, unit_name, units_called
from crumbcoat_calc.values.written_numbers import plain_numbers

_CLOCK = re.compile(r"([0-9]{1,4}):([0-5][0-9])(?::([0-5][0-9]))?\s*(.*)")
_PART = re.compile(r"([0-9.][0-9./ ¼½¾⅓⅔⅛⅜⅝⅞]*|[¼½¾⅓⅔⅛⅜⅝⅞])\s*([A-Za-z]+)\.?")
_BETWEEN = re.compile(r"(?:\s|,|and\b)*([0-5]?[0-9])?")
_SHORT = {"m": "minute", "d": "day"}
_UNDER = {"hour": "minute", "minute": "second"}


def seconds(value: object, *, bare: str = "", clock: str = "", example: str = "3 min") -> float:
    """A time, in s; 0 to a little over a year.

    Args:
        bare: the unit of a number without one; it is refused if that is not given.
        example: how a time may be written, for errors.
        clock: the unit of the first number of `2:30`, `h` or `min`; it is refused if that is not given.

    >>> seconds("1.5 h"), seconds("2 h 30 min"), seconds("1 hour 30"), seconds("2:30 min"), seconds("10", bare="min")
    (5400.0, 9000.0, 5400.0, 150.0, 600.0)

    Raises:
        InputError: if it is not a time, or `2:30` can be hours as well as minutes.
    """
    written = plain_numbers(" ".join(text(value).split()))
    on_a_clock = _CLOCK.fullmatch(written)
    if on_a_clock:
        return _on_a_clock(written, on_a_clock, clock)
    parts = _parts(written)
    if len(parts) > 1:
        return fsum([_seconds(part) for part in parts])
    return _seconds(f"{written} {bare}" if bare and not number_and_words(written, example)[1] else written, example)


def first_unit(written: str) -> str:
    """The unit that a time begins with, which a number before it has as well: `2 to 3 h 30 min`.

    >>> first_unit("3 h 30 min"), first_unit("2:30 min"), first_unit("20")
    ('h', 'min', '')
    """
    found = re.search("[A-Za-z]+", written)
    return found[0] if found else ""


def _on_a_clock(written: str, found: re.Match[str], clock: str) -> float:
    if found[3]:
        return _seconds(f"{found[1]} h") + _seconds(f"{found[2]} min") + _seconds(f"{found[3]} s")
    first = found[4] or clock
    if not first:
        choices = f"{found[1]} h {int(found[2])} min", f"{found[1]} min {int(found[2])} s"
        raise InputError(
            f"{written!r} can be hours and minutes or minutes and seconds", f"write `{choices[0]}` or `{choices[1]}`"
        )
    unit = unit_name(first)
    if unit not in _UNDER:
        raise InputError(f"{written[:60]!r} is not a time", "write it like `2 h 30 min` or `2:30 h`")
    return _seconds(f"{found[1]} {unit}") + _seconds(f"{found[2]} {_UNDER[unit]}")


def _parts(written: str) -> list[str]:
    """The times in a text such as `1 h 30 min`, the largest unit first; empty if it is none like that."""
    found = _PART.findall(written)
    rest = _BETWEEN.fullmatch(_PART.sub(" ", written))
    units = [_unit(word) for _, word in found]
    known = [unit for unit in units if unit and dimension(unit) == "time"]
    if not found or rest is None or len(known) < len(units):
        return []
    if rest[1]:
        if not written.endswith(rest[1]) or units[-1] not in _UNDER:
            return []
        found, known = [*found, (rest[1], "")], [*known, _UNDER[known[-1]]]
    if any(factor(less, "second") >= factor(more, "second") for more, less in pairwise(known)):
        return []
    return [f"{count} {unit}" for (count, _), unit in zip(found, known, strict=True)]


def _unit(word: str) -> str | None:
    """The unit of a word; `m` is a minute where a time is read."""
    return _SHORT.get(word.lower()) or (None if units_called(word) else unit_name(word))


def _seconds(written: str, example: str = "3 min") -> float:
    words = number_and_words(written, example)[1]
    shown = f"{written.removesuffix(words)} {_SHORT[words.lower()]}" if words.lower() in _SHORT else written
    return quantity("second", "time", example, 0.0, 4e7, shown)
