"""Rows of a table as lines of text, for the terminal."""

from collections.abc import Sequence


def in_columns(rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows with the first column to the left and the others to the right.

    >>> in_columns([("", "mass"), ("butter", "90 g")])
    ['        mass', 'butter  90 g']
    """
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    return ["  ".join([row[0].ljust(widths[0]), *map(str.rjust, row[1:], widths[1:])]).rstrip() for row in rows]
