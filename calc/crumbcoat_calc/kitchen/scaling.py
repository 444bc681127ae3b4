"""How far a batch can be scaled, and what does not scale with it."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.tables import load_rows
from crumbcoat_calc.values.display import times_text

SMALLEST, LARGEST = 0.01, 1000.0
"""The allowed scaling factors; anything beyond them is probably a typing mistake."""


def checked_factor(factor: float, what: str = "factor") -> float:
    """The factor itself, if a batch may be scaled by it.

    Raises:
        InputError: at `what`, if it is outside 0.01 to 1000.
    """
    if not SMALLEST <= factor <= LARGEST:
        raise InputError(
            f"that is {times_text(factor)} times the recipe, outside {SMALLEST:g} to {LARGEST:g}",
            "check the number and its unit",
            (what,),
        )
    return factor


@dataclass(frozen=True, slots=True)
class Stock:
    """The largest batch that the ingredients on hand allow: its factor, what runs short, and leftovers in g."""

    factor: float
    short: str
    left_g: Mapping[str, float]


def factor_on_hand(needed_g: Mapping[str, float], have_g: Mapping[str, float]) -> Stock:
    """The largest factor for which the ingredients on hand suffice: the smallest have / needed.

    Args:
        needed_g: the mass of each ingredient in one batch as published, more than zero.
        have_g: the mass on hand, for one ingredient or several; of the others there is assumed to be enough.

    Raises:
        InputError: at `have` and the ingredient, if the recipe has no such ingredient or the factor is out of range.

    Source:
        derivation.

    >>> factor_on_hand({"butter": 250, "milk": 100}, {"butter": 300}).factor
    1.2
    """
    if not have_g:
        raise InputError("no ingredient is listed", "list one that is on hand, with its mass", ("have",))
    ratios = {}
    for name, grams in have_g.items():
        if needed_g.get(name, 0.0) <= 0:
            raise InputError(f"the recipe does not use {name!r}", "choose one of its ingredients", ("have", name))
        ratios[name] = grams / needed_g[name]
    short = min(ratios, key=lambda name: ratios[name])
    try:
        factor = checked_factor(ratios[short])
    except InputError as error:
        raise error.at(("have", short)) from None
    left = {name: max(0.0, grams - factor * needed_g[name]) for name, grams in have_g.items()}
    return Stock(factor, short, left)


def cooling_times(factor: float) -> tuple[float, float]:
    """By how much cooling or warming time grows for a batch that keeps its shape, as a lower and an upper limit.

        stirred, limited by the surface: factor^(1/3)
        at rest, limited by conduction inside: factor^(2/3)

    Source:
        derivation (lumped heat balance, time proportional to volume per surface; Fourier number, to length squared).

    >>> cooling_times(8)
    (2.0, 4.0)
    """
    root = math.cbrt(checked_factor(factor))
    return root, root**2


@dataclass(frozen=True, slots=True, kw_only=True)
class ScalingNote:
    """What does not scale with the batch; it `applies` to a larger batch (`up`), a smaller one (`down`) or `both`."""

    key: str
    applies: str
    topic: str
    note: str


@cache
def scaling_notes() -> tuple[ScalingNote, ...]:
    """All notes on scaling: common practice, no source."""

    def row(cells: dict[str, str]) -> ScalingNote:
        if cells["applies"] not in ("up", "down", "both"):
            raise ValueError(f"{cells['applies']!r} is not up, down or both")
        return ScalingNote(key=cells["key"], applies=cells["applies"], topic=cells["topic"], note=cells["note"])

    return load_rows("scale_notes", row, ("key",))


def scaling_notes_for(factor: float, *, near: float = 0.25) -> tuple[ScalingNote, ...]:
    """The notes for a factor; none if it is so close to 1 that little changes.

    Args:
        near: factors from 1 / (1 + near) to 1 + near need no note.

    >>> [note.key for note in scaling_notes_for(0.5) if note.applies == "down"]
    ['mixing_small', 'small_amounts']
    """
    if 1 / (1 + near) <= factor <= 1 + near:
        return ()
    way = "up" if factor > 1 else "down"
    return tuple([note for note in scaling_notes() if note.applies in (way, "both")])
