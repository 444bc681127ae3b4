"""One text of those that the ends of what is not known give: the same words, with ranges in place of numbers."""

import re
from collections.abc import Sequence

from crumbcoat_calc.values.display import number_text

_NUMBER = "-?[0-9\u202f]*[0-9](?:\\.[0-9]+)?"
_FIGURE = re.compile(
    rf"({_NUMBER})((?: [^\s().,;:]+)?) \(({_NUMBER}) to ({_NUMBER})\)|({_NUMBER}) to ({_NUMBER})|({_NUMBER})"
)


def agreed_text(ends: Sequence[str], otherwise: str) -> str:
    """The text that all ends give, with the range of each number; `otherwise` if they differ in more than numbers.

    >>> agreed_text(["Fat is 63 % of it, 12 g (10 to 14).", "Fat is 66 % of it, 14 g (11 to 15)."], "open")
    'Fat is 63 to 66 % of it, 13 g (10 to 15).'
    >>> agreed_text(["Thick.", "Thin."], "open")
    'open'
    """
    if all(end == ends[0] for end in ends):
        return ends[0]
    if len({_words(end) for end in ends}) > 1:
        return otherwise
    found = [list(_FIGURE.finditer(end)) for end in ends]
    most = max(range(len(ends)), key=lambda at: sum([match[1] is not None for match in found[at]]))
    replaced = iter([_merged(match, others) for match, *others in zip(found[most], *found, strict=True)])
    return _FIGURE.sub(lambda _: next(replaced), ends[most])


def _words(text: str) -> str:
    """The text with a mark in the place of each figure; the unit before a band stays."""
    return _FIGURE.sub(lambda found: f"#{found[2] or ''}", text)


def _merged(shown: re.Match[str], found: Sequence[re.Match[str]]) -> str:
    """A figure that covers those of all ends, in the form of the one that is shown."""
    if all(match[0] == shown[0] for match in found):
        return shown[0]
    values = sorted([match[1] or match[5] or match[7] for match in found], key=_value)
    low = min([match[3] or match[5] or match[7] for match in found], key=_value)
    high = max([match[4] or match[6] or match[7] for match in found], key=_value)
    if shown[1]:
        digits = len(values[0].partition(".")[2])
        middle = number_text((_value(values[0]) + _value(values[-1])) / 2, digits)
        return f"{middle}{shown[2]} ({low} to {high})"
    return low if low == high else f"{low} to {high}"


def _value(number: str) -> float:
    return float(number.replace("\u202f", ""))
