"""What may stand for an ingredient: the replacements its recipe names, and every other kind of its group."""

from functools import lru_cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food, foods
from crumbcoat_calc.recipe.model import Ingredient
from crumbcoat_calc.values.fields import did_you_mean

KIND = "kind:"
"""Before the key of a kind of the ingredient table; a replacement of the recipe is named by its own key."""


@lru_cache(maxsize=1024)
def other_kinds(group: str, key: str) -> tuple[Food, ...]:
    """The other kinds of a group of the ingredient table, those whose key begins with the same word first.

    >>> [kind.key for kind in other_kinds("starch", "flour_cake")]
    ['flour_all_purpose_bleached', 'flour_all_purpose_unbleached', 'cornstarch']
    """
    word = key.partition("_")[0]
    found = [kind for kind in foods().values() if kind.group == group and kind.key != key]
    return tuple(sorted(found, key=lambda kind: (kind.key.partition("_")[0] != word, kind.key)))


def replacement_of(ingredient: Ingredient, chosen: str) -> tuple[str, Food, float]:
    """Name, kind, and g for each g of the ingredient, of what goes in: `chosen` is empty for the ingredient itself.

    A kind of the table goes in gram for gram.

    Raises:
        InputError: if nothing of that name may stand for it.
    """
    if not chosen:
        return ingredient.name, ingredient.food, 1.0
    if chosen.startswith(KIND):
        for kind in other_kinds(ingredient.food.group, ingredient.food.key):
            if chosen == KIND + kind.key:
                return kind.name, kind, 1.0
    for replacement in ingredient.replacements:
        if replacement.key == chosen:
            return replacement.name, replacement.food, replacement.ratio
    known = [replacement.key for replacement in ingredient.replacements]
    known += [KIND + kind.key for kind in other_kinds(ingredient.food.group, ingredient.food.key)]
    raise InputError(f"nothing called {chosen!r} replaces it", did_you_mean(chosen, known, "choose one listed"))
