"""What two ingredients do within a plan, beside the scatter between batches that are made again."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_site.trial_statistics.fit import Estimated, fitted

FEWEST_FREE = 2
"""Fewer degrees of freedom, of fewer than three repeats, say nothing of the scatter (common practice)."""

FIRST, SECOND, BOTH, BEND, OTHER_BEND = "first", "second", "both", "bend", "other bend"


@dataclass(frozen=True, slots=True)
class Effects:
    """What changes a reading, by FIRST to OTHER_BEND, and the standard deviation between batches made again.

    FIRST and SECOND: from the lower to the upper bound of an ingredient. BOTH: how much more FIRST does at the upper
    bound of the second ingredient than on average. BEND: the ends, or the corners, less the middle.
    """

    found: dict[str, Estimated]
    scatter: float
    free: int


@dataclass(frozen=True, slots=True)
class TooFew:
    """Why nothing can be said, and what is needed."""

    reason: str


def effects_of(levels: Sequence[tuple[float, float]], values: Sequence[float]) -> Effects | TooFew:
    """The effects in a plan of corners and centre, or of a star; too few data say so.

    Args:
        levels: of both ingredients in each batch, -1 at the lower bound and 1 at the upper one, as really weighed.
        values: what was read of each batch.
    """
    planned = [(round(first), round(second)) for first, second in levels]
    first, second = [one for one, _ in levels], [one for _, one in levels]
    columns = {FIRST: first, SECOND: second}
    if any(a and b for a, b in planned):
        needed = {(-1, -1), (1, -1), (-1, 1), (1, 1), (0, 0)}
        columns |= {BOTH: [a * b for a, b in levels], BEND: [a * a for a in first]}
    else:
        needed = {(-1, 0), (1, 0), (0, -1), (0, 1), (0, 0)}
        columns |= {BEND: [a * a for a in first], OTHER_BEND: [b * b for b in second]}
    missing = needed - set(planned)
    if missing:
        have = "has" if len(missing) == 1 else "have"
        return TooFew(f"{len(missing)} of the {len(needed)} points of the plan {have} no reading")
    free = len(values) - len(needed)
    if free < FEWEST_FREE:
        again = planned.count((0, 0))
        there = f"there {'is' if again == 1 else 'are'} {_count(again)}"
        return TooFew(f"three repeats of the centre are needed to judge; {there}")
    fit = fitted(columns, values)
    if fit is None:
        return TooFew("what was weighed does not separate the two ingredients")
    scatter = math.sqrt(fit.squares_left / fit.free)
    if scatter <= 1e-9 * max(abs(value) for value in values):
        return TooFew("the repeats are all alike as read; read it finer, or repeat more batches")
    doubled = {name: 2.0 if name in (FIRST, SECOND, BOTH) else 1.0 for name in columns}
    found = {name: fit.terms[name].times(factor) for name, factor in doubled.items()}
    return Effects(found, scatter, fit.free)


def _count(number: int) -> str:
    return {0: "none", 1: "one", 2: "two"}.get(number, str(number))
