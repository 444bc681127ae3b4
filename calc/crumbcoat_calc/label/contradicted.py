"""Claims of an author that the recipe itself contradicts: no market would allow them, so no label shows them."""

from collections.abc import Sequence

from crumbcoat_calc.foods.allergens import words_denied
from crumbcoat_calc.foods.composition import energy_ranges
from crumbcoat_calc.label.ingredient_list import IngredientList
from crumbcoat_calc.label.nutrients import us_energy_kcal
from crumbcoat_calc.label.suitable import DIETS, ListedOrigin
from crumbcoat_calc.label.us import Serving
from crumbcoat_calc.recipe.batch import Batch

_TBSP = 0.0

LIMITS: dict[str, tuple[str, float, float, float]] = {
    "calorie-free": ("energy_kcal", 4, 5, _TBSP), "low calorie": ("energy_kcal", 40, 40, 50),
    "fat-free": ("fat_g", 0.5, 0.5, _TBSP), "low fat": ("fat_g", 3, 3, 50),
    "low saturated fat": ("saturated_fat_g", 1.5, 1, _TBSP), "cholesterol-free": ("cholesterol_mg", 0, 2, _TBSP),
    "sugar-free": ("sugars_g", 0.5, 0.5, _TBSP), "low sugar": ("sugars_g", 5, 0, _TBSP),
    "no added sugar": ("added_sugars_g", 0, 0, _TBSP), "salt-free": ("sodium_mg", 5, 5, _TBSP),
    "low salt": ("sodium_mg", 120, 140, 50),
}  # fmt: skip
"""The most of a content that a claim allows in the EU and UK in 100 g, and in the US in the last number of g, or in two
tablespoons. Source: Regulation (EC) 1924/2006 and 21 CFR 101.60 to 101.62, as in claims.csv of the site."""

_ROUNDING = 0.05


def is_contradicted(
    claim: str, batch: Batch, lists: Sequence[IngredientList], origins: Sequence[ListedOrigin], serving: Serving
) -> bool:
    """Whether an ingredient, or a figure above the limits of all markets, contradicts a claim of the author.

    What is only possible contradicts nothing.

    Args:
        serving: that of the US label.

    Source:
        eu-1169-2011, Art. 7(1)(a): food information is not misleading.
    """
    if claim in DIETS:
        return any(origin.inside for origin in origins if origin.fact == DIETS[claim][1])
    if claim in ("milk-free", "egg-free", "nut-free", "allergen-free"):
        denied = words_denied(claim.removesuffix("-free"))
        return any(word in denied for found in lists for word in found.contains)
    if claim not in LIMITS:
        return False
    component, eu, us, us_g = LIMITS[claim]
    per_g = 100 / batch.total.mass_g
    in_eu, in_us = _at_least(batch, component)
    return per_g * in_eu > eu + _ROUNDING and per_g * in_us * (us_g or serving.mass_g) / 100 > us + _ROUNDING


def _at_least(batch: Batch, component: str) -> tuple[float, float]:
    """The least of a content in the batch as the EU and as the US count it."""
    if component == "energy_kcal":
        return energy_ranges(batch.total)[0][0], us_energy_kcal(batch.total)[0]
    least = batch.total.at_least(component)
    return least, least
