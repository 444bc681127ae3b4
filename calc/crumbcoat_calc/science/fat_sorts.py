"""Which fats a mixture has: milk fat, cocoa butter, coconut oil … and fat of which that is not known."""

from collections.abc import Mapping, Sequence
from functools import cache, lru_cache
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.tables import load_rows

MILK, UNKNOWN = "milk", "unknown"

FAMILIES = {"milk_chocolate": "cocoa_butter", "palm_kernel": "coconut", "lard": "palm", "shortening": "palm"}
"""Fats that crystallise together with another, by its name (common practice, no source); any other is by itself."""

_WITH_MILK_FAT = ("cocoa_butter", "milk_chocolate")
"""Fats whose curve is for all the fat of the food, what there is of milk fat in it included."""

Fats = tuple[tuple[str, float], ...]
"""Fats by name, each with its mass in g."""


def fats_of(parts: Sequence[tuple[Food, float]]) -> Fats:
    """The fats of a mixture; a food whose fat is not known counts with none.

    Args:
        parts: foods with their mass in g, zero or more.

    Source:
        ingredient-table; fat_sorts.csv for what the table does not say.

    >>> from crumbcoat_calc.foods.table import food
    >>> fats_of([(food("butter_unsalted"), 100), (food("cocoa_powder_natural"), 10)])
    (('cocoa_butter', 1.37), ('milk', 81.11))
    """
    found: dict[str, list[float]] = {}
    for food, mass_g in parts:
        for name, per_100g in _of_100g(food):
            found.setdefault(name, []).append(per_100g * mass_g / 100)
    return tuple([(name, fsum(found[name])) for name in sorted(found)])


def of_unknown_fat(parts: Sequence[tuple[Food, float]]) -> str:
    """The names of the foods with a tenth or more of the fat of which it is not known which it is, as one text."""
    brought_g = [dict(_of_100g(food)).get(UNKNOWN, 0.0) * mass_g for food, mass_g in parts]
    least_g = max(fsum(brought_g) / 10, 1e-9)
    return ", ".join(
        dict.fromkeys([food.name for (food, _), fat_g in zip(parts, brought_g, strict=True) if fat_g >= least_g])
    )


def family_of(name: str) -> str:
    """The fat that this one crystallises with."""
    return FAMILIES.get(name, name)


@lru_cache(maxsize=1024)
def _of_100g(food: Food) -> Fats:
    fat, milk = food.content("fat_g") or 0.0, food.content("milk_fat_g")
    sorts = _sorts()
    rest = sorts.get(food.key) or sorts.get(food.group, UNKNOWN)
    if rest in _WITH_MILK_FAT:
        milk = 0.0
    milk = min(fat, milk or 0.0)
    return tuple([pair for pair in ((MILK, milk), (rest, fat - milk)) if pair[1] > 1e-9])


@cache
def _sorts() -> Mapping[str, str]:
    """The fat of kinds, and of all other kinds of a group."""
    return dict(load_rows("fat_sorts", lambda cells: (cells["of"], cells["fat"]), ("of",)))
