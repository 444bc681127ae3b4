"""Texts of the baker's percentages of a batch."""

from math import fsum

from crumbcoat_calc.formulation.bakers_percent import bakers_percents, base_of
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import plain_number_text


def bakers_percent_texts(batch: Batch) -> Texts:
    """`bakers.base`: the ingredient that counts as 100; `rows.bakers`: each ingredient and their sum.

    A row holds the name, the parts per 100 of the base, and the share of all that is weighed in.
    """
    masses_g = [weighed.inside_g for weighed in batch.weighed]
    base = base_of([ingredient.mass_g for ingredient in batch.recipe.ingredients], masses_g)
    percents, total_g = bakers_percents(masses_g, base), fsum(masses_g)
    rows = [
        [weighed.name, _parts_text(percent), f"{_parts_text(100 * weighed.inside_g / total_g)} %"]
        for weighed, percent in zip(batch.weighed, percents, strict=True)
        if weighed.inside_g > 0
    ]
    return {
        "bakers.base": f"per 100 of {batch.weighed[base].name}",
        "rows.bakers": [*rows, ["All that is weighed in", _parts_text(fsum(percents)), "100 %"]],
    }


def _parts_text(parts: float) -> str:
    """Parts per 100, to a tenth; to a hundredth below one.

    >>> _parts_text(149.78), _parts_text(100.0), _parts_text(0.416)
    ('149.8', '100', '0.42')
    """
    return plain_number_text(parts, 1 if parts >= 0.995 else 2)
