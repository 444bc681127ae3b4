"""What can replace an ingredient: the replacements listed in its recipe, and every other kind of its group."""

from functools import lru_cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food, foods
from crumbcoat_calc.recipe.model import Ingredient
from crumbcoat_calc.values.fields import did_you_mean

KIND = "kind:"
"""The prefix of a kind of the ingredient table; a replacement listed in the recipe has its plain key."""


@lru_cache(maxsize=1024)
def other_kinds(group: str, key: str) -> tuple[Food, ...]:
    """The other kinds in a group of the ingredient table; those whose key starts with the same word come first.

    >>> [kind.key for kind in other_kinds("starch", "flour_cake")][6:9]
    ['flour_uk_plain', 'flour_uk_self_raising', 'arrowroot']
    """
    word = key.partition("_")[0]
    found = [kind for kind in foods().values() if kind.group == group and kind.key != key]
    return tuple(sorted(found, key=lambda kind: (kind.key.partition("_")[0] != word, kind.key)))


def replacement_of(ingredient: Ingredient, chosen: str) -> tuple[str, Food, float]:
    """The name, the kind and the g per g of ingredient of what goes in; `chosen` is empty for the ingredient itself.

    A kind of the table replaces it gram for gram.

    Raises:
        InputError: if there is no such replacement.
    """
    if not chosen:
        return ingredient.name, ingredient.food, 1.0
    if chosen.startswith(KIND):
        kind = foods().get(chosen.removeprefix(KIND))
        if kind and kind.group == ingredient.food.group and kind.key != ingredient.food.key:
            return kind.name, kind, 1.0
    for replacement in ingredient.replacements:
        if replacement.key == chosen:
            return replacement.name, replacement.food, replacement.ratio
    known = [replacement.key for replacement in ingredient.replacements]
    known += [KIND + kind.key for kind in other_kinds(ingredient.food.group, ingredient.food.key)]
    problem = f"{chosen!r} is not a replacement for {ingredient.name}"
    raise InputError(problem, did_you_mean(chosen, known, "choose one from the list"))
