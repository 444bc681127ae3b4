"""Where the regions of a map are: rows of runs, closer to each other where a border begins or ends."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Generic, TypeVar

Kind = TypeVar("Kind")
At = Callable[[float, float], Kind]

_HALVINGS = 5
"""How often the distance between two points of the grid is halved to find a border: a 32nd of it is left."""


@dataclass(frozen=True, slots=True)
class RegionRow(Generic[Kind]):
    """One line across the map at the height `y`: each region with the x where it ends, the last one at 1."""

    y: float
    runs: tuple[tuple[Kind, float], ...]

    @property
    def kinds(self) -> tuple[Kind, ...]:
        """The regions from left to right."""
        return tuple([kind for kind, _ in self.runs])


def region_rows(grid: Sequence[Sequence[Kind]], at: At[Kind]) -> tuple[RegionRow[Kind], ...]:
    """The regions of a map, from a grid of them and the rule that gave it.

    Borders are found by halving along each row. Between two rows of the same regions a border is taken as straight;
    where the regions differ, rows are added in between. Between two points of the same region there is no other one.

    Args:
        grid: the regions at evenly spaced points, in rows from y = 0 to 1, each from x = 0 to 1.
        at: the region at any x and y, 0 to 1.

    Source:
        derivation (bisection).

    >>> [row.runs for row in region_rows(["ab", "ab"], lambda x, y: "a" if x < 0.25 else "b")]
    [(('a', 0.234375), ('b', 1.0)), (('a', 0.234375), ('b', 1.0))]
    """
    rows = [_row(at, number / (len(grid) - 1), kinds) for number, kinds in enumerate(grid)]
    found = rows[:1]
    for (low, high), (below, above) in zip(pairwise(grid), pairwise(rows), strict=True):
        found += [*_between(at, (below, low), (above, high), _HALVINGS), above]
    return tuple(found)


def _row(at: At[Kind], y: float, kinds: Sequence[Kind]) -> RegionRow[Kind]:
    across = len(kinds) - 1
    runs: list[tuple[Kind, float]] = []
    for column, (left, right) in enumerate(pairwise(kinds)):
        runs += _ends(at, y, (column / across, left), ((column + 1) / across, right), _HALVINGS)
    return RegionRow(y, (*runs, (kinds[-1], 1.0)))


def _ends(
    at: At[Kind], y: float, left: tuple[float, Kind], right: tuple[float, Kind], halvings: int
) -> list[tuple[Kind, float]]:
    """Each region that ends between two points, with the place."""
    if left[1] == right[1]:
        return []
    middle = (left[0] + right[0]) / 2
    if not halvings:
        return [(left[1], middle)]
    between = (middle, at(middle, y))
    return _ends(at, y, left, between, halvings - 1) + _ends(at, y, between, right, halvings - 1)


def _between(
    at: At[Kind],
    below: tuple[RegionRow[Kind], Sequence[Kind]],
    above: tuple[RegionRow[Kind], Sequence[Kind]],
    halvings: int,
) -> list[RegionRow[Kind]]:
    """The rows to add between two, each given with its points."""
    if below[0].kinds == above[0].kinds or not halvings:
        return []
    y = (below[0].y + above[0].y) / 2
    across = len(below[1]) - 1
    kinds = [
        low if low == high else at(column / across, y)
        for column, (low, high) in enumerate(zip(below[1], above[1], strict=True))
    ]
    middle = (_row(at, y, kinds), kinds)
    return [
        *_between(at, below, middle, halvings - 1),
        middle[0],
        *_between(at, middle, above, halvings - 1),
    ]
