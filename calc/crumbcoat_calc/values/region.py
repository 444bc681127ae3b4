"""What is usual in the region of a site: its measures, which degrees come first, and how a date is written."""

import re
from typing import Any

from crumbcoat_calc.values.display import MONTHS, plain_number_text

REGIONS = ("EU", "UK", "US")
"""The regions that a site can be for; the first is the default."""

_US_WORDS = {
    "gelatine": "gelatin", "soya": "soy", "sulphites": "sulfites", "flavouring": "flavoring", "colour": "color",
    "flavour": "flavor", "flavourings": "flavorings", "colours": "colors", "colouring": "coloring",
    "maize starch": "cornstarch", "starch is of maize": "starch is of corn",
    "desiccated coconut": "shredded coconut", "molluscs": "mollusks",
}  # fmt: skip
_UK_WORD = re.compile(rf"\b(?:{'|'.join(sorted(_US_WORDS, key=len, reverse=True))})\b", re.IGNORECASE)
_TAG = re.compile(r"(<[^>]*>)")
_NUMBER = r"[-−]?[0-9][0-9.]*"
_DIFFERENCE = re.compile(r"([+−])([0-9][0-9.]*) °C(?! \()")
"""A temperature below zero has a hyphen, a difference a sign."""
_BOTH = re.compile(rf"({_NUMBER})(\s)°C \(({_NUMBER})\s°F\)")
_BAND = re.compile(rf"({_NUMBER}) °C \(({_NUMBER}) to ({_NUMBER})\)")
_ALONE = re.compile(
    rf"(?<![0-9.(+−])(?<! be )(?<![0-9] to )({_NUMBER})(?: to ({_NUMBER}))? °C(?! \({_NUMBER}( °F| to ))(?!\))"
)
"""Degrees that are not followed by °F; after `be`, a number is a difference."""


_MEASURE = re.compile(
    r"(?i)(?<![\w.])((?:us|uk|au|metric|imperial|australian)[\s-]+)?"
    r"(tbsps?|tablespoons?|tsps?|teaspoons?|cups?|pints?|quarts?|qts?|fl\.?\s*oz|fluid\s+ounces?)\b"
)
_SYSTEMS = {
    "US": {"t": "US", "c": "US", "p": "US", "q": "US", "f": "US"},
    "UK": {"t": "metric", "c": "metric", "p": "imperial", "f": "imperial"},
    "EU": {"t": "metric", "c": "metric"},
}
"""By region and the first letter of a measure: the system whose measure it is there (common practice)."""


_US_MEASURE = re.compile(r"(?<=[0-9½¼¾⅓⅔⅛⅜⅝⅞] )US (?=(?:cups?|tbsp|tsp)\b)")
_LENGTH = re.compile(r"\b([0-9.]+ (?:[cm]m|g)) \(([0-9¼½¾⅛⅜⅝⅞/ ]+ (?:in|oz))\)")
_DATE = re.compile(rf"\b([1-9][0-9]?) ({'|'.join(MONTHS)}) ([0-9]{{4}})\b")


def spoons_in(region: str | None) -> str:
    """Whose cups and spoons are shown beside masses, one of `kitchen.household.SYSTEMS`: what a plain one is there.

    Without a region no plain one is read, and those of the US are shown, by their name.

    >>> spoons_in("UK"), spoons_in("US"), spoons_in(None)
    ('metric', 'us', 'us')
    """
    return "us" if region in (None, "US") else "metric"


def units_in(region: str | None) -> str:
    """What amounts are shown in at first, one of `forms.changes.UNITS`."""
    return "us" if region == "US" else "grams"


def lengths_in(region: str | None) -> str:
    """What lengths are shown in at first, one of `cakes.plan.LENGTH_UNITS`."""
    return "in" if region == "US" else "cm"


def measures_in(region: str | None, text: str) -> str:
    """An amount with the measures that have no system, such as a plain cup, called as they are in a region.

    Without a region they stay as they are, and are refused where several share the name.

    >>> measures_in("US", "1 cup + 2 tbsp"), measures_in("UK", "2 tbsp"), measures_in("UK", "1 pint")
    ('1 US cup + 2 US tbsp', '2 metric tbsp', '1 imperial pint')
    >>> measures_in("UK", "1 cup"), measures_in("US", "1 metric cup + 1 tbsp"), measures_in(None, "1 cup")
    ('1 metric cup', '1 metric cup + 1 US tbsp', '1 cup')
    """

    def named(found: re.Match[str]) -> str:
        system = "" if found[1] else _SYSTEMS.get(region or "", {}).get(found[2][0].lower(), "")
        return f"{system} {found[0]}" if system else found[0]

    return _MEASURE.sub(named, text)


