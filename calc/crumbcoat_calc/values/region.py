"""What is usual in the region of a site: its first measures, and which degrees come first."""

import re
from typing import Any

REGIONS = ("EU", "UK", "US")
"""The regions that a site can be for; the first is the default."""

_CELSIUS_FIRST = re.compile(r"(-?[0-9][0-9.,]*)(\s)°C \((-?[0-9]+)\s°F\)")


def units_in(region: str) -> str:
    """What amounts are shown in at first, one of `forms.changes.UNITS`."""
    return "us" if region == "US" else "grams"


def lengths_in(region: str) -> str:
    """What lengths are shown in at first, one of `cakes.plan.LENGTH_UNITS`."""
    return "in" if region == "US" else "cm"


def degrees_in(region: str, text: str) -> str:
    """A text or HTML in which the degrees that are usual in a region come first; a second time changes nothing.

    >>> degrees_in("US", "heat to 82 °C (180 °F)"), degrees_in("US", "82 °C")
    ('heat to 180 °F (82 °C)', '82 °C')
    >>> degrees_in("EU", "heat to 82 °C (180 °F)")
    'heat to 82 °C (180 °F)'
    """
    return _CELSIUS_FIRST.sub(r"\3\2°F (\1\2°C)", text) if region == "US" else text


def shown_in(region: str, shown: Any) -> Any:
    """Texts by name, tables and rows of them, with every text as `degrees_in` writes it."""
    if region != "US":
        return shown
    if isinstance(shown, str):
        return degrees_in(region, shown)
    if isinstance(shown, list):
        return [shown_in(region, part) for part in shown]
    return {name: shown_in(region, part) for name, part in shown.items()}
