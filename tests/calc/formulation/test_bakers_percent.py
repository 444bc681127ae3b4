"""Checks: a published baker's-percentage worksheet and training slides."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.formulation.bakers_percent import bakers_percents, masses_from_total_g


def test_a_worksheet():
    """73 pieces of 390 g; flour 100, water 67, salt 2, yeast 1."""
    masses = masses_from_total_g({"flour": 100, "water": 67, "salt": 2, "yeast": 1}, 73 * 390)
    expected = {"flour": 16747.06, "water": 11220.53, "salt": 334.94, "yeast": 167.47}
    assert masses == pytest.approx(expected, abs=0.05)
    assert sum(masses.values()) == pytest.approx(28470)


def test_slides():
    """40 lb of flour and 23 lb of water: 57.5 %."""
    assert bakers_percents({"flour": 40, "water": 23}, "flour")["water"] == pytest.approx(57.5)


def test_a_base_must_be_declared():
    with pytest.raises(InputError):
        masses_from_total_g({"butter": 50, "sugar": 80}, 1000)
    with pytest.raises(InputError) as caught:
        bakers_percents({"sugar": 80}, "flour")
    assert caught.value.path == ("base",)
