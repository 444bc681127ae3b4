"""Checks: Versteeg et al. 2016 (abstract), and published single values."""

import pytest
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.science.milk_fat import melting_heat_j_per_g, solid_fat_percent, solid_percents
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(("t_c", "low", "high"), [(5, 49.9, 66.1), (20, 14.6, 29.6)])
def test_the_band_covers_the_range_found_at_19_sites(t_c, low, high):
    answer = solid_fat_percent(t_c)
    assert answer.low <= low
    assert answer.high >= high


@pytest.mark.parametrize(("t_c", "percent"), [(0, 65), (10, 40), (20, 20), (35, 3), (40, 0)])
def test_the_band_covers_single_values_of_a_dairy_training_text(t_c, percent):
    answer = solid_fat_percent(t_c)
    assert answer.low <= percent <= answer.high


def test_a_value_by_another_method_is_left_outside():
    """An abstract's 20.1 % 'solidified fat' at 10 °C depends on its method."""
    assert solid_fat_percent(10).low > 20.1


def test_a_dropping_point_of_31_to_35_degrees_leaves_little_solid():
    """Versteeg et al. 2016: dropping point 30.5 to 35.4 °C."""
    assert solid_fat_percent(35.4).high < 3.1
    assert solid_fat_percent(30.5).low > 0


def test_a_measured_melting_heat_lies_in_the_band():
    """80.8 J/g, Abd El-Rahman et al. 1998 (abstract)."""
    _, low, high = melting_heat_j_per_g()
    assert low < 80.8 < high


@pytest.mark.parametrize("t_c", [-0.1, 151, float("nan")])
def test_outside_the_range_it_is_withheld(t_c):
    assert isinstance(solid_fat_percent(t_c), Withheld)


@given(st.floats(0, 60), st.floats(0.01, 10))
def test_warming_never_makes_fat_solid(t_c, step):
    assert all(later <= now for now, later in zip(solid_percents(t_c), solid_percents(t_c + step), strict=True))
    typical, low, high = solid_percents(t_c)
    assert 0 <= low <= typical <= high <= 100
