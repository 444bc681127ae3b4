"""Recipes that are near another one by composition, each with the difference in words."""

from collections.abc import Sequence
from typing import cast

from crumbcoat_site.recipe_cards.pages.nearest import Point, nearest, tree_of
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage

MOST = 4
_SAME_FAT, _LITTLE_FAT, _SAME_SUGARS = 2.0, 8.0, 5.0
"""Differences that are not spoken of, or are little, in g per 100 g (our choice)."""


class RelatedRecipes:
    """The recipes of a site, in an order in which the nearest of each are found without a comparison with all."""

    def __init__(self, pages: Sequence[RecipePage]) -> None:
        known = [(page, point) for page in pages if (point := _known(page))]
        self._pages = {page.name: page for page, _ in known}
        self._all = tree_of([(page.name, point) for page, point in known])
        absent = {allergen for page in pages for allergen in page.allergens_absent}
        self._without = {
            allergen: tree_of([(page.name, point) for page, point in known if allergen in page.allergens_absent])
            for allergen in absent
        }

    def of(self, page: RecipePage) -> list[tuple[RecipePage, str]]:
        """The nearest recipes by fat, sugars and water in g per 100 g, each with the difference in words.

            distance = sqrt((fat - fat')^2 + (sugars - sugars')^2 + (water - water')^2)

        Where this one contains an allergen, the last place is for the nearest in whose list that allergen is not.
        """
        here = _known(page)
        if not here:
            return []
        shown = [self._pages[name] for _, name in nearest(self._all, here, MOST, page.name)]
        for allergen in page.allergens_listed:
            if any(allergen in other.allergens_absent for other in shown):
                continue
            without = nearest(self._without.get(allergen, ()), here, 1, page.name)
            if without:
                shown[-1] = self._pages[without[0][1]]
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


def _known(page: RecipePage) -> Point:
    """Its composition; nothing if a part of it is not known."""
    return () if None in page.composition else cast("Point", tuple(page.composition))
