"""The ends of what is not known of a mixture: all of it water, or fat, or sugar, or other solids, or alcohol."""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from math import fsum

from crumbcoat_calc.foods.bounds import range_of, ranges_of
from crumbcoat_calc.foods.components import COMPONENTS, PROXIMATES
from crumbcoat_calc.foods.table import Food

_ORDER = ("water_g", "alcohol_g", "ash_g", "protein_g", "carbohydrate_g", "fat_g")

FILLS = (
    ("water_g", "low sugar", "no milk"),
    ("fat_g", "low sugar", "milk"),
    ("fat_g", "low sugar", "no milk"),
    ("carbohydrate_g", "high sugar", "milk"),
    ("carbohydrate_g", "low sugar", "no milk"),
    ("protein_g", "low sugar", "milk"),
    ("protein_g", "low sugar", "no milk"),
    ("ash_g", "low sugar", "no milk"),
    ("alcohol_g", "low sugar", "milk"),
)
"""What the rest of 100 g is first, up to its bound; if sugars are the most; if fat and protein are of milk."""

_DECIDES = ("water_g", "protein_g", "fat_g", "carbohydrate_g", "ash_g")
_OF_MILK = ("milk_fat_g", "milk_protein_g")


@lru_cache(maxsize=1024)
def is_open(food: Food) -> bool:
    """Whether the science of a mixture with this food has ends: something in it is not known that phases are made of.

    Sugars within a known carbohydrate, and ethanol as the only unknown, are left to `constituents`.
    """
    ranges = ranges_of(food)
    return any(component in ranges for component in (*_DECIDES, *_OF_MILK)) or "sugars_g" in food.ranges


def ends_of(foods: Sequence[Food]) -> tuple[tuple[Food, ...], ...]:
    """The foods of a mixture with their contents at each end, each end once; a single one if everything is known.

    What is left of 100 g goes first to the proximate of a fill, then to the others, water last; in all foods alike, so
    these are the ends of the sums of water, of fat, of sugars and of other solids.

    Source:
        derivation (mass balance).
    """
    if not any(map(is_open, foods)):
        return (tuple(foods),)
    ends = [tuple([_filled(food, fill) if is_open(food) else food for food in foods]) for fill in FILLS]
    distinct = {tuple([food.per_100g for food in end]): end for end in ends}
    return tuple(distinct.values())


@lru_cache(maxsize=1024)
def _filled(food: Food, fill: tuple[str, str, str]) -> Food:
    """The food with nothing open that matters to the phases of a mixture."""
    first, sugar, milk = fill
    spans = {component: range_of(food, component) for component in PROXIMATES}
    contents = dict(zip(COMPONENTS, food.per_100g, strict=True))
    left = max(0.0, 100 - fsum(low for low, _ in spans.values()))
    others = [component for component in _ORDER if component != first]
    for component in (first, *(others if first == "water_g" else reversed(others))):
        low, high = spans[component]
        more = min(left, high - low)
        contents[component] = low + more
        left -= more
    ranges = ranges_of(food)
    if "sugars_g" in ranges:
        low, high = ranges["sugars_g"]
        most = max(low, min(high, (contents["carbohydrate_g"] or 0.0) - range_of(food, "fibre_g")[0]))
        contents["sugars_g"] = most if sugar == "high sugar" else low
    if "sodium_mg" in ranges:
        contents["sodium_mg"] = ranges["sodium_mg"][first == "ash_g"]
    for component, whole in zip(_OF_MILK, ("fat_g", "protein_g"), strict=True):
        if component in ranges:
            low, high = ranges[component]
            contents[component] = min(contents[whole] or 0.0, high) if milk == "milk" else low
    return replace(food, per_100g=tuple(contents.values()), ranges={})
