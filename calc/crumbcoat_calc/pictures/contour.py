"""Lines of equal value through a grid: marching squares."""

from collections.abc import Sequence
from itertools import pairwise
from math import fsum

Point = tuple[float, float]
Segment = tuple[Point, Point]


def contour(values: Sequence[Sequence[float | None]], level: float) -> list[Segment]:
    """The line where a grid's values are at a level, as straight pieces, one or two a cell.

    Between two corners the crossing is where a straight line between their values has the level:

        at = (level - a) / (b - a)

    A cell that the line crosses twice is decided by the mean of its corners. A cell with an unknown corner has no line.

    Args:
        values: rows of values, at least two of at least two.

    Returns:
        Pieces in grid coordinates, (column, row).

    Source:
        derivation (linear interpolation).

    >>> contour([[0, 1], [0, 1]], 0.25)
    [((0.25, 0.0), (0.25, 1.0))]
    """
    pieces: list[Segment] = []
    for row, (above, below) in enumerate(pairwise(values)):
        for column in range(len(above) - 1):
            corners = (above[column], above[column + 1], below[column + 1], below[column])
            if None in corners:
                continue
            a, b, c, d = [corner or 0.0 for corner in corners]
            if (a >= level) == (b >= level) == (c >= level) == (d >= level):
                continue
            pieces += _in_cell(a, b, c, d, level, float(column), float(row))
    return pieces


def _in_cell(a: float, b: float, c: float, d: float, level: float, x: float, y: float) -> list[Segment]:
    """The pieces in one cell: a and b its upper corners, d and c its lower ones."""
    crossings: list[Point | None] = [None] * 4
    if (a >= level) != (b >= level):
        crossings[0] = (x + (level - a) / (b - a), y)
    if (b >= level) != (c >= level):
        crossings[1] = (x + 1, y + (level - b) / (c - b))
    if (d >= level) != (c >= level):
        crossings[2] = (x + (level - d) / (c - d), y + 1)
    if (a >= level) != (d >= level):
        crossings[3] = (x, y + (level - a) / (d - a))
    found = [crossing for crossing in crossings if crossing is not None]
    if len(found) == 2:
        return [(found[0], found[1])]
    top, right, bottom, left = found
    if (fsum((a, b, c, d)) / 4 >= level) == (a >= level):
        return [(top, right), (bottom, left)]
    return [(top, left), (right, bottom)]
