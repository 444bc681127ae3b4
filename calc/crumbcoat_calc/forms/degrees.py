"""Fields on a site for a region: a plain cup is the usual one there; in the US, degrees without a unit are °F."""

import re
from collections.abc import Mapping
from typing import Any

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.conditions import NUMBER_FIELDS, degrees
from crumbcoat_calc.forms.trial_notes import is_note
from crumbcoat_calc.values.display import plain_number_text
from crumbcoat_calc.values.region import measures_in
from crumbcoat_calc.values.units import number_and_words

_AMOUNT = re.compile(r"\s*[0-9.½¼¾⅓⅔⅛⅜⅝⅞]")

UNIT = "degrees"
"""The name of the text with the unit of these fields."""

_FIELDS = frozenset(name for name, (_, reader) in NUMBER_FIELDS.items() if reader is degrees)


def edit_in(region: str | None, edit: Mapping[str, str]) -> Mapping[str, str]:
    """An edit as the calculators read it: a temperature without a unit, or a plain cup, gets that of the region.

    >>> edit_in("US", {"room_temperature": "68", "bowl_temperature": "20 °C", "factor": "2"})
    {'room_temperature': '68 °F', 'bowl_temperature': '20 °C', 'factor': '2'}
    >>> edit_in("US", {"amount.butter": "1 cup + 2 tbsp"})
    {'amount.butter': '1 US cup + 2 US tbsp'}
    >>> edit_in("UK", {"amount.butter": "2 tbsp", "room_temperature": "20"})
    {'amount.butter': '2 metric tbsp', 'room_temperature': '20'}
    """
    if region is None:
        return edit
    return {name: _in_region(region, name, value) for name, value in edit.items()}


def fields_in(region: str | None, texts: Mapping[str, Any]) -> dict[str, Any]:
    """The texts with those of temperature fields in the degrees of the region, and the unit of such fields, if any.

    >>> fields_in("US", {"room_temperature": "20", "ph": "6"})
    {'room_temperature': '68', 'ph': '6', 'degrees': '°F'}
    """
    if _FIELDS.isdisjoint(texts) and not any(_is_temperature(name) for name in texts):
        return dict(texts)
    if region != "US":
        return {**texts, UNIT: "°C"}
    shown = {name: _fahrenheit(text) if _is_temperature(name) else text for name, text in texts.items()}
    return {**shown, UNIT: "°F"}


def _in_region(region: str, name: str, value: str) -> str:
    if region == "US" and _is_bare(name, value):
        return f"{value.strip()} °F"
    return measures_in(region, value) if _AMOUNT.match(value) and not is_note(name) else value


def _is_temperature(name: str) -> bool:
    return name in _FIELDS or name.startswith("temperature.") or (is_note(name) and name.endswith("_c"))


def _is_bare(name: str, value: str) -> bool:
    if not _is_temperature(name) or not value.strip():
        return False
    try:
        return not number_and_words(value.strip().lstrip("-−–").strip())[1]
    except InputError:
        return False


def _fahrenheit(text: object) -> str:
    return plain_number_text(float(str(text)) * 9 / 5 + 32, 0) if text else ""
