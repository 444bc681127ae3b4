"""Whose cups, spoons and words a page has: of the US, the UK, Australia, or metric ones."""

import re
from collections.abc import Sequence

_BY_LANGUAGE = {"en-us": "US", "en-gb": "UK", "en-ie": "UK", "en-au": "AU", "en-nz": "metric", "en-ca": "metric"}
_UK = re.compile(
    r"\b(?:caster sugar|icing sugar|double cream|single cream|plain flour|self[- ]raising|bicarbonate of soda|"
    r"cornflour|[0-9]\s?g\b|dessertspoons?|tins?)\b", re.IGNORECASE,
)  # fmt: skip
_US = re.compile(
    r"\b(?:powdered sugar|confectioners['’]? sugar|heavy (?:whipping )?cream|all[- ]purpose flour|sticks?|cornstarch|"
    r"half[- ]and[- ]half|cups?|[0-9] ?oz|ounces?)\b", re.IGNORECASE,
)  # fmt: skip


def system_of(language: str, lines: Sequence[str]) -> str:
    """The system of measures that the words of the lines speak for; where they do not, that of the page's language.

    >>> system_of("en", ["1 cup heavy cream"]), system_of("en-AU", ["1 cup cream"])
    ('US', 'AU')
    >>> system_of("", ["2 tbsp caster sugar"])
    'UK'
    """
    tag = language.lower().replace("_", "-")
    if tag in _BY_LANGUAGE and tag != "en-us":
        return _BY_LANGUAGE[tag]
    british, american = [sum(bool(words.search(line)) for line in lines) for words in (_UK, _US)]
    if british == american:
        return _BY_LANGUAGE.get(tag, "metric")
    return "UK" if british > american else "US"
