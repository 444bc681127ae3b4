"""Borders of regions against shapes that are known exactly."""

import math
from itertools import pairwise

import pytest
from crumbcoat_calc.science.map_regions import At, RegionRow, region_rows
from hypothesis import given
from hypothesis import strategies as st

STEPS = 14


def rows_of(at: At[str]) -> tuple[RegionRow[str], ...]:
    points = [step / STEPS for step in range(STEPS + 1)]
    return region_rows([[at(x, y) for x in points] for y in points], at)


def area(rows: tuple[RegionRow[str], ...], kind: str) -> float:
    """Of a region, with straight borders between rows of the same regions, and upright ones between others."""

    def width(row: RegionRow[str]) -> float:
        starts = [0.0, *[end for _, end in row.runs]]
        return math.fsum([end - start for start, (name, end) in zip(starts, row.runs, strict=False) if name == kind])

    return math.fsum(
        [
            (high.y - low.y) * (width(low) + width(high if high.kinds == low.kinds else low)) / 2
            for low, high in pairwise(rows)
        ]
    )


def test_a_circle_has_its_area() -> None:
    """The circle of radius 0.3 is pi 0.09 large (definition); a grid of 14 steps alone is wrong by more."""
    rows = rows_of(lambda x, y: "in" if math.dist((x, y), (0.5, 0.5)) < 0.3 else "out")
    assert area(rows, "in") == pytest.approx(math.pi * 0.09, rel=0.02)
    assert area(rows, "in") + area(rows, "out") == pytest.approx(1)


def test_a_strip_that_is_narrower_than_the_grid_is_found() -> None:
    rows = rows_of(lambda x, y: "left" if x + y < 0.8 else "strip" if x + y < 0.83 else "right")
    assert area(rows, "strip") == pytest.approx((0.83**2 - 0.8**2) / 2, rel=0.1)


@given(st.floats(0.05, 0.95), st.floats(-1, 1))
def test_a_straight_border_is_where_it_is(at_x: float, slope: float) -> None:
    rows = rows_of(lambda x, y: "a" if x < at_x + slope * y else "b")
    for row in rows:
        assert row.runs[-1][1] == 1
        if len(row.runs) == 2:
            assert row.runs[0][1] == pytest.approx(at_x + slope * row.y, abs=1 / STEPS / 32)
    assert [row.y for row in rows] == sorted({row.y for row in rows})


def test_rows_are_added_only_where_regions_begin_or_end() -> None:
    assert len(rows_of(lambda x, y: "a" if x < 0.5 + 0.2 * y else "b")) == STEPS + 1
    level = rows_of(lambda x, y: "a" if y < 0.52 else "b")
    assert STEPS + 1 < len(level) <= STEPS + 1 + 5
    (below, above), *others = [(low, high) for low, high in pairwise(level) if low.kinds != high.kinds]
    assert others == []
    assert below.y <= 0.52 <= above.y < below.y + 1 / STEPS / 31
