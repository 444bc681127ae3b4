"""The ranges of what a label does not print and a kind fills in: its ratios at both ends of what is printed."""

from collections.abc import Mapping, Sequence
from math import fsum

from crumbcoat_calc.foods.components import PROXIMATES
from crumbcoat_calc.foods.stated_composition import FOLLOWS, MSNF, PARTS, SOLIDS_NOT_FAT
from crumbcoat_calc.foods.table import Food

Range = tuple[float, float]


def ranges_by_kind(base: Food, found: Food, stated: Mapping[str, Range]) -> dict[str, Range]:
    """The range of each content of a food that follows from a kind, as the single contents do in `contents_with`.

    What is left of 100 g, and each part of a content, is the least where the stated contents are the most.

    Args:
        base: the kind.
        found: the food with its single contents; a content that is not known gets no range.
        stated: the ranges of the contents that a label or a recipe states.

    Source:
        derivation (mass balance).
    """
    ends = dict(stated)
    _rest(base, found, ends)
    for whole, parts in PARTS.items():
        _parts(base, found, whole, parts, ends)
    for component, leader in FOLLOWS.items():
        if component not in stated:
            _follow(base, found, component, base.content(leader), _range(found, leader, ends), ends)
    if MSNF not in stated:
        solids = [_range(found, component, ends) for component in SOLIDS_NOT_FAT]
        whole_g = fsum(base.content(component) or 0.0 for component in SOLIDS_NOT_FAT)
        _follow(base, found, MSNF, whole_g, (fsum(low for low, _ in solids), fsum(high for _, high in solids)), ends)
    return {component: span for component, span in ends.items() if component not in stated}


def _rest(base: Food, found: Food, ends: dict[str, Range]) -> None:
    """The proximates that are not stated share what the stated ones leave; water takes it if the kind has none."""
    fixed = [component for component in PROXIMATES if component in ends]
    others = [component for component in PROXIMATES if component not in ends]
    if not fixed or any(found.content(component) is None for component in PROXIMATES):
        return
    total = fsum(found.content(component) or 0.0 for component in PROXIMATES)
    left = (
        max(0.0, min(100.0, total) - fsum(ends[component][1] for component in fixed)),
        max(0.0, max(100.0, total) - fsum(ends[component][0] for component in fixed)),
    )
    there = fsum(base.content(component) or 0.0 for component in others)
    for component in others:
        if there > 0:
            _follow(base, found, component, there, left, ends)
        elif component == "water_g":
            ends[component] = (0.0, left[1])


def _parts(base: Food, found: Food, whole: str, parts: Sequence[str], ends: dict[str, Range]) -> None:
    """The parts that are not stated share what the stated ones leave of their whole."""
    old = base.content(whole)
    if old is None:
        return
    fixed = [part for part in parts if part in ends]
    others = [part for part in parts if part not in ends]
    low, high = _range(found, whole, ends)
    left = (
        max(0.0, low - fsum(ends[part][1] for part in fixed)),
        max(0.0, high - fsum(ends[part][0] for part in fixed)),
    )
    old -= fsum(base.content(part) or 0.0 for part in fixed)
    printed = fsum(base.content(part) or 0.0 for part in others)
    for part in others:
        _follow(base, found, part, old, left, ends, at_lowest=max(old, printed))


def _follow(
    base: Food,
    found: Food,
    component: str,
    old: float | None,
    new: Range,
    ends: dict[str, Range],
    *,
    at_lowest: float | None = None,
) -> None:
    """A content in proportion to what goes from `old` to the ends of `new`.

    Args:
        at_lowest: what the low end is in proportion to; where printed parts are more than their whole, their sum, so
            that their low ends do not lift that of the whole.
    """
    content, value = base.content(component), found.content(component)
    if content is None or value is None or old is None or old <= 0:
        return
    low, high = content * new[0] / (at_lowest or old), content * new[1] / old
    ends[component] = (min(low, value), max(high, value))


def _range(found: Food, component: str, ends: Mapping[str, Range]) -> Range:
    content = found.content(component) or 0.0
    return ends.get(component, (content, content))
