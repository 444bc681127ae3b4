"""What each ingredient contributes to the phases of a mixture: fat, water, sugars, and what stays in suspension."""

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
    "likely_sugars_g", "syrup_sugars_g",
    "dissolved_protein_g", "suspended_protein_g", "milk_protein_g",
    "other_carbohydrate_g", "minerals_g", "ethanol_g", "salt_g", "milk_solids_not_fat_g",
)  # fmt: skip

WET_GROUPS = frozenset(("dairy", "egg", "thickener", "emulsifier"))
"""Groups whose protein is dissolved or dispersed in the water phase; in other groups it is in particles."""

_HARDLY_SWEET = frozenset(("starch", "thickener", "spice", "nut", "flavour"))
"""Groups whose carbohydrate of unknown kind is mostly starch, fibre and acids: sugars count by their low bound."""

_SUGARS = ("sucrose_g", "glucose_g", "fructose_g", "lactose_g", "maltose_g")


@dataclass(frozen=True, slots=True)
class Constituents:
    """What a mixture is made of, by phase, in g.

    `sugars_low_g` and `sugars_high_g` are bounds for the sugars that the table does not list one by one; what is
    uncertain of them is counted in `other_carbohydrate_g`. `likely_sugars_g` is their value, `syrup_sugars_g` that of
    those that come dissolved in a syrup. `salt_g` is all sodium as sodium chloride, and is included in `minerals_g`.
    `milk_solids_not_fat_g` are counted above as well, and as far as they are known.
    `unknown` lists pairs of a content, such as `water`, and an ingredient whose content is unknown.
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
    likely_sugars_g: float
    syrup_sugars_g: float
    dissolved_protein_g: float
    suspended_protein_g: float
    milk_protein_g: float
    other_carbohydrate_g: float
    minerals_g: float
    ethanol_g: float
    salt_g: float
    milk_solids_not_fat_g: float

    def unknown_of(self, *what: str) -> str:
        """The names of the ingredients with an unknown content of one of these, as one text."""
        if not self.unknown:
            return ""
        return ", ".join(dict.fromkeys(name for of, name in self.unknown if of in what))

    @property
    def fat_g(self) -> float:
        """All the fat."""
        return self.milk_fat_g + self.other_fat_g

    @property
    def sugars_g(self) -> float:
        """All sugars that are certain; those that are not listed one by one count by their low bound."""
        return (
            self.sucrose_g + self.lactose_g + self.glucose_g + self.fructose_g + self.maltose_g + self.sugars_low_g
        )  # fmt: skip

    @property
    def mass_g(self) -> float:
        """The whole mass; uncertain sugars count as carbohydrate."""
        return (
            self.water_g + self.milk_fat_g + self.other_fat_g + self.sucrose_g + self.lactose_g + self.glucose_g
            + self.fructose_g + self.maltose_g + self.sugars_low_g + self.dissolved_protein_g
            + self.suspended_protein_g + self.other_carbohydrate_g + self.minerals_g + self.ethanol_g
        )  # fmt: skip


def constituents_of(parts: Sequence[tuple[Food, float]], boiled_off_g: float = 0.0) -> Constituents:
    """What a mixture is made of; mass is conserved as far as the table's rows add up.

    If the table leaves out one sugar alone, that sugar is the rest of the total sugars; with no rest, the sugars left
    out are zero. If it leaves out ethanol, that is the rest of the proximates. Sugars exceed the carbohydrate only as
    far as their assay does.

    Args:
        parts: foods with their mass in g, zero or more.
        boiled_off_g: water lost, at most as much as there is.

    Sums are rounded once, so they are the same in every version of Python.

    Source:
        definition (sums); ingredient-table for the contents.

    >>> from crumbcoat_calc.foods.table import food
    >>> constituents = constituents_of([(food("butter_salted"), 227), (food("sugar_powdered"), 340)])
    >>> round(constituents.milk_fat_g, 2), round(constituents.sucrose_g, 2), round(constituents.other_carbohydrate_g, 2)
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
    """The content of each of FIELDS in 100 g of a food, and what is unknown, with the food's name."""
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
    known = [content(name) for name in _SUGARS]
    sugars, (low, high) = _listed_sugars(known, content("sugars_g"), carbohydrate)
    if carbohydrate is None and content("sugars_g") is None and None in known:
        unknown.append("sugar")
    likely = low if food.group in _HARDLY_SWEET else (low + high) / 2
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
        **dict(zip(_SUGARS, sugars, strict=True)),
        "sugars_low_g": low,
        "sugars_high_g": high,
        "likely_sugars_g": likely,
        "syrup_sugars_g": likely if food.group == "syrup" else 0.0,
        "dissolved_protein_g": protein if wet else milk_protein,
        "suspended_protein_g": 0.0 if wet else (protein or 0.0) - milk_protein,
        "milk_protein_g": milk_protein,
        "other_carbohydrate_g": max(0.0, (carbohydrate or 0.0) - fsum(sugars) - low),
        "minerals_g": ash,
        "ethanol_g": ethanol,
        "salt_g": (sodium or 0.0) / 1000 * masses["sodium_chloride"] / masses["sodium"],
        "milk_solids_not_fat_g": content("milk_solids_not_fat_g"),
    }
    return tuple([max(0.0, amounts[name] or 0.0) for name in FIELDS]), tuple([(what, food.name) for what in unknown])


def _listed_sugars(
    known: list[float | None], total: float | None, carbohydrate: float | None
) -> tuple[list[float], tuple[float, float]]:
    """The five sugars, and bounds for the sugars that are not listed one by one."""
    sure = [sugar or 0.0 for sugar in known]
    missing = [position for position, sugar in enumerate(known) if sugar is None]
    if total is None:
        most = max(0.0, (carbohydrate or 0.0) - fsum(sure))
        return sure, (0.0, most if missing else 0.0)
    rest = total - fsum(sure)
    if rest <= constants("composition")["rounding"]:
        return sure, (0.0, 0.0)
    if len(missing) == 1:
        sure[missing[0]] = rest
        return sure, (0.0, 0.0)
    return sure, (rest, rest)
