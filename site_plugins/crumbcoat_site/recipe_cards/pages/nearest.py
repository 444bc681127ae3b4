"""The nearest of many points in space, without a comparison with each of them: a k-d tree."""

from bisect import insort
from collections.abc import Iterable, Sequence
from math import dist
from typing import NamedTuple

Point = tuple[float, ...]

_LEAF = 12
"""As many places are searched one by one."""

_ROUNDING = 1e-9
"""A distance that floats make too small by less than this does not decide what is passed over."""


class Branch(NamedTuple):
    """Places divided where `axis` is `at`: lower ones, and the others."""

    axis: int
    at: float
    low: "Tree"
    high: "Tree"


Place = tuple[Point, tuple[str, ...]]
"""A point with the names that are there, in the order of the alphabet."""

Tree = Branch | tuple[Place, ...]


def tree_of(named: Iterable[tuple[str, Point]]) -> Tree:
    """The tree of named points; several names can be at one point."""
    places: dict[Point, list[str]] = {}
    for name, point in sorted(named):
        places.setdefault(point, []).append(name)
    return _tree([(point, tuple(names)) for point, names in places.items()])


def nearest(tree: Tree, here: Point, most: int, apart_from: str) -> list[tuple[float, str]]:
    """The nearest names, with their distances: the nearest first, of equals in the order of the alphabet.

    Args:
        most: how many at most.
        apart_from: the name that is not wanted, since it is that of the point itself.

    >>> tree = tree_of([("a", (0.0, 0.0)), ("b", (3.0, 4.0)), ("c", (0.0, 1.0)), ("d", (0.0, 1.0))])
    >>> nearest(tree, (0.0, 0.0), 2, "a"), nearest(tree, (3.0, 4.0), 1, "b")
    ([(1.0, 'c'), (1.0, 'd')], [(4.242640687119285, 'c')])
    """
    found: list[tuple[float, str]] = []
    _search(tree, here, most, apart_from, found)
    return found


def _search(tree: Tree, here: Point, most: int, apart_from: str, found: list[tuple[float, str]]) -> None:
    if isinstance(tree, Branch):
        gap = here[tree.axis] - tree.at
        near, far = (tree.low, tree.high) if gap < 0 else (tree.high, tree.low)
        _search(near, here, most, apart_from, found)
        if len(found) < most or abs(gap) <= found[-1][0] + _ROUNDING:
            _search(far, here, most, apart_from, found)
        return
    for point, names in tree:
        away = dist(here, point)
        if len(found) == most and away > found[-1][0]:
            continue
        for name in names[: most + 1]:
            if name != apart_from:
                insort(found, (away, name))
        del found[most:]


def _tree(places: Sequence[Place]) -> Tree:
    """Divided in the middle of the axis on which they are furthest apart."""
    if len(places) <= _LEAF:
        return tuple(places)
    spans = [max(values) - min(values) for values in zip(*[point for point, _ in places], strict=True)]
    axis = spans.index(max(spans))
    ordered = sorted(places, key=lambda place: place[0][axis])
    middle = len(ordered) // 2
    return Branch(axis, ordered[middle][0][axis], _tree(ordered[:middle]), _tree(ordered[middle:]))
