"""The whole label of a batch: nutrients by both regimes, ingredients, and the diets that it suits."""

from dataclasses import dataclass

from crumbcoat_calc.label.eu import EuLabel, eu_label
from crumbcoat_calc.label.ingredient_list import IngredientList, ListedIngredient, listed_ingredients_of, lists_of
from crumbcoat_calc.label.suitable import DietMark, diet_marks
from crumbcoat_calc.label.us import Serving, UsLabel, serving_of, us_label
from crumbcoat_calc.recipe.batch import Batch


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchLabel:
    """`lists` are those of the EU and of the US; `density_g_per_ml` is that of the finished food, None if not known."""

    us: UsLabel
    eu: EuLabel
    lists: tuple[IngredientList, IngredientList]
    marks: tuple[DietMark, ...]
    portion_g: float
    density_g_per_ml: float | None


def label_of(batch: Batch, density_g_per_ml: float | None) -> BatchLabel:
    """The label of a batch. A US serving is the reference amount if the density is known, or else one portion.

    Args:
        density_g_per_ml: of the finished food.
    """
    portion_g = batch.recipe.portion_g
    serving = Serving(words="1 portion", mass_g=portion_g)
    if density_g_per_ml is not None:
        serving = serving_of(density_g_per_ml)
    return BatchLabel(
        us=us_label(batch.total, serving),
        eu=eu_label(batch.total, portion_g),
        lists=lists_of(batch),
        marks=_marks_of(batch),
        portion_g=portion_g,
        density_g_per_ml=density_g_per_ml,
    )


def _marks_of(batch: Batch) -> tuple[DietMark, ...]:
    """The marks of diet of a batch and of what is eaten with it: of a decoration nothing is certain."""
    decorations = [ListedIngredient(name=extra.what, mass_g=1.0) for extra in batch.recipe.decorations if extra.eaten]
    return diet_marks([*listed_ingredients_of(batch), *decorations], batch.recipe.may_contain)
