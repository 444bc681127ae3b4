"""Rows of a table as lines of text, for the terminal."""

from collections.abc import Sequence


def in_columns(rows: Sequence[Sequence[str]], *, of_words: bool = False) -> list[str]:
    """Rows with the first column to the left, and the others to the right, or to the left as well if they are words.

    >>> in_columns([("", "mass"), ("butter", "90 g")])
    ['        mass', 'butter  90 g']
    >>> in_columns([("Mixer 1", "Group 1", "09:30"), ("Hob 1", "all", "")], of_words=True)
    ['Mixer 1  Group 1  09:30', 'Hob 1    all']
    """
    others = str.ljust if of_words else str.rjust
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    return ["  ".join([row[0].ljust(widths[0]), *map(others, row[1:], widths[1:])]).rstrip() for row in rows]
