"""What a content that is not known can be at least and at most: nothing weighs more than the whole it is part of."""

from collections.abc import Mapping
from functools import lru_cache
from math import fsum, inf
from types import MappingProxyType

from crumbcoat_calc.foods.components import COMPONENTS, PROXIMATES
from crumbcoat_calc.foods.stated_composition import FOLLOWS, PARTS
from crumbcoat_calc.foods.table import Food

Range = tuple[float, float]
"""The lowest and the highest possible content of 100 g, in the unit of the component's name."""

SODIUM_MG_PER_G_ASH = 434.0
"""The most sodium that ash can hold, as sodium carbonate; salt has 393. Source: definition (molar masses)."""

ENERGY = ("energy_kcal", "energy_kj", "us_energy_kcal")
WITHOUT_FIBRE = "carbohydrate_without_fibre_g"
"""Figures of several components that a mixture keeps margins for, since those of the components would overlap."""

PER_G = {
    "energy_kcal": {"fat_g": 9.0, "alcohol_g": 7.0, "protein_g": 4.0, "carbohydrate_g": 4.0},
    "energy_kj": {"fat_g": 37.0, "alcohol_g": 29.0, "protein_g": 17.0, "carbohydrate_g": 17.0},
    "us_energy_kcal": {"fat_g": 9.0, "alcohol_g": 7.0, "protein_g": 4.0, "carbohydrate_g": 4.0},
}
"""Energy per g, the largest first. Source: eu-1169-2011, Annex XIV; us_energy_factors.csv."""

LESS_PER_G_FIBRE = {"energy_kcal": 2.0, "energy_kj": 9.0, "us_energy_kcal": 0.0}
"""By how much a g of fibre has less energy than a g of other carbohydrate."""

TRANS_IN_MILK_FAT, TRANS_IN_EGG_FAT = (0.019, 0.05), (0.0039, 0.0061)
"""The shares of milk fat and of egg fat that are trans fat, where nobody analysed a food. Source: derivation: the least
and the most of the milk products and of the eggs in foods.csv that were analysed; conjugated acids do not count."""

_MSNF = "milk_solids_not_fat_g"
_WHOLES = {part: whole for whole, parts in PARTS.items() for part in parts}
_OTHER_WHOLES = {part: whole for part, whole in FOLLOWS.items() if part.endswith("_g")}


@lru_cache(maxsize=1024)
def ranges_of(food: Food) -> Mapping[str, Range]:
    """The range of every content that is not known exactly; the highest is infinite where nothing bounds it.

    An unknown proximate (water, protein, fat, carbohydrate, ash, alcohol) is at most what the known ones leave of
    100 g, and at least the sum of its known parts. A part is at most its whole without the other known parts. A range
    that the food states holds within these.

    Source:
        derivation (mass balance).

    >>> from crumbcoat_calc.foods.table import food_with
    >>> paste = food_with(None, name="nut paste", stated={"fat_g": 50.0, "protein_g": 20.0, "sugars_g": 6.0})
    >>> ranges_of(paste)["water_g"], ranges_of(paste)["carbohydrate_g"], ranges_of(paste)["lactose_g"]
    ((0.0, 24.0), (6.0, 30.0), (0.0, 6.0))
    """
    return MappingProxyType({component: span for component, span in _ends(food).items() if span[1] > span[0]})


def range_of(food: Food, component: str) -> Range:
    """The range of one content of 100 g; both ends are the same if it is known."""
    return _ends(food)[component]


@lru_cache(maxsize=1024)
def _ends(food: Food) -> Mapping[str, Range]:
    """The range of every content, also of those that are known."""
    found: dict[str, Range] = {}
    ends: dict[str, Range] = {}
    for component, content in zip(COMPONENTS, food.per_100g, strict=True):
        stated = food.ranges.get(component)
        ends[component] = stated or ((0.0, inf) if content is None else (content, content))
        if content is None or stated:
            found[component] = ends[component]
    if found:
        for whole in ("sugars_g", "carbohydrate_g", "fat_g"):
            _raise_to_parts(whole, found, ends)
        _bound_proximates(found, ends)
        for component in COMPONENTS:
            if component in found and component not in PROXIMATES:
                ends[component] = _within(ends[component], _most(component, ends))
        if "trans_fat_g" in found and "trans_fat_g" not in food.ranges:
            ends["trans_fat_g"] = _trans(food.group, ends)
    return ends


