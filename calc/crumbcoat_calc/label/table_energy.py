"""Energy by factors of each food's own, as tables of foods have it: to compare with them, and never for a label."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import fsum

from crumbcoat_calc.foods.bounds import Range
from crumbcoat_calc.foods.composition import Mixture, mixture_of
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.label.nutrients import us_energy_kcal
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.tables import UNKNOWN, load_rows, number_in

_COMPONENTS = ("protein_g", "fat_g", "carbohydrate_g", "alcohol_g")


@dataclass(frozen=True, slots=True, kw_only=True)
class TableEnergy:
    """The least and the most energy of a batch; `general` names what the general factors were taken for."""

    kcal: Range
    general: tuple[str, ...]


@cache
def factors_of_foods() -> Mapping[str, tuple[float, ...]]:
    """Energy in kcal per g of protein, fat, carbohydrate with its fibre, and alcohol, by the key of the food.

    What the table does not print a factor for, the food has none of.
    """
    columns = ("protein_kcal_per_g", "fat_kcal_per_g", "carbohydrate_kcal_per_g")
    rows = load_rows("energy_factors", _row_from, columns)
    return {food: factors for factors, named in rows for food in named}


def energy_by_table(batch: Batch) -> TableEnergy:
    """The energy of a batch by the factors that USDA's table prints for each food.

        kcal = sum of (protein, fat, carbohydrate and alcohol of a food, each by the food's own factor)

    Foods of other tables and of packs have the general factors.

    Source:
        usda-sr28; cfr-101-9 (c)(1)(i)(A) and (B).
    """
    names = {weighed.food: weighed.name for weighed in batch.weighed}
    spans: list[Range] = []
    general: dict[str, None] = {}
    for part in batch.vessels[-1].parts:
        mixture = mixture_of(part.food, part.mass_g)
        factors = factors_of_foods().get(part.food.key)
        spans.append(us_energy_kcal(mixture) if factors is None else _range(mixture, factors))
        if factors is None and spans[-1][1] > 0:
            general[names.get(part.food, part.food.name)] = None
    return TableEnergy(
        kcal=(fsum([low for low, _ in spans]), fsum([high for _, high in spans])), general=tuple(general)
    )


def _range(mixture: Mixture, factors: tuple[float, ...]) -> Range:
    by_component = tuple(zip(_COMPONENTS, factors, strict=True))
    return (
        fsum([factor * mixture.at_least(component) for component, factor in by_component]),
        fsum([factor * mixture.at_most(component) for component, factor in by_component]),
    )


def _row_from(cells: dict[str, str]) -> tuple[tuple[float, ...], tuple[str, ...]]:
    named = tuple(cells["foods"].split())
    unknown = [key for key in named if key not in foods()]
    if unknown:
        raise ValueError(f"there is no food {unknown[0]!r} in foods.csv")
    columns = [f"{component.removesuffix('_g')}_kcal_per_g" for component in _COMPONENTS]
    return tuple([0.0 if cells[column] == UNKNOWN else number_in(cells, column, 0, 10) for column in columns]), named
