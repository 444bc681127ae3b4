"""Checks: the saturation table's arithmetic, published laws of mixtures as bounds, mass balance."""

from dataclasses import replace

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.constituents import constituents_of
from crumbcoat_calc.science.dissolving import Syrup, strength_percent, syrup_of
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.science.solubility import lactose_solubility_g_per_100g_water
from hypothesis import given
from hypothesis import strategies as st


def syrup(*parts, t_c=20.0):
    return syrup_of(constituents_of([(food(key), mass) for key, mass in parts]), t_c)


def test_a_saturated_syrup_takes_what_the_table_says():
    """Antokolskaya 1964 in Mohos 2010: 203.9 g per 100 g of water at 20 °C, in the band; Vavrinecz 200.5."""
    made = syrup(("water_tap", 100), ("sugar_granulated", 500))
    per_100g = [100 * value / made.water_g for value in made.sucrose_dissolved_g]
    assert per_100g[0] == pytest.approx(200.5, abs=0.05)
    assert per_100g[1] < 203.9 < per_100g[2]
    assert made.saturated is True
    assert made.headroom_g == (0, 0, 0)


def test_headroom_is_what_still_dissolves():
    made = syrup(("water_tap", 100), ("sugar_granulated", 100))
    assert made.saturated is False
    assert made.headroom_g[0] == pytest.approx(made.water_g * 2.0046 - made.sucrose_dissolved_g[0], abs=0.05)


def test_strength_is_sugar_in_syrup():
    made = syrup(("water_tap", 50), ("sugar_granulated", 50))
    assert strength_percent(made).value == pytest.approx(50, abs=0.1)


def test_butter_with_powdered_sugar_and_cream():
    """Computed apart: 227 g butter, 340 g powdered sugar, 30 g of 36 % cream: about 107 g of it dissolves at 20 °C."""
    made = syrup(("butter_salted", 227), ("sugar_powdered", 340), ("cream_heavy_whipping", 30))
    assert made.sucrose_dissolved_g[0] == pytest.approx(107.0 * made.water_g / 53.36, rel=0.005)
    assert made.sucrose_dissolved_g[0] == pytest.approx(107.0, rel=0.02)


def test_starch_is_never_dissolved():
    made = syrup(("water_tap", 1000), ("sugar_powdered", 100))
    assert made.sucrose_dissolved_g[0] == pytest.approx(97.81)


def test_a_mixture_of_sugars_beyond_the_bounds_is_refused():
    answer = syrup(("water_tap", 50), ("honey", 100), ("sugar_granulated", 200))
    assert isinstance(answer, Withheld)
    assert "more than a tenth" in answer.reason


def test_a_little_lactose_only_widens_the_band():
    plain = syrup(("water_bottled", 88.13 / 0.9998), ("sugar_granulated", 300))
    milky = syrup(("milk_whole", 100), ("sugar_granulated", 300))
    assert milky.sucrose_dissolved_g[0] == pytest.approx(plain.sucrose_dissolved_g[0], rel=0.0005)
    assert milky.sucrose_dissolved_g[1] == pytest.approx(plain.sucrose_dissolved_g[1] - 5.05, abs=0.3)


def test_a_thin_mixture_of_sugars_dissolves_whatever_its_sugars():
    made = syrup(("water_tap", 300), ("honey", 50), ("sugar_granulated", 60))
    assert made.saturated is False
    assert made.sucrose_undissolved_g[0] == 0


def test_sweetened_condensed_milk_leaves_lactose_undissolved():
    """It is known to hold lactose crystals: more lactose than 18.2 g per 100 g of water dissolves at 20 °C."""
    made = constituents_of([(food("milk_condensed_sweetened"), 100)])
    lactose = made.lactose_g
    assert lactose / made.water_g > 0.182 * 1.5
    answer = syrup_of(made, 20)
    assert isinstance(answer, Syrup)
    assert answer.lactose_undissolved_g == pytest.approx(lactose - 0.1925 * made.water_g, abs=0.05)
    soluble = lactose_solubility_g_per_100g_water(20)
    assert answer.lactose_dissolved_g[2] == pytest.approx(soluble.high * made.water_g / 100)


def test_little_lactose_beside_little_sucrose_is_surely_dissolved():
    """Whipped cream: 5 g of lactose and 10 g of sugar in 100 g of water; alone 18.2 g of lactose would dissolve."""
    made = syrup(("milk_whole", 110), ("sugar_granulated", 10))
    assert made.lactose_dissolved_g[1] == made.lactose_dissolved_g[0] == made.lactose_dissolved_g[2]


def test_lactose_beside_much_sucrose_has_a_lower_end():
    made = syrup(("milk_whole", 110), ("sugar_granulated", 300))
    assert made.lactose_dissolved_g[1] < 0.25 * 0.2 * made.water_g < made.lactose_dissolved_g[0]


def test_up_to_5_g_of_ethanol_in_100_g_of_water_it_is_not_withheld():
    made = replace(constituents_of([(food("sugar_granulated"), 100)]), water_g=100.0, ethanol_g=5.0)
    assert isinstance(syrup_of(made, 20), Syrup)
    assert "ethanol" in syrup_of(replace(made, ethanol_g=5.01), 20).reason


def test_too_much_dextrose_is_refused():
    assert isinstance(syrup(("water_tap", 50), ("glucose_anhydrous", 100)), Withheld)


@pytest.mark.parametrize("t_c", [-1, 101, float("nan")])
def test_outside_the_temperatures_it_is_withheld(t_c):
    assert isinstance(syrup(("water_tap", 50), ("sugar_granulated", 10), t_c=t_c), Withheld)


def test_without_water_nothing_dissolves():
    assert "no water" in syrup(("oil_canola", 50), ("lard", 10)).reason


@given(st.floats(1, 500), st.floats(0, 1000), st.floats(0, 50), st.floats(0, 88), st.floats(0.1, 50))
def test_mass_is_conserved_and_the_band_is_one(water, sugar, milk, t_c, factor):
    parts = [("water_tap", water), ("sugar_granulated", sugar), ("milk_whole", milk)]
    made = constituents_of([(food(key), mass) for key, mass in parts])
    answer = syrup_of(made, t_c)
    if isinstance(answer, Withheld):
        assert "more than a tenth" in answer.reason
        return
    for position in range(3):
        undissolved = answer.sucrose_undissolved_g[(0, 2, 1)[position]]
        assert answer.sucrose_dissolved_g[position] + undissolved == pytest.approx(made.sucrose_g)
    assert answer.lactose_dissolved_g[0] + answer.lactose_undissolved_g == pytest.approx(made.lactose_g)
    for value, low, high in (answer.sucrose_dissolved_g, answer.sucrose_undissolved_g, answer.headroom_g):
        assert 0 <= low <= value <= high
    strength = strength_percent(answer)
    assert 0 <= strength.low <= strength.value <= strength.high < 100
    bigger = syrup_of(constituents_of([(food(key), factor * mass) for key, mass in parts]), t_c)
    assert strength_percent(bigger).value == pytest.approx(strength.value)
    assert bigger.saturated == answer.saturated


@given(st.floats(1, 500), st.floats(0, 1000), st.floats(0, 80), st.floats(0.1, 10))
def test_warmth_never_makes_sugar_fall_out(water, sugar, t_c, warmer):
    cold = syrup(("water_tap", water), ("sugar_granulated", sugar), t_c=t_c)
    warm = syrup(("water_tap", water), ("sugar_granulated", sugar), t_c=t_c + warmer)
    assert warm.sucrose_dissolved_g[0] >= cold.sucrose_dissolved_g[0] - 1e-9
