"""Checks: hand arithmetic, and scipy's integration of the cooling law."""

import math

import pytest
from crumbcoat_calc.science.chilling import chilling_min, time_constant_min
from crumbcoat_calc.science.estimate import Withheld
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(("target", "minutes"), [(21, 34.1), (5, 119.1)])
def test_a_time_constant_of_30_minutes_in_a_refrigerator_of_4_degrees(target, minutes):
    assert chilling_min(57, target, 4, 30).value == pytest.approx(minutes, abs=0.05)


def test_it_is_the_solution_of_newtons_law():
    from scipy.integrate import solve_ivp

    path = solve_ivp(lambda _, t: -(t - 4) / 30, (0, 50), [57], rtol=1e-9, atol=1e-9)
    assert chilling_min(57, path.y[0][-1], 4, 30).value == pytest.approx(50, abs=1e-5)


@given(st.floats(10, 60), st.floats(1, 9), st.floats(5, 300), st.floats(1, 200))
def test_a_measured_pair_gives_the_bowl_back(start, surroundings, tau, after):
    later = surroundings + (start - surroundings) * math.exp(-after / tau)
    if start - later < 1e-3 or later - surroundings < 1e-3:
        return
    assert time_constant_min(start, later, after, surroundings).value == pytest.approx(tau, rel=1e-6)
    assert chilling_min(start, later, surroundings, tau).value == pytest.approx(after, rel=1e-6)


def test_without_a_measured_pair_there_is_no_time_but_common_practice():
    answer = chilling_min(25, 18, 4, None)
    assert isinstance(answer, Withheld)
    assert "about 10 min" in answer.reason


@pytest.mark.parametrize(
    "answer",
    [
        time_constant_min(25, 25, 10, 4),
        time_constant_min(25, 26, 10, 4),
        time_constant_min(25, 3, 10, 4),
        time_constant_min(25, 20, 0, 4),
        time_constant_min(4, 4, 10, 4),
        chilling_min(25, 3, 4, 30),
        chilling_min(25, 30, 4, 30),
        chilling_min(25, 18, 4, -1),
    ],
)
def test_readings_and_wishes_that_cannot_be_are_withheld(answer):
    assert isinstance(answer, Withheld)


def test_a_bowl_that_is_there_needs_no_time():
    assert chilling_min(18, 18, 4, 30).value == 0
