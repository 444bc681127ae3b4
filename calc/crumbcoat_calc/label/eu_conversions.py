"""What EU law counts in other ways than tables of foods: protein as nitrogen x 6.25, acids by their own factor."""

from collections.abc import Mapping
from functools import cache
from math import fsum

from crumbcoat_calc.foods.bounds import PER_G
from crumbcoat_calc.foods.table import STATED, Food, foods
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.tables import load_rows, number_in

EU_PROTEIN = 6.25
"""The factor from nitrogen to protein for every food. Source: eu-1169-2011, Annex I(10)."""

ACID = {"energy_kcal": 3.0, "energy_kj": 13.0}
"""Energy per g of acid. Source: eu-1169-2011, Annex XIV."""

Acid = tuple[float, float]
"""Grams in 100 g of a food that its carbohydrate counts, and that it does not."""


def eu_conversions(batch: Batch) -> Mapping[str, float]:
    """What is added to components of a whole batch, in the unit of their names.

        protein: + protein * (6.25 / factor of its food - 1);    energy of that: 4 kcal and 17 kJ per g
        acid within carbohydrate: 3 - 4 kcal, 13 - 17 kJ per g;    acid beside it: 3 kcal, 13 kJ per g
        polyols of a pack: 2.4 - 4 kcal, 10 - 17 kJ per g;    erythritol: - 4 kcal, - 17 kJ

    The protein that a recipe or a pack states is taken as it is. Carbohydrate stays as it is: what is counted as less
    protein is no more sugar.

    Source:
        eu-1169-2011, Annex I(10) and XIV; factors and acids as in nitrogen_factors.csv and organic_acids.csv.
    """
    weighed_in = [(weighed.inside_g / 100, weighed.food) for weighed in batch.weighed]
    inside = [(share, food) for share, food in weighed_in if food.source != STATED]
    protein_g = fsum(
        share * (food.content("protein_g") or 0.0) * (EU_PROTEIN / nitrogen_factor(food) - 1) for share, food in inside
    )
    acids = [(share, _acids().get(food.key, (0.0, 0.0))) for share, food in inside]
    within_g, beside_g = (fsum(share * acid[place] for share, acid in acids) for place in (0, 1))
    added = {"protein_g": protein_g}
    for place, energy in enumerate(ACID):
        acid, others = ACID[energy], PER_G[energy]
        less = fsum(share * food.less_energy[place] for share, food in weighed_in)
        of_acids = (acid - others["carbohydrate_g"]) * within_g + acid * beside_g
        added[energy] = others["protein_g"] * protein_g + of_acids - less
    return added


def nitrogen_factor(food: Food) -> float:
    """The factor by which the tables of foods made its protein from nitrogen.

    The longest beginning of the kind's key in the table counts, else its group, else 6.25.

    >>> [nitrogen_factor(foods()[key]) for key in ("milk_whole", "flour_rice", "flour_t55", "egg_white_raw")]
    [6.38, 5.95, 5.7, 6.25]
    """
    parts = food.key.split("_")
    beginnings = ["_".join(parts[:length]) for length in range(len(parts), 0, -1)]
    return next((_factors()[name] for name in (*beginnings, food.group) if name in _factors()), EU_PROTEIN)


@cache
def _factors() -> Mapping[str, float]:
    return dict(load_rows("nitrogen_factors", lambda cells: (cells["of"], number_in(cells, "factor", 5, 7)), ("of",)))


@cache
def _acids() -> Mapping[str, Acid]:
    return dict(load_rows("organic_acids", _acid_from, ("food",)))


def _acid_from(cells: dict[str, str]) -> tuple[str, Acid]:
    food = foods()[cells["food"]]
    within = number_in(cells, "in_carbohydrate_g", 0, food.content("carbohydrate_g") or 0.0)
    return food.key, (within, number_in(cells, "beside_it_g", 0, 100))
