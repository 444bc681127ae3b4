"""The root finder against scipy's."""

import math

import pytest
from crumbcoat_calc.science.estimate import Withheld, increasing_root, outside
from hypothesis import given
from hypothesis import strategies as st


@given(st.floats(-3, 3), st.floats(0.01, 5), st.floats(0, 4))
def test_the_root_is_that_of_scipy(at, slope, bend):
    from scipy.optimize import brentq

    def function(x):
        return slope * (x - at) + bend * (x - at) ** 3

    assert increasing_root(function, -10, 10) == pytest.approx(brentq(function, -10, 10), abs=3e-6)


def test_a_kink_does_not_mislead_it():
    assert increasing_root(lambda x: 100 * (x - 3) if x > 3 else 0.001 * (x - 3), -50, 50) == pytest.approx(3, abs=2e-6)


def test_no_root_no_answer():
    assert increasing_root(math.exp, -1, 1) is None


def test_a_value_that_is_not_a_number_is_outside():
    assert isinstance(outside("the pH", float("nan"), 0, 14, ""), Withheld)
