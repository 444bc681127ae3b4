"""Checks: the University of Guelph's published worked examples for overrun."""

import pytest
from crumbcoat_calc.science.estimate import Estimate, Model, Withheld
from crumbcoat_calc.science.foam import (
    air_percent,
    cup_of_foam_g,
    finished_density_g_per_ml,
    overrun_from_density_percent,
    overrun_from_volumes_percent,
    overrun_percent,
)
from hypothesis import given
from hypothesis import strategies as st


def test_one_litre_of_mix_that_becomes_one_and_a_half():
    assert overrun_from_volumes_percent(1, 1.5).value == pytest.approx(50)


@pytest.mark.parametrize(("overrun", "gross"), [(5, 134.8), (10, 130), (150, 74)])
def test_cup_table(overrun, gross):
    """A cup of 30 g that holds 110 g of mix."""
    assert cup_of_foam_g(110, 30, overrun) == pytest.approx(gross, abs=0.05)


def test_finished_density():
    assert finished_density_g_per_ml(1.05, 40) == pytest.approx(0.750, abs=0.0005)


def test_a_cup_against_the_predicted_density():
    mix = Estimate(1.2, 1.19, 1.21, Model("m", "v", "definition"))
    answer = overrun_from_density_percent(mix, 200, 236.588)
    assert answer.low < answer.value < answer.high
    assert answer.value == pytest.approx(100 * (1.2 * 236.588 / 200 - 1))
    assert overrun_from_density_percent(Withheld("why"), 200, 236.588) == Withheld("why")
    assert isinstance(overrun_from_density_percent(mix, 300, 236.588), Withheld)


@pytest.mark.parametrize(("mix", "finished"), [(110, 120), (0, 10), (110, 0)])
def test_impossible_cups_are_withheld(mix, finished):
    assert isinstance(overrun_percent(mix, finished), Withheld)


@given(st.floats(50, 500), st.floats(0, 400))
def test_there_and_back(mix, overrun):
    finished = finished_density_g_per_ml(mix, overrun)
    assert overrun_percent(mix, finished).value == pytest.approx(overrun, abs=1e-6)
    assert air_percent(overrun) == pytest.approx(100 * (1 - finished / mix))
