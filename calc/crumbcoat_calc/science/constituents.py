"""What each ingredient brings to the phases of a mixture: fat, water, sugars, and what stays in suspension."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import fsum
from operator import mul

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.constants import constants

FIELDS = (
    "water_g", "milk_fat_g", "other_fat_g",
    "sucrose_g", "lactose_g", "glucose_g", "fructose_g", "maltose_g", "sugars_low_g", "sugars_high_g",
    "dissolved_protein_g", "suspended_protein_g", "milk_protein_g",
    "other_carbohydrate_g", "minerals_g", "ethanol_g", "salt_g",
)  # fmt: skip

WET_GROUPS = frozenset(("dairy", "egg", "thickener", "emulsifier"))
"""Groups whose protein is dissolved or dispersed in the water phase; that of others is in particles."""

_NAMES = ("sucrose_g", "glucose_g", "fructose_g", "lactose_g", "maltose_g")


@dataclass(frozen=True, slots=True)
class Constituents:
    """What a mixture is made of, by phase, in g.

    `sugars_low_g` and `sugars_high_g` bound the sugars that the table does not tell apart; they are counted in
    `other_carbohydrate_g` as far as they are not certain. `salt_g` is all sodium as sodium chloride, and part of
    `minerals_g`. `unknown` names, for `water`, `fat` or `milk protein`, the ingredients whose content is not known.
    """

    unknown: tuple[tuple[str, str], ...]
    water_g: float
    milk_fat_g: float
    other_fat_g: float
    sucrose_g: float
    lactose_g: float
    glucose_g: float
    fructose_g: float
    maltose_g: float
    sugars_low_g: float
    sugars_high_g: float
    dissolved_protein_g: float
    suspended_protein_g: float
    milk_protein_g: float
    other_carbohydrate_g: float
    minerals_g: float
    ethanol_g: float
    salt_g: float

    def unknown_of(self, *what: str) -> str:
        """The names of the ingredients whose content of one of these is not known, as one text."""
        if not self.unknown:
            return ""
        return ", ".join(dict.fromkeys(name for of, name in self.unknown if of in what))

    @property
    def fat_g(self) -> float:
        """All the fat."""
        return self.milk_fat_g + self.other_fat_g

    @property
    def mass_g(self) -> float:
        """All of it; the sugars not told apart count by their low bound, the rest of them being carbohydrate."""
        return (
            self.water_g + self.milk_fat_g + self.other_fat_g + self.sucrose_g + self.lactose_g + self.glucose_g
            + self.fructose_g + self.maltose_g + self.sugars_low_g + self.dissolved_protein_g
            + self.suspended_protein_g + self.other_carbohydrate_g + self.minerals_g + self.ethanol_g
        )  # fmt: skip


def constituents_of(parts: Sequence[tuple[Food, float]], boiled_off_g: float = 0.0) -> Constituents:
    """What a mixture of so many grams of each food is made of; mass is conserved, as far as the table's rows add up.

    A sugar that the table leaves out is the rest of the total sugars, where one alone is left out, and none, where
    there is no rest. Ethanol that it leaves out is the rest of the proximates. Sugars never exceed the carbohydrate
    by more than the assay does.

    Args:
        parts: foods with their mass in g, zero or more.
        boiled_off_g: water lost; at most what is there.

    Sums are rounded once, so that they come out alike in every version of Python.

    Source:
        definition (sums); usda-sr28 for the contents.

    >>> from crumbcoat_calc.foods.table import food
    >>> made = constituents_of([(food("butter_salted"), 227), (food("sugar_powdered"), 340)])
    >>> round(made.milk_fat_g, 2), round(made.sucrose_g, 2), round(made.other_carbohydrate_g, 2)
    (184.12, 332.55, 6.66)
    """
    profiles = [(_profile(food), mass_g / 100) for food, mass_g in parts if mass_g > 0]
    columns = zip(*[content for (content, _), _ in profiles], strict=True)
    weights = [weight for _, weight in profiles]
    totals = [fsum(map(mul, column, weights)) for column in columns] or [0.0] * len(FIELDS)
    totals[0] = max(0.0, totals[0] - boiled_off_g)
    unknown = tuple([pair for (_, pairs), _ in profiles for pair in pairs])
    return Constituents(unknown, *totals)


@lru_cache(maxsize=1024)
def _profile(food: Food) -> tuple[tuple[float, ...], tuple[tuple[str, str], ...]]:
    """What 100 g of a food hold of each of FIELDS, and what is not known of it, with its name."""
    content = food.content
    unknown = []
    water, fat = content("water_g"), content("fat_g")
    protein, ash, sodium = content("protein_g"), content("ash_g"), content("sodium_mg")
    if water is None:
        unknown.append("water")
    milk_fat = content("milk_fat_g")
    if fat is None or (milk_fat is None and fat > 0):
        unknown.append("fat" if fat is None else "milk fat")
    milk_protein = content("milk_protein_g")
    if milk_protein is None:
        if protein != 0:
            unknown.append("milk protein")
        milk_protein = 0.0
    carbohydrate = content("carbohydrate_g")
    known = [content(name) for name in _NAMES]
    sugars, (low, high) = _told_apart(known, content("sugars_g"), carbohydrate)
    if carbohydrate is None and content("sugars_g") is None and None in known:
        unknown.append("sugar")
    ethanol = content("alcohol_g")
    if ethanol is None:
        ethanol = max(0.0, 100 - fsum([part or 0.0 for part in (water, protein, fat, carbohydrate, ash)]))
        ethanol = 0.0 if ethanol < constants("composition")["rounding"] else ethanol
    masses = constants("molar-mass")
    wet = food.group in WET_GROUPS or (milk_protein or 0.0) >= (protein or 0.0)
    amounts = {
        "water_g": water,
        "milk_fat_g": milk_fat,
        "other_fat_g": (fat or 0.0) - (milk_fat or 0.0),
        **dict(zip(_NAMES, sugars, strict=True)),
        "sugars_low_g": low,
        "sugars_high_g": high,
        "dissolved_protein_g": protein if wet else milk_protein,
        "suspended_protein_g": 0.0 if wet else (protein or 0.0) - milk_protein,
        "milk_protein_g": milk_protein,
        "other_carbohydrate_g": max(0.0, (carbohydrate or 0.0) - fsum(sugars) - low),
        "minerals_g": ash,
        "ethanol_g": ethanol,
        "salt_g": (sodium or 0.0) / 1000 * masses["sodium_chloride"] / masses["sodium"],
    }
    return tuple([max(0.0, amounts[name] or 0.0) for name in FIELDS]), tuple([(what, food.name) for what in unknown])


def _told_apart(
    known: list[float | None], total: float | None, carbohydrate: float | None
) -> tuple[list[float], tuple[float, float]]:
    """The five sugars, and bounds for what is left of the sugars and not told apart."""
    sure = [sugar or 0.0 for sugar in known]
    open_ones = [position for position, sugar in enumerate(known) if sugar is None]
    if total is None:
        most = max(0.0, (carbohydrate or 0.0) - fsum(sure))
        return sure, (0.0, most if open_ones else 0.0)
    rest = total - fsum(sure)
    if rest <= constants("composition")["rounding"]:
        return sure, (0.0, 0.0)
    if len(open_ones) == 1:
        sure[open_ones[0]] = rest
        return sure, (0.0, 0.0)
    return sure, (rest, rest)
