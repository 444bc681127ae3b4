"""Mean and spread of a class, against Python's statistics module."""

import statistics

import pytest
from crumbcoat_calc.lesson.spread import spread_of
from hypothesis import given
from hypothesis import strategies as st

NUMBERS = st.floats(-1e5, 1e5, allow_nan=False)


@given(st.lists(NUMBERS, min_size=2, max_size=40))
def test_mean_and_standard_deviation_are_those_of_statistics(values: list[float]) -> None:
    spread = spread_of(values)
    assert spread is not None
    assert spread.count == len(values)
    assert spread.mean == pytest.approx(statistics.mean(values), rel=1e-9, abs=1e-9)
    assert spread.deviation == pytest.approx(statistics.stdev(values), rel=1e-6, abs=1e-6)
    assert (spread.low, spread.high) == (min(values), max(values))


def test_one_number_has_no_spread_and_none_has_nothing() -> None:
    spread = spread_of([6.5])
    assert spread is not None
    assert (spread.mean, spread.deviation) == (6.5, None)
    assert spread_of([]) is None