@lru_cache(maxsize=1024)
def margins_of(food: Food) -> Mapping[str, Range]:
    """How far each content and each figure of several can be below and above what the lowest contents give.

    The lowest contents have nothing below. Energy is the most if what is left of 100 g is fat, and the least without
    it and with all the fibre that there can be.
    """
    ranges = ranges_of(food)
    margins = {component: (0.0, high - low) for component, (low, high) in ranges.items()}
    if any(component in ranges for component in (*PROXIMATES, "fibre_g")):
        span = {component: range_of(food, component) for component in (*PROXIMATES, "fibre_g")}
        margins |= {key: margin for key in ENERGY if any(margin := _energy_margin(key, span))}
        (low, high), (least, most) = span["carbohydrate_g"], span["fibre_g"]
        if high > low or most > least:
            at_lowest = max(0.0, low - least)
            margins[WITHOUT_FIBRE] = (at_lowest - max(0.0, low - most), max(0.0, high - least) - at_lowest)
    return MappingProxyType(margins)


def _energy_margin(key: str, span: Mapping[str, Range]) -> Range:
    left = 100 - fsum(span[component][0] for component in PROXIMATES)
    above = 0.0
    for component, per_g in PER_G[key].items():
        more = max(0.0, min(left, span[component][1] - span[component][0]))
        above += per_g * more
        left -= more
    least, most = span["fibre_g"]
    more_fibre = max(0.0, min(most, max(least, span["carbohydrate_g"][0])) - least)
    return LESS_PER_G_FIBRE[key] * more_fibre, above


def _trans(group: str, ends: Mapping[str, Range]) -> Range:
    """Trans fat by what milk fat and egg fat have of it; other fat may have any."""
    milk, fat, (low, high) = ends["milk_fat_g"], ends["fat_g"], ends["trans_fat_g"]
    known, shares = (fat, TRANS_IN_EGG_FAT) if group == "egg" else (milk, TRANS_IN_MILK_FAT)
    other_g = max(0.0, fat[1] - known[0])
    return max(low, shares[0] * known[0]), max(low, min(high, shares[1] * known[1] + other_g))


def _raise_to_parts(whole: str, found: dict[str, Range], ends: dict[str, Range]) -> None:
    if whole in found:
        low, high = found[whole]
        parts = fsum(ends[part][0] for part in PARTS[whole])
        others = [ends[part][0] for part, of in _OTHER_WHOLES.items() if of == whole]
        found[whole] = ends[whole] = (min(high, max(low, parts, *others)), high)


def _bound_proximates(found: dict[str, Range], ends: dict[str, Range]) -> None:
    low = {component: ends[component][0] for component in PROXIMATES}
    left = max(0.0, 100 - fsum(low.values()))
    for component in PROXIMATES:
        if component in found:
            found[component] = ends[component] = _within(ends[component], low[component] + left)


def _most(component: str, ends: Mapping[str, Range]) -> float:
    """The most that the wholes of a component leave for it."""
    if component == "sodium_mg":
        return SODIUM_MG_PER_G_ASH * ends["ash_g"][1]
    if component == _MSNF:
        solids = fsum(ends[part][1] for part in ("protein_g", "carbohydrate_g", "ash_g"))
        return max(0.0, min(solids, 100 - ends["water_g"][0] - ends["fat_g"][0]))
    if component in _WHOLES:
        whole = _WHOLES[component]
        return max(0.0, ends[whole][1] - fsum(ends[part][0] for part in PARTS[whole] if part != component))
    if component in _OTHER_WHOLES:
        return ends[_OTHER_WHOLES[component]][1]
    return inf


def _within(span: Range, most: float) -> Range:
    """A range that reaches no higher than the most; rounding of printed figures never leaves it empty."""
    low, high = span
    return low, max(low, min(high, most))
