"""What an ingredient is called in a list: the name that each market's law or usage has for its kind."""

from collections.abc import Mapping
from functools import cache

from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.tables import load_rows

MARKETS = {"EU": "EU", "UK": "EU", "US": "US"}
"""Each market with a list of its own, and the law whose allergens it lists."""

Named = tuple[str, tuple[str, ...]]
"""A name, and the names of what it is made of, where the list opens it."""

_OF_ONE_NAME = frozenset(("acid", "chocolate", "fat", "leavening", "starch", "sugar", "thickener"))
"""Groups of which a name alone says enough: the cream in a cheese may be any cream, maize starch is maize starch."""

_AS_BEFORE = "-"


def legal_name(key: str, written: str, market: str) -> Named:
    """The name in a list of a kind of ingredient; without one in the table, the author's own, up to a comma.

    Args:
        key: the kind in the ingredient table; empty for an ingredient of the author's own.
        written: the author's name, which is also looked for among the names of the table.
        market: a key of MARKETS.

    Source:
        cfr-101-4; eu-1169-2011, Arts. 17 and 18 and Annex VII; many names from memory, see legal_names.csv.

    >>> [legal_name("cornstarch", "cornflour", market) for market in MARKETS]
    [('maize starch', ()), ('cornflour', ()), ('cornstarch', ())]
    >>> legal_name("sugar_powdered", "icing sugar", "US"), legal_name("", "dark chocolate, 60 % cocoa", "EU")
    (('powdered sugar', ('sugar', 'cornstarch')), ('dark chocolate', ()))
    """
    known = _table().get(key) or (None if key else _by_name().get(written.casefold()))
    return known[market] if known else (written.partition(",")[0].strip(), ())


@cache
def _table() -> Mapping[str, Mapping[str, Named]]:
    return dict(load_rows("legal_names", _names_from, ("food",)))


@cache
def _by_name() -> Mapping[str, Mapping[str, Named]]:
    """The rows by the names in them, for what the table of ingredients does not know: `maize starch` in a sugar."""
    rows: dict[str, list[Mapping[str, Named]]] = {}
    for key, row in _table().items():
        if foods()[key].group in _OF_ONE_NAME:
            for name in {name.casefold() for name, parts in row.values() if not parts}:
                rows.setdefault(name, []).append(row)
    return {name: found[0] for name, found in rows.items() if all(row == found[0] for row in found)}


def _names_from(cells: dict[str, str]) -> tuple[str, Mapping[str, Named]]:
    if cells["food"] not in foods():
        raise ValueError(f"there is no food {cells['food']!r} in foods.csv")
    uk = cells["us"] if cells["uk"] == _AS_BEFORE else cells["uk"]
    eu = uk if cells["eu"] == _AS_BEFORE else cells["eu"]
    return cells["food"], {"EU": _opened(eu), "UK": _opened(uk), "US": _opened(cells["us"])}


def _opened(text: str) -> Named:
    name, bracket, parts = text.removesuffix(")").partition(" (")
    return (name, tuple(parts.split(", "))) if bracket and ":" not in name else (text, ())
