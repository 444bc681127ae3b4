"""A table is read completely or refused with its line; each of our tables is sourced and sorted."""

import csv
from pathlib import Path

import crumbcoat_calc.tables
import pytest
from crumbcoat_calc.tables import TableError, citations, number_in, rows_from

DATA = Path(crumbcoat_calc.tables.__file__).parent / "data"
KNOWN = frozenset({"handbook"})
GOOD = "key,share,source\na,1,handbook\nb,2,handbook\n"


def read(content):
    return rows_from("t.csv", content, lambda cells: (cells["key"], number_in(cells, "share", 0, 10)), ("key",), KNOWN)


def test_a_good_table_is_read_in_its_order():
    assert read(GOOD) == (("a", 1.0), ("b", 2.0))


@pytest.mark.parametrize(
    ("content", "problem"),
    [
        pytest.param(GOOD.replace("b,2", "b,"), "t.csv:3: share is blank; write ?", id="a blank cell"),
        pytest.param(GOOD.replace("b,2", "a,2"), "t.csv:3: a is repeated or out of order", id="a repeated key"),
        pytest.param(GOOD.replace("a,1", "c,1"), "t.csv:3: b is repeated or out of order", id="an unsorted key"),
        pytest.param(GOOD.replace("2,handbook", "2,hearsay"), "t.csv:3: the source 'hearsay' is not in", id="a source"),
        pytest.param(
            GOOD.replace("b,2", "b,2,3"),
            "t.csv:3: the row does not have 3 cells, as the header does",
            id="a cell too many",
        ),
        pytest.param(
            GOOD.replace("b,2", "b"), "t.csv:3: the row does not have 3 cells, as the header does", id="a cell too few"
        ),
        pytest.param(GOOD.replace("b,2", "b,11"), "t.csv:3: share is 11, outside 0 to 10", id="out of range"),
        pytest.param(GOOD.replace("b,2", "b,two"), "t.csv:3: could not convert", id="not a number"),
    ],
)
def test_a_bad_table_is_refused_by_file_and_line(content, problem):
    with pytest.raises(TableError) as caught:
        read(content)
    assert str(caught.value).startswith(problem)


@pytest.mark.parametrize("path", sorted(DATA.glob("*.csv")), ids=lambda path: path.name)
def test_every_row_of_every_table_is_complete_and_its_source_is_known(path):
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    header, *rest = rows
    assert rest
    assert all(len(row) == len(header) and all(cell.strip() for cell in row) for row in rest)
    for row in rest:
        if "source" in header:
            assert row[header.index("source")] in citations()


def test_the_sources_are_sorted_and_listed_once():
    keys = list(citations())
    assert keys == sorted(set(keys))
