"""Recipes that are near another one by composition, each with the difference in words."""

from collections.abc import Sequence
from heapq import nsmallest
from math import dist
from typing import cast

from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage

MOST = 4
_SAME_FAT, _LITTLE_FAT, _SAME_SUGARS = 2.0, 8.0, 5.0
"""Differences that are not spoken of, or are little, in g per 100 g (our choice)."""


def related_recipes(page: RecipePage, pages: Sequence[RecipePage]) -> list[tuple[RecipePage, str]]:
    """The nearest recipes by fat, sugars and water in g per 100 g, each with the difference in words.

        distance = sqrt((fat - fat')^2 + (sugars - sugars')^2 + (water - water')^2)

    Where this one contains an allergen, the last place is for the nearest in whose list that allergen is not.
    """
    here = _known(page)
    others = [
        (dist(here, there), other.name, other)
        for other in pages
        if here and (there := _known(other)) and other.name != page.name
    ]
    shown = [other for *_, other in nsmallest(MOST, others)]
    for allergen in page.allergens_listed:
        without = [found for found in others if allergen in found[-1].allergens_absent]
        if without and not any(allergen in other.allergens_absent for other in shown):
            shown[-1] = min(without)[-1]
            break
    return [(other, difference(page, other)) for other in shown]


def difference(page: RecipePage, other: RecipePage) -> str:
    """How another recipe differs: in fat, in sugars, and in allergens that are in one list of ingredients alone.

    A recipe's list is meant as published; what no listed ingredient contains is all that is said.
    """
    here, there = _known(page), _known(other)
    if not here or not there:
        return ""
    fat, sugars = there[0] - here[0], there[1] - here[1]
    rich = "richer" if fat > 0 else "less rich"
    words = ["as rich" if abs(fat) < _SAME_FAT else f"a little {rich}" if abs(fat) < _LITTLE_FAT else rich]
    if abs(sugars) >= _SAME_SUGARS:
        words.append("more sugar" if sugars > 0 else "less sugar")
    words += [f"contains {allergen}" for allergen in other.allergens_listed if allergen in page.allergens_absent]
    words += [f"no {allergen} listed" for allergen in page.allergens_listed if allergen in other.allergens_absent]
    return ", ".join(words)


def _known(page: RecipePage) -> Sequence[float]:
    """Its composition; nothing if a part of it is not known."""
    return () if None in page.composition else cast("Sequence[float]", page.composition)
