"""What a cook elsewhere asks for in a shop, where the name in a recipe could bring home something else."""

import re
from collections.abc import Mapping
from functools import cache

from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.tables import load_rows

REGIONS = ("UK", "US")

_WORD = re.compile(r"[\w%]+")


def names_elsewhere(food: str, name: str) -> tuple[tuple[str, str], ...]:
    """Region and name there of a kind that a recipe calls by a name of another region; none for most kinds.

    A name that has both, such as `sugar, powdered (icing sugar)`, needs no other.

    Source:
        that of each name, see shop_names.csv.

    >>> names_elsewhere("cornstarch", "cornflour"), names_elsewhere("cornstarch", "starch")
    ((('US', 'cornstarch'),), ())
    """
    words = name.lower().replace("-", " ")
    return tuple(
        [
            (region, shown)
            for word, region, shown in _names().get(food, ())
            if word in words and not set(shown.lower().replace("-", " ").split()) <= set(_WORD.findall(words))
        ]
    )


@cache
def _names() -> Mapping[str, tuple[tuple[str, str, str], ...]]:
    """The word that a name has, the region and the name there, by the key of the kind."""
    names: dict[str, tuple[tuple[str, str, str], ...]] = {}
    for cells in load_rows("shop_names", dict, ("food", "word")):
        if cells["food"] not in foods():
            raise ValueError(f"there is no food {cells['food']!r} in foods.csv")
        if cells["region"] not in REGIONS:
            raise ValueError(f"region is {cells['region']!r}; write {' or '.join(REGIONS)}")
        names[cells["food"]] = (*names.get(cells["food"], ()), (cells["word"], cells["region"], cells["name"]))
    return names
