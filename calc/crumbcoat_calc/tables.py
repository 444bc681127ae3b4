"""Data tables: reads `data/*.csv` into tuples of frozen rows and refuses a row without a known source."""

import csv
import io
from collections.abc import Callable, Collection
from functools import cache
from pathlib import Path
from typing import TypeVar

_DATA = Path(__file__).parent / "data"

R = TypeVar("R")

UNKNOWN = "?"


class TableError(ValueError):
    """One of our own data tables is wrong; the text is file, line and problem."""


def load_rows(name: str, row_from: Callable[[dict[str, str]], R], key: tuple[str, ...]) -> tuple[R, ...]:
    """The rows of `data/<name>.csv`, each made by `row_from` from its cells.

    No cell is blank: `?` marks an unknown value. Rows are sorted by their key.

    Args:
        name: the table's name, without folder and extension.
        row_from: makes a frozen row; may raise ValueError for a value out of range.
        key: the columns that together identify a row.

    Raises:
        TableError: with file and line, for a blank cell, a repeated or unsorted key, an unknown source or a bad value.
    """
    return rows_from(f"{name}.csv", content_of(f"{name}.csv"), row_from, key, sources())


def rows_from(
    file: str,
    content: str,
    row_from: Callable[[dict[str, str]], R],
    key: tuple[str, ...],
    known_sources: frozenset[str],
) -> tuple[R, ...]:
    """Like `load_rows`, for the content of a table passed as text."""
    reader = csv.DictReader(io.StringIO(content))
    header = reader.fieldnames or []
    rows: list[R] = []
    last: tuple[str, ...] = ()
    for cells in reader:
        place = f"{file}:{reader.line_num}"
        if None in cells or None in cells.values():
            raise TableError(f"{place}: the row does not have {len(header)} cells, as the header does")
        blank = [column for column in header if not cells[column].strip()]
        if blank:
            raise TableError(f"{place}: {blank[0]} is blank; write {UNKNOWN} for an unknown value")
        if "source" in cells and cells["source"] not in known_sources:
            raise TableError(f"{place}: the source {cells['source']!r} is not in sources.csv")
        this = tuple(cells[column] for column in key)
        if this <= last:
            raise TableError(f"{place}: {', '.join(this)} is repeated or out of order")
        last = this
        try:
            rows.append(row_from(cells))
        except ValueError as error:
            raise TableError(f"{place}: {error}") from error
    return tuple(rows)


def number_in(cells: dict[str, str], column: str, lowest: float, highest: float) -> float:
    """The number in a cell, checked against its range; the bounds are in the unit named by the column."""
    value = float(cells[column])
    if not lowest <= value <= highest:
        raise ValueError(f"{column} is {value:g}, outside {lowest:g} to {highest:g}")
    return value


@cache
def sources() -> frozenset[str]:
    """The keys of all works in `data/sources.csv`."""
    return frozenset(citations())


@cache
def citations() -> dict[str, str]:
    """The citation of each work, by its key."""
    return {row["key"]: row["citation"] for row in csv.DictReader(io.StringIO(content_of("sources.csv")))}


def public_source(text: str) -> str:
    """A source in the words that readers see: for them, what was written from memory is what nobody has looked up.

    >>> public_source("29 CFR 1910.212, from memory")
    '29 CFR 1910.212, not checked against the work'
    """
    return (
        text.replace("From memory, not seen in a published source", "Not checked against a published source")
        .replace("recalled from memory", "not checked against the work")
        .replace("from memory", "not checked against the work")
    )


@cache
def content_of(file: str) -> str:
    """The content of a table, read once."""
    return (_DATA / file).read_text(encoding="utf-8")


def preload(without: Collection[str] = ()) -> None:
    """Read every table now: a memory snapshot keeps what has been read, but no files to read from later.

    Args:
        without: files whose rows are kept by whoever reads them; their text is dropped, since it would only take room.
    """
    content_of.cache_clear()
    for file in sorted(_DATA.glob("*.csv")):
        if file.name not in without:
            content_of(file.name)
