"""What a recipe does to a part of a batch on its way: heated with water, warmed, whipped."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.model import Step

_ROOM_C = 20.0
"""What goes in without a temperature of its own (an assumption)."""

_WET = 0.2
"""The share of water in a vessel from which what is heated there is heated in water (common practice, no source)."""

_FOAMING_EGG_PROTEIN, _FOAMING_FAT = 0.025, 0.02
"""Egg whips to a foam with at least this share of egg protein, and at most this one of other fat (common practice)."""


@dataclass(frozen=True, slots=True)
class Treatment:
    """What has happened to a part; temperatures in °C.

    `warmest_c` is that of the warmest mixture it was in. `cooked_c` is the highest stated one that it was heated to in
    water, and `sugar_percent` the sugars in 100 g of water and sugars there. `whipped_fat_percent` is the fat in 100 g
    of what it was first beaten with by a whisk at speed, sugar left out, and `whipped_c` the temperature then, None if
    that is not stated for half of it;
    `foamed` says that this was egg with hardly any other fat.
    """

    warmest_c: float = 0.0
    cooked_c: float | None = None
    sugar_percent: float = 0.0
    whipped_fat_percent: float | None = None
    whipped_c: float | None = None
    foamed: bool = False


UNTREATED = Treatment()


def treated(
    parts: Sequence[tuple[Food, float, float | None]], before: Sequence[Treatment], step: Step, water_lost_g: float
) -> list[Treatment]:
    """The treatments of the contents of a vessel after a step; each part has its food, mass in g and temperature."""
    mass_g = fsum([part_g for _, part_g, _ in parts])
    if mass_g <= 0:
        return list(before)
    heat = fsum([part_g * (_ROOM_C if t_c is None else t_c) for _, part_g, t_c in parts]) / mass_g
    warmest_c = max(heat, step.heat_to_c or heat)
    after = [one if one.warmest_c >= warmest_c else _warmed(one, warmest_c) for one in before]
    if step.heat_to_c is not None:
        water_g = _sum(parts, "water_g") - water_lost_g
        if water_g >= _WET * mass_g:
            sugars_g = fsum([mass * _most_sugars(food) / 100 for food, mass, _ in parts])
            sugar_percent = 100 * sugars_g / (water_g + sugars_g)
            after = [_cooked(one, step.heat_to_c, sugar_percent) for one in after]
    if _whips(step):
        egg = [part for part in parts if part[0].group == "egg"]
        fat_g = _sum(parts, "fat_g") - _sum(egg, "fat_g")
        foams = _sum(egg, "protein_g") >= _FOAMING_EGG_PROTEIN * mass_g and fat_g <= _FOAMING_FAT * mass_g
        sugar_g = fsum([part_g for food, part_g, _ in parts if food.group == "sugar"])
        percent = 100 * _sum(parts, "fat_g") / (mass_g - sugar_g) if mass_g > sugar_g else 0.0
        known = [(part_g, t_c) for _, part_g, t_c in parts if t_c is not None]
        known_g = fsum([part_g for part_g, _ in known])
        whipped_c = fsum([part_g * t_c for part_g, t_c in known]) / known_g if known_g >= mass_g / 2 else None
        after = [_whipped(one, percent, whipped_c, foams) for one in after]
    return after


def _warmed(before: Treatment, t_c: float) -> Treatment:
    """As `replace` does, in a third of its time: this is done at every step of every edit."""
    return Treatment(
        t_c,
        before.cooked_c,
        before.sugar_percent,
        before.whipped_fat_percent,
        before.whipped_c,
        before.foamed,
    )


def _cooked(before: Treatment, t_c: float, sugar_percent: float) -> Treatment:
    if before.cooked_c is not None and before.cooked_c >= t_c:
        return before
    return replace(before, cooked_c=t_c, sugar_percent=sugar_percent)


def _whipped(before: Treatment, fat_percent: float, t_c: float | None, foams: bool) -> Treatment:
    after = replace(before, foamed=before.foamed or foams)
    if before.whipped_fat_percent is not None:
        return after
    return replace(after, whipped_fat_percent=fat_percent, whipped_c=t_c)


def _whips(step: Step) -> bool:
    """Whether a step beats with a whisk at a speed, as the words of the trade for tools say."""
    tool = (step.tool or "").lower()
    if step.speed in (None, "by hand") or "paddle" in tool or "hook" in tool:
        return False
    return any(word in tool for word in ("whisk", "mixer", "beater"))


def _most_sugars(food: Food) -> float:
    sugars = food.content("sugars_g")
    if sugars is not None:
        return sugars
    return max(0.0, (food.content("carbohydrate_g") or 0.0) - (food.content("starch_g") or 0.0))


def _sum(parts: Sequence[tuple[Food, float, float | None]], component: str) -> float:
    return fsum([mass_g * (food.content(component) or 0.0) / 100 for food, mass_g, _ in parts])
