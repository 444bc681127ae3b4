"""The levels of a class experiment as a teacher writes them: `-20 %, 0, +20 %`, `16, 19, 22 °C`, `4, 8 additions`."""

import re

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.lesson.lesson import BY_ADDITIONS, BY_AMOUNT, BY_TEMPERATURE
from crumbcoat_calc.values.form_fields import state_number
from crumbcoat_calc.values.units import degrees

_LEVEL = re.compile(r"([+-]?)\s*(\d+(?:\.\d+)?)\s*(%|°\s*[CF]|[CF]|additions?|parts?)?", re.IGNORECASE)
_BOUNDS = {BY_AMOUNT: (-90.0, 100.0), BY_TEMPERATURE: (-30.0, 120.0), BY_ADDITIONS: (1.0, 40.0)}
_MOST_LEVELS = 12
_EXAMPLE = "write levels like `-20 %, 0, +20 %`, `16, 19, 22 °C` or `4, 8 additions`"


def levels_from(written: str) -> tuple[str, tuple[float, ...]]:
    """What is varied, one of BY_AMOUNT, BY_TEMPERATURE and BY_ADDITIONS, and the levels, each once.

    Raises:
        InputError: for what cannot be read, more than one unit, or a level that no kitchen needs.

    >>> levels_from("-20, 0, +20 %"), levels_from("61; 72 °F")[0]
    (('%', (-20.0, 0.0, 20.0)), '°C')
    """
    units, numbers = set(), []
    for part in written.replace("−", "-").replace(";", ",").split(","):
        found = _LEVEL.fullmatch(part.strip())
        if not found:
            raise InputError(f"{part.strip()!r} is not a level", _EXAMPLE)
        numbers.append(float(found[1] + found[2]))
        if found[3]:
            units.add(found[3].strip("° ").upper()[:1])
    if len(units) > 1:
        raise InputError("the levels have different units", _EXAMPLE)
    unit = units.pop() if units else "%"
    by = BY_TEMPERATURE if unit in "CF" else BY_AMOUNT if unit == "%" else BY_ADDITIONS
    if unit == "F":
        numbers = [round(degrees(number, "degF", "degC"), 1) for number in numbers]
    low, high = _BOUNDS[by]
    for number in numbers:
        if not low <= number <= high or (by == BY_ADDITIONS and number != int(number)):
            whole = "whole numbers from " if by == BY_ADDITIONS else ""
            shown = f"{state_number(number)} {by}"
            raise InputError(f"{shown} is not a possible level", f"use {whole}{low:g} to {high:g} {by}")
    if len(numbers) > _MOST_LEVELS:
        raise InputError(f"{len(numbers)} levels are too many", f"use up to {_MOST_LEVELS}")
    return by, tuple(dict.fromkeys(numbers))


def levels_text(by: str, levels: tuple[float, ...]) -> str:
    """The levels in the one spelling that a form state has; empty without levels.

    >>> levels_text("%", (-20.0, 0.0, 20.0)), levels_text("°C", (16.0, 22.5))
    ('-20, 0, 20 %', '16, 22.5 °C')
    """
    return f"{', '.join(map(state_number, levels))} {by}" if levels else ""