def degrees_in(region: str | None, text: str) -> str:
    """A text in which the degrees that are usual in a region come first; a second time changes nothing.

    >>> degrees_in("US", "heat to 82 °C (180 °F)"), degrees_in("US", "melts at 25 to 35 °C, 18.3 °C (17 to 19)")
    ('heat to 180 °F (82 °C)', 'melts at 77 to 95 °F (25 to 35 °C), 65 °F (63 to 66)')
    >>> degrees_in("EU", "heat to 82 °C (180 °F)"), degrees_in("US", "it may be 3 °C off")
    ('heat to 82 °C (180 °F)', 'it may be 3 °C off')
    >>> degrees_in("US", "18 °C, then 20.8 °C (+2.8 °C)")
    '64 °F (18 °C), then 69 °F (20.8 °C) (+5 °F)'
    """
    if region != "US" or "°C" not in text:
        return text
    text = _DIFFERENCE.sub(_difference, text)
    text = _BOTH.sub(r"\3\2°F (\1\2°C)", text)
    text = _BAND.sub(lambda found: f"{_f(found[1])} °F ({_f(found[2])} to {_f(found[3])})", text)
    return _ALONE.sub(_with_fahrenheit, text)


def text_in(region: str | None, text: str) -> str:
    """A text as it is usual in a region: its degrees, and in the US plain cups and spoons, inches first, and dates.

    >>> text_in("US", "2 US cups + 1 US tbsp on 3 May 2026"), text_in("US", "a metric cup, not a US cup")
    ('2 cups + 1 tbsp on May 3, 2026', 'a metric cup, not a US cup')
    >>> text_in("US", "30 g (1 oz) on a cake of 20 cm (8 in)")
    '1 oz (30 g) on a cake of 8 in (20 cm)'
    >>> text_in("UK", "2 US cups on 3 May 2026")
    '2 US cups on 3 May 2026'
    """
    if region != "US":
        return text
    text = _LENGTH.sub(r"\2 (\1)", text)
    return _DATE.sub(r"\2 \1, \3", _US_MEASURE.sub("", degrees_in(region, text)))


def words_in(region: str | None, shown: Any) -> Any:
    """A text, or rows of texts, in the words and the spelling of a region.

    >>> words_in("US", [["Gelatine, fish", "not certain: soya drink"]]), words_in("UK", "gelatine")
    ([['Gelatin, fish', 'not certain: soy drink']], 'gelatine')
    """
    if region != "US":
        return shown
    if isinstance(shown, list):
        return [words_in(region, part) for part in shown]
    return _UK_WORD.sub(_us_word, shown)


def _us_word(found: re.Match[str]) -> str:
    word = _US_WORDS[found[0].lower()]
    return word.capitalize() if found[0][0].isupper() else word


def html_in(region: str | None, html: str) -> str:
    """HTML with the words that are seen as `text_in` writes them; tags, and the data in them, stay as they are."""
    if region != "US":
        return html
    return "".join([part if part.startswith("<") else text_in(region, part) for part in _TAG.split(html)])


def shown_in(region: str | None, shown: Any) -> Any:
    """Texts by name, tables and rows of them, as `html_in` writes them; files (`file.…`) and notes (`trial.…`) stay."""
    if region != "US":
        return shown
    if isinstance(shown, str):
        return html_in(region, shown)
    if isinstance(shown, list):
        return [shown_in(region, part) for part in shown]
    return {
        name: part if name.startswith(("file.", "trial.")) else shown_in(region, part) for name, part in shown.items()
    }


def _with_fahrenheit(found: re.Match[str]) -> str:
    low, high = found[1], found[2]
    if high is None:
        return f"{_f(low)} °F ({low} °C)"
    return f"{_f(low)} to {_f(high)} °F ({low} to {high} °C)"


def _f(celsius: str) -> str:
    return plain_number_text(float(celsius.replace("−", "-")) * 9 / 5 + 32, 0)


def _difference(found: re.Match[str]) -> str:
    shown = plain_number_text(float(found[2]) * 9 / 5, 0)
    return f"{found[1] if shown != '0' else ''}{shown} °F"
