"""What a part of a mixture is, and what was done to it: fat that was never melted, swollen starch, set egg, cream."""

from collections.abc import Iterable
from math import fsum

from crumbcoat_calc.foods.table import OWN, Food
from crumbcoat_calc.recipe.treatment import Treatment
from crumbcoat_calc.science.carriers import brings, setting

Part = tuple[Food, float, Treatment]
"""A part of a mixture: its food, its mass in g, and what was done to it."""

_FRESH_PROTEIN = {"egg_white": 10.9, "egg_yolk": 15.86, "egg": 12.56}
"""Protein in 100 g of fresh white, yolk and egg (usda-sr28), which dried egg is counted as."""

UNMELTED_C = 30.0
"""Fat that was never in a warmer mixture keeps its frame (common practice)."""

_PLASTIC_FAT, _HARD_SHARE = 60.0, 0.3
"""A fat of 60 g in 100 g, of which 30 % are saturated or trans, keeps its shape in a kitchen (common practice)."""

_COLD_CREAM_C, _ROOM_C = 12.0, 20.0
"""Up to the first, cream whips, and what is called whipped cream in a recipe up to the second, where it does not say
how cold the cream is (common practice)."""

_MELTED_C = 40.0
"""Where milk fat is liquid (techniques-f6320): blended into milk, it makes a cream."""

_SWEET = 10.0
"""Sugar in 100 g of syrup from which starch swells late (an assumption)."""


def bringing(parts: Iterable[Part], what: str) -> list[Part]:
    """The parts that bring something, as carrier_foods.csv names it."""
    return [part for part in parts if brings(part[0]) == what]


def content_g(parts: Iterable[Part], component: str) -> float:
    """How much of a component the parts hold, in g."""
    return fsum([mass_g * (food.content(component) or 0.0) / 100 for food, mass_g, _ in parts])


def fat_g(food: Food, mass_g: float) -> float:
    """All its fat."""
    return mass_g * (food.content("fat_g") or 0.0) / 100


def other_fat_g(food: Food, mass_g: float) -> float:
    """Its fat that is not known to be milk fat."""
    return fat_g(food, mass_g) - mass_g * (food.content("milk_fat_g") or 0.0) / 100


def starch_g(food: Food, mass_g: float) -> float:
    """Starch, or where that is not known what of the carbohydrate is neither sugar nor fibre."""
    starch = food.content("starch_g")
    if starch is None:
        sugars, fibre = food.content("sugars_g") or 0.0, food.content("fibre_g") or 0.0
        starch = max(0.0, (food.content("carbohydrate_g") or 0.0) - sugars - fibre)
    return mass_g * starch / 100


def egg_g(food: Food, mass_g: float) -> float:
    """As fresh egg with as much protein."""
    fresh = next(protein for prefix, protein in _FRESH_PROTEIN.items() if food.key.startswith(prefix))
    return mass_g * (food.content("protein_g") or 0.0) / fresh


def is_white(food: Food) -> bool:
    """Whether it is egg white."""
    return food.key.startswith("egg_white")


def foams(part: Part, family: str) -> bool:
    """Whether it was whipped to a foam and not set by heat; the white of a meringue buttercream was whipped."""
    food, _, treatment = part
    whipped = treatment.foamed or (is_white(food) and family == "meringue buttercream")
    return whipped and not is_set_egg(part)


def is_set_egg(part: Part) -> bool:
    """Whether it is egg that was heated until it sets."""
    food, _, treatment = part
    return food.group == "egg" and treatment.cooked_c is not None and treatment.cooked_c >= setting("egg sets").low_c


def is_swollen(part: Part) -> bool:
    """Whether it is starch that was heated in water until it swells."""
    food, _, treatment = part
    starch = brings(food)
    if not starch.endswith("starch") or treatment.cooked_c is None:
        return False
    sweet = treatment.sugar_percent > _SWEET
    return treatment.cooked_c >= setting("starch in much sugar swells" if sweet else f"{starch} swells").high_c


def is_melted(part: Part, gel: str) -> bool:
    """Whether it was warm enough to dissolve as this gel does."""
    return part[2].warmest_c >= setting(f"{gel} melts").high_c


def is_plastic(food: Food) -> bool:
    """Whether a food is a fat that keeps its shape: butter, lard, a plant block; not nuts, cream or chocolate."""
    fat = food.content("fat_g") or 0.0
    hard = (food.content("saturated_fat_g") or 0.0) + (food.content("trans_fat_g") or 0.0)
    return (
        fat >= _PLASTIC_FAT
        and hard >= _HARD_SHARE * fat
        and food.group in ("dairy", "fat", OWN)
        and not brings(food)
        and food.key != "cream_clotted"
    )


def is_unmelted_fat(part: Part) -> bool:
    """Whether it is a fat that keeps its shape and was never melted."""
    return is_plastic(part[0]) and part[2].warmest_c <= UNMELTED_C


def whipped_creams(parts: Iterable[Part], family: str) -> list[Part]:
    """What was whipped cold: cream, and butter that was melted into milk without starch or egg that sets."""
    parts = list(parts)
    milk = any(food.group == "dairy" and has_droplets(food) and one.whipped_fat_percent for food, _, one in parts)
    thin = milk and not any(is_set_egg(part) or is_swollen(part) for part in parts)
    return [part for part in parts if _is_whipped_cream(part, family, thin)]


def _is_whipped_cream(part: Part, family: str, thin: bool) -> bool:
    food, _, treatment = part
    melted = thin and is_plastic(food) and (food.content("milk_fat_g") or 0.0) > 0 and treatment.warmest_c >= _MELTED_C
    if treatment.whipped_fat_percent is not None and treatment.whipped_c is not None:
        return treatment.whipped_c <= _COLD_CREAM_C and (melted or brings(food) == "clumped fat")
    return family == "whipped cream" and brings(food) == "clumped fat" and treatment.warmest_c <= _ROOM_C


def has_droplets(food: Food) -> bool:
    """Whether the fat of a food is in droplets as it comes: milk, cream and egg, not butter, chocolate or nuts."""
    return food.group in ("dairy", "egg", "plant alternative") and not is_plastic(food)
