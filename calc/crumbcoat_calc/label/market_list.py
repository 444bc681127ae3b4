"""The list of ingredients of a batch for each market: legal names, water by its place, percentages where due."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from math import fsum

from crumbcoat_calc.label.ingredient_list import (
    IngredientList,
    ListedIngredient,
    ingredient_list,
    listed_ingredients_of,
)
from crumbcoat_calc.label.legal_names import MARKETS, legal_name
from crumbcoat_calc.label.quantitative import with_percents
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.values.region import words_in

WATER_LEFT_OUT = 0.05
"""The share of the finished food up to which added water is left out. Source: eu-1169-2011, Annex VII Part A(1)."""


def lists_of(batch: Batch) -> tuple[IngredientList, ...]:
    """The lists of a batch, in the order of MARKETS; what it contains does not get in by accident."""
    may_contain = batch.recipe.may_contain
    lists = [ingredient_list(market_entries(batch, market), market, may_contain) for market in MARKETS]
    contained = {word for found in lists for word in found.contains}
    by_accident = tuple([word for word in may_contain if word not in contained])
    return tuple([replace(found, may_contain=by_accident) for found in lists])


def allergens_by_ingredient(batch: Batch) -> Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]]:
    """By the key of each ingredient: the words for what it holds by any market's law, and why there may be more."""
    keys = [weighed.key for weighed in batch.weighed if weighed.needed_g > 0]
    found = {}
    for key, entry in zip(keys, listed_ingredients_of(batch), strict=True):
        lists = [ingredient_list([_named(entry, market)], market) for market in MARKETS]
        words = dict.fromkeys([word for one in lists for word in one.contains])
        doubts = dict.fromkeys([why for one in lists for _, why in one.doubts])
        found[key] = (tuple(words), tuple(doubts))
    return found


def market_entries(batch: Batch, market: str) -> tuple[ListedIngredient, ...]:
    """The ingredients of a batch as a market names them.

    In the EU and the UK added water is what the finished food weighs beyond its other ingredients, is left out up to
    5 % of it, and ingredients that the name of the food shows have their percentage.

        water = finished food - other ingredients, and not less than 0

    Args:
        market: a key of MARKETS.

    Source:
        cfr-101-4 (b), (c); eu-1169-2011, Arts. 18 and 22, Annex VII Part A(1), Annex VIII; the 5 % from memory.
    """
    entries = listed_ingredients_of(batch)
    if market != "US":
        entries = _with_water_by_place(with_percents(entries, batch), batch.total.mass_g)
    return tuple(map(partial(_named, market=market), entries))


def _with_water_by_place(entries: Sequence[ListedIngredient], finished_g: float) -> tuple[ListedIngredient, ...]:
    others_g = fsum(entry.mass_g or 0.0 for entry in entries if not _is_water(entry))
    water_g = finished_g - others_g
    listed = [entry for entry in entries if not _is_water(entry) or water_g > WATER_LEFT_OUT * finished_g]
    waters = sum(1 for entry in listed if _is_water(entry))
    return tuple([replace(entry, mass_g=water_g / waters) if _is_water(entry) else entry for entry in listed])


def _is_water(entry: ListedIngredient) -> bool:
    return entry.food is not None and entry.food.group == "water"


def _named(entry: ListedIngredient, market: str) -> ListedIngredient:
    """The ingredient under its name there; what the author says of its parts is used before the table's."""
    key = entry.food.key if entry.food is not None else ""
    name, parts = legal_name(key, entry.name, market)
    inside = tuple(map(partial(_named, market=market), entry.inside)) or tuple(
        [ListedIngredient(name=part) for part in parts]
    )
    return replace(entry, name=words_in(MARKETS[market], name), called=entry.called or entry.name, inside=inside)
