"""Least squares with one unknown, against scipy and numpy."""

import random

import pytest
from crumbcoat_calc.trials.least_squares import CONFIDENCE, slope_of, student_t


def test_t_is_that_of_scipy() -> None:
    from scipy import stats

    for free in (*range(1, 40), 100, 1000):
        assert student_t(free) == pytest.approx(stats.t.ppf((1 + CONFIDENCE) / 2, free), rel=1e-12)


def test_slope_and_band_are_those_of_numpy_and_scipy() -> None:
    import numpy
    from scipy import stats

    chance = random.Random(14)
    for count in (2, 3, 7, 20):
        points = [(chance.uniform(1, 9), chance.uniform(-5, 60)) for _ in range(count)]
        columns = numpy.array([[x] for x, _ in points])
        solution, squares, _, _ = numpy.linalg.lstsq(columns, numpy.array([y for _, y in points]), rcond=None)
        error = (squares[0] / (count - 1) / float((columns**2).sum())) ** 0.5
        found = slope_of(points)
        assert found.band is not None
        assert found.value == pytest.approx(solution[0], rel=1e-12)
        expected = stats.t.interval(CONFIDENCE, count - 1, solution[0], error)
        assert found.band == pytest.approx(expected, rel=1e-10)


def test_the_mean_has_the_usual_interval() -> None:
    from scipy import stats

    values = [34.0, 36.5, 31.0, 35.5, 33.0, 37.0]
    found = slope_of([(1.0, value) for value in values])
    expected = stats.t.interval(CONFIDENCE, 5, sum(values) / 6, stats.sem(values))
    assert (found.value, found.band) == (pytest.approx(34.5), pytest.approx(expected))


def test_one_reading_gives_no_band() -> None:
    assert slope_of([(4.0, 10.0)]).band is None
