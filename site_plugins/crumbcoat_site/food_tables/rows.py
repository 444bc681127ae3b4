"""The rows of the three tables as printed, found by table and number."""

import csv
import io
import lzma
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from crumbcoat_calc.errors import InputError

TABLES = {"usda": "USDA SR28", "ciqual": "Ciqual 2025", "cofid": "CoFID 2021"}
"""The tables by the word that a recipe writes, and what they are called."""

FIND = "crumbcoat foods"
"""The command that finds a food by its name."""

_FOLDER = Path(__file__).parent
_WRITTEN = re.compile(r"(?P<table>[a-z]+)[ #:]+(?P<number>[0-9][0-9/-]*)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class TableFood:
    """A row: its table and number, its name, another name or a description, its group, and its cells by column."""

    table: str
    number: str
    name: str
    also: str
    group: str
    cells: Mapping[str, str]

    @property
    def written(self) -> str:
        """The row as a recipe names it, such as `usda 01123`."""
        return f"{self.table} {self.number}"


@cache
def rows_of(table: str) -> Mapping[str, TableFood]:
    """All rows of a table by their number."""
    found: dict[str, TableFood] = {}
    for cells in _read(f"{table}.csv.xz"):
        also = cells.pop("name_fr", "") or cells.pop("description", "")
        number, name, group = cells.pop("number"), cells.pop("name"), cells.pop("group")
        found[number] = TableFood(table=table, number=number, name=name, also=also, group=group, cells=cells)
    return found


@cache
def weights_of() -> Mapping[str, tuple[tuple[float, str, float], ...]]:
    """The household weights of USDA's foods by number: how many, of what, and what they weigh in g."""
    found: dict[str, list[tuple[float, str, float]]] = {}
    for cells in _read("usda_weights.csv.xz"):
        weight = (float(cells["amount"]), cells["measure"], float(cells["grams"]))
        found.setdefault(cells["number"], []).append(weight)
    return {number: tuple(weights) for number, weights in found.items()}


def names_a_row(written: str) -> bool:
    """Whether a kind is written as a table and a number.

    >>> names_a_row("usda 01123"), names_a_row("butter_unsalted")
    (True, False)
    """
    match = _WRITTEN.fullmatch(written.strip())
    return match is not None and match["table"].lower() in TABLES


def place_of(written: str) -> tuple[str, str]:
    """The table and the number, for what `names_a_row`; numbers of USDA have five digits."""
    match = _WRITTEN.fullmatch(written.strip())
    assert match is not None
    table, number = match["table"].lower(), match["number"]
    return table, number.zfill(5) if table == "usda" else number


def row(written: str) -> TableFood:
    """The row that a table and a number name, such as `usda 01123`, `ciqual 19584` or `cofid 12-174`.

    Raises:
        InputError: if the table has no such number.

    >>> row("usda 1123").name
    'Egg, whole, raw, fresh'
    """
    table, number = place_of(written)
    rows = rows_of(table)
    if number in rows:
        return rows[number]
    near = [other for other in rows.values() if _near(number, other.number)][:3]
    meant = "; ".join(f"`{other.written}` is {other.name}" for other in near)
    remedy = f"look it up with `{FIND} NAME`" + (f"; near it, {meant}" if near else "")
    raise InputError(f"{TABLES[table]} has no food with the number {number}", remedy)


def _near(wanted: str, number: str) -> bool:
    """Whether one digit differs, is missing or too many, or two neighbours are exchanged."""
    if len(wanted) == len(number):
        off = [at for at, (a, b) in enumerate(zip(wanted, number, strict=True)) if a != b]
        swapped = len(off) == 2 and wanted[off[0]] == number[off[1]] and wanted[off[1]] == number[off[0]]
        return len(off) == 1 or swapped
    short, long = sorted((wanted, number), key=len)
    return len(long) - len(short) == 1 and any(long[:at] + long[at + 1 :] == short for at in range(len(long)))


def _read(file: str) -> list[dict[str, str]]:
    text = lzma.decompress((_FOLDER / file).read_bytes()).decode("utf-8")
    return list(csv.DictReader(io.StringIO(text)))
