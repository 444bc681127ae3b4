"""Checks: a published baker's-percentage worksheet and training slides."""

import pytest
from crumbcoat_calc.formulation.bakers_percent import bakers_percents, base_of
from hypothesis import given
from hypothesis import strategies as st


def test_a_worksheet():
    """73 pieces of 390 g of dough: flour 16747.06, water 11220.53, salt 334.94, yeast 167.47 g; 100, 67, 2 and 1."""
    masses_g = [16747.06, 11220.53, 334.94, 167.47]
    assert sum(masses_g) == pytest.approx(73 * 390)
    assert bakers_percents(masses_g, base_of(masses_g, masses_g)) == pytest.approx((100, 67, 2, 1), abs=0.001)


def test_slides():
    """40 lb of flour and 23 lb of water: 57.5 %."""
    assert bakers_percents([40, 23], 0)[1] == pytest.approx(57.5)


def test_the_base_stays_while_it_is_in_the_batch():
    published = [250, 400, 400, 5]
    assert base_of(published, published) == 1
    assert base_of(published, [900, 10, 400, 5]) == 1
    assert base_of(published, [900, 0, 400, 5]) == 2
    assert base_of(published, [0, 0, 0, 5]) == 3


@given(st.lists(st.floats(0.1, 1e4), min_size=1, max_size=20), st.floats(0.01, 1000))
def test_scaling_leaves_the_percentages_alone(masses_g, factor):
    base = base_of(masses_g, masses_g)
    bigger = bakers_percents([factor * mass_g for mass_g in masses_g], base)
    assert bigger == pytest.approx(bakers_percents(masses_g, base))
    assert max(bigger) == pytest.approx(100)
