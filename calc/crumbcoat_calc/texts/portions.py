"""Texts of how many portions a batch is enough for, at the mass of a portion as published, and of how many batches."""

import re
from math import isclose

from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.values.display import plain_number_text, rounded


def portions_text(batch: Batch) -> str:
    """The number of whole ones that can be filled, and what they are; less than one as a share of it.

    `about`, and the nearest number, where the mixture is not the published one: only the mass is sure then.
    """
    count, is_sure = _count(batch)
    return f"{'' if is_sure else 'about '}{_counted_text(count, batch.recipe.yields.of)}"


def _count(batch: Batch) -> tuple[str, bool]:
    """The number as it is shown, and whether it is sure; 0.05 of one is within what a scale and a spoon leave open."""
    is_sure = isclose(batch.portions, batch.factor * batch.recipe.yields.portions, rel_tol=1e-9)
    shown = rounded(batch.portions, 1)
    if shown < 1:
        return plain_number_text(batch.portions, 1), is_sure
    return str(int(shown) if is_sure else rounded(batch.portions, 0)), is_sure


def one_portion_text(batch: Batch) -> str:
    """One of its portions: `1 of 24 cupcakes`, or `1 layer of a 20 cm cake` where there is only one."""
    if _count(batch)[0] == "1":
        return _counted_text("1", batch.recipe.yields.of)
    return f"1 of {portions_text(batch)}"


def batches_text(factor: float, digits: int = 3) -> str:
    """A number of batches.

    >>> batches_text(1), batches_text(0.7317, 2)
    ('1 batch', '0.73 batches')
    """
    shown = plain_number_text(factor, digits)
    return f"{shown} {batch_word(shown)}"


def batch_word(shown: str) -> str:
    """What follows a number of batches as it is shown."""
    return "batch" if shown == "1" else "batches"


def _counted_text(count: str, of: str) -> str:
    times = " ×" if of[:1].isdigit() else ""  # Two cakes of 20 cm are "2 × 20 cm cake".
    return f"{count}{times} {_one_of(of) if count == '1' else of}"


def _one_of(of: str) -> str:
    """A single one of what a recipe yields: the noun is the last word before `of`, `with` and the like, or a comma.

    >>> _one_of("layers of a 20 cm cake"), _one_of("small pastries, filled"), _one_of("20 cm cake, coated")
    ('layer of a 20 cm cake', 'small pastry, filled', '20 cm cake, coated')
    """
    noun = re.split(r",| \(| (?:of|with|for|in|on|to|at)\b", of, maxsplit=1)[0]
    for plural, single in _SINGULARS:
        if noun.endswith(plural):
            return noun.removesuffix(plural) + single + of[len(noun) :]
    return of


_SINGULARS = (("sses", "ss"), ("shes", "sh"), ("ches", "ch"), ("xes", "x"), ("ries", "ry"), ("ss", "ss"), ("s", ""))
"""The ends of English plurals, and those of one; the first that fits."""


def made_text(made: int | None) -> str:
    """Whether the recipe was made as it is written; empty if that is not said.

    >>> made_text(0), made_text(1), made_text(12), made_text(None)
    ('Worked out, not yet made', 'Made once as written', 'Made 12 times as written', '')
    """
    if made is None:
        return ""
    return f"Made {'once' if made == 1 else f'{made} times'} as written" if made else "Worked out, not yet made"
