"""Texts of how many portions a batch is enough for, at the mass of a portion as published."""

from math import isclose

from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.values.display import plain_number_text


def portion_count_text(batch: Batch) -> str:
    """The number of portions alone."""
    return plain_number_text(batch.portions, 1)


def portions_text(batch: Batch) -> str:
    """The number and what they are; `about` where the mixture is not the published one: only the mass is sure then."""
    of = batch.recipe.yields.of
    as_published = isclose(batch.portions, batch.factor * batch.recipe.yields.portions, rel_tol=1e-9)
    times = " ×" if of[:1].isdigit() else ""  # Two cakes of 20 cm are "2 × 20 cm cake".
    return f"{'' if as_published else 'about '}{portion_count_text(batch)}{times} {of}"
