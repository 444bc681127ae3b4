"""Numbers as people write them in a form, brought into the one spelling that the readers of `units` know.

Digits of any script, spaces and apostrophes between thousands, every vulgar fraction, and a point or a comma as the
decimal mark. Where a text has both, the last one is the decimal mark; where it has one of them several times, that one
separates thousands. A single point is a decimal mark, as on every page, unless exactly three zeros follow it: nobody
writes 1 as `1.000`, and many countries write 1000 like that. A single comma is a decimal mark too, unless exactly three
digits follow it and it could as well separate thousands. `1,234` and `1.000` are refused with both readings.

The marks are those of the Unicode Common Locale Data Repository; digits are the characters of the category Nd, and
fractions those that the Unicode Character Database calls vulgar.
"""

import re
from functools import lru_cache

from crumbcoat_calc.errors import InputError

_FRACTIONS = {
    "↉": "0/3",
    "⅐": "1/7",
    "⅑": "1/9",
    "⅒": "1/10",
    "⅕": "1/5",
    "⅖": "2/5",
    "⅗": "3/5",
    "⅘": "4/5",
    "⅙": "1/6",
    "⅚": "5/6",
}
"""Those that the readers do not know by themselves."""

_SIGNS = {"٫": ".", "．": ".", "，": ",", "٬": "'", "’": "'", "／": "/", "⁄": "/", "∕": "/"}
_DIRECTIONS = dict.fromkeys(map(ord, "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"))
"""Invisible characters that set the direction of the text, which come along when Arabic or Hebrew is typed."""

_GAPS = re.compile(r"(?<![0-9.,'/])([1-9][0-9]{0,2}(?:[\s'][0-9]{3})+)(?:[.,]([0-9]+))?(?![0-9/.,'])")
_MARKS = re.compile(r"[0-9]*(?:[.,][0-9]+)+")
_THOUSANDS = {
    ",": re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+|[1-9][0-9]?(?:,[0-9]{2})+,[0-9]{3}"),
    ".": re.compile(r"[1-9][0-9]{0,2}(?:\.[0-9]{3})+"),
}
"""By the mark between them; with commas as in English, or by two after the first thousand, as in India."""


@lru_cache(maxsize=256)
def plain_numbers(written: str) -> str:
    """The text with each number in it as `units.number` reads it; all else stays.

    >>> plain_numbers("1,5 kg"), plain_numbers("1.234,5"), plain_numbers("1 234,5 g"), plain_numbers("1⅕")
    ('1.5 kg', '1234.5', '1234.5 g', '1 1/5')

    Raises:
        InputError: if a number can be read in two ways, or in none.
    """
    shown = written if written.isascii() else _in_ascii(written)
    shown = _GAPS.sub(lambda found: re.sub(r"[\s']", "", found[1]) + (f".{found[2]}" if found[2] else ""), shown)
    return _MARKS.sub(lambda found: _with_point(found[0]), shown)


def _in_ascii(written: str) -> str:
    shown = "".join([str(int(sign)) if sign.isdecimal() else _SIGNS.get(sign, sign) for sign in written])
    for sign, fraction in _FRACTIONS.items():
        shown = shown.replace(sign, f" {fraction}")
    return shown.translate(_DIRECTIONS).strip()


def _with_point(number: str) -> str:
    """A number with points or commas, as digits with at most one point."""
    mark = "," if number.rfind(",") > number.rfind(".") else "."
    other = "." if mark == "," else ","
    whole, _, part = number.rpartition(mark)
    if other in number:
        if not _THOUSANDS[other].fullmatch(whole):
            raise _unreadable(number)
        return f"{whole.replace(other, '')}.{part}"
    if mark in whole:
        if not _THOUSANDS[mark].fullmatch(number):
            raise _unreadable(number)
        return number.replace(mark, "")
    if (mark == "," or part == "000") and _THOUSANDS[mark].fullmatch(number):
        thousands, fraction = f"{whole}{part}", whole if part == "000" else f"{whole}.{part}"
        raise InputError(f"'{number}' can mean {thousands} or {fraction}", f"write '{thousands}' or '{fraction}'")
    return f"{whole}.{part}"


def _unreadable(number: str) -> InputError:
    return InputError(
        f"'{number[:40]}' has its points and commas in places where no number has them", "write it like '1234.5'"
    )
