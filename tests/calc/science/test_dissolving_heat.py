"""Checks: hand arithmetic with heats of solution from memory, and the saturation curve of Vavrinecz."""

import pytest
from crumbcoat_calc.foods.table import food, foods
from crumbcoat_calc.science.dissolving_heat import SugarPart, dissolving_heat_j, has_crystals
from crumbcoat_calc.science.heat import HeatPart, heat_content
from crumbcoat_calc.science.mixing import mixing_temperature_c
from hypothesis import given
from hypothesis import strategies as st


def parts(*given_parts, brought=False):
    return [SugarPart(food(key), mass, t_c, brought) for key, mass, t_c in given_parts]


def test_all_of_a_little_sugar_dissolves():
    """By hand: 100 g of sucrose take 17 J a gram (15.5 to 18.5)."""
    typical, low, high = dissolving_heat_j(parts(("sugar_granulated", 100, 20), ("water_tap", 100, 20)))
    assert typical == pytest.approx(1700, rel=0.01)
    assert high == pytest.approx(1850, rel=0.01)
    assert low == 0


def test_no_more_dissolves_than_the_water_can_hold():
    """By hand: 100 g of water at 20 °C hold 200.5 g of sucrose (Vavrinecz), 17 J a gram."""
    typical, _, _ = dissolving_heat_j(parts(("sugar_granulated", 1000, 20), ("water_bottled", 100, 20)))
    assert typical == pytest.approx(17 * 200.5, rel=0.01)


def test_what_is_in_solution_already_takes_no_heat():
    honey = parts(("honey", 100, 20), ("milk_whole", 100, 20))
    assert dissolving_heat_j(honey) == (0, 0, 0)
    syrup = parts(("sugar_granulated", 100, 110), ("water_tap", 50, 110), brought=True)
    assert dissolving_heat_j([*syrup, *parts(("butter_unsalted", 300, 20))]) == (0, 0, 0)


def test_what_is_at_rest_dissolves_on_in_fresh_water():
    """By hand: 300 g of sucrose in 100 g of water, at rest at 20 °C, leave 99.5 g; 100 g of water dissolve them."""
    resting = parts(("sugar_granulated", 300, 20), ("water_bottled", 100, 20), brought=True)
    assert dissolving_heat_j(resting) == pytest.approx((0, 0, 0), abs=1e-6)
    typical, _, _ = dissolving_heat_j([*resting, *parts(("water_bottled", 100, 20))])
    assert typical == pytest.approx(17 * 99.5, rel=0.02)


def test_dextrose_is_colder_than_sugar():
    """From memory: 60 J/g anhydrous, 121 per g of it as the monohydrate, against 17."""
    dextrose = dissolving_heat_j(parts(("glucose_anhydrous", 10, 20), ("water_tap", 100, 20)))
    assert dextrose == pytest.approx((600, 0, 1210))


def test_a_lean_frosting_comes_out_one_to_two_degrees_colder():
    """By hand: 400 g of sugar and 150 g of milk: about 264 g dissolve, 4.5 kJ on 800 g of some 2.3 J/(g K): 2.4 °C."""
    weighed = [("butter_unsalted", 250, 20.0), ("sugar_powdered", 400, 20.0), ("milk_whole", 150, 20.0)]
    sugars = [SugarPart(food(key), mass, t_c, False) for key, mass, t_c in weighed]
    heat = [
        HeatPart(heat_content(food(key), mass, crystals=has_crystals(food(key))), t_c) for key, mass, t_c in weighed
    ]
    answer = mixing_temperature_c(heat, dissolving_j=dissolving_heat_j(sugars))
    assert 1 < 20 - answer.value < 3
    assert answer.low < answer.value < answer.high
    assert answer.high == pytest.approx(20, abs=0.01)


def test_sugar_and_chocolate_are_crystals_and_nothing_wet_is():
    assert has_crystals(food("sugar_powdered"))
    assert has_crystals(food("dextrose_monohydrate"))
    assert has_crystals(food("chocolate_dark_60_69"))
    for key in ("honey", "milk_powder_skim", "milk_condensed_sweetened", "golden_syrup", "chocolate_syrup_fudge"):
        assert key not in foods() or not has_crystals(food(key))


@given(st.floats(1, 1000), st.floats(1, 1000), st.floats(0, 1000), st.floats(0, 90))
def test_heat_is_taken_never_given_and_more_sugar_takes_more(sugar, more, water, t_c):
    one = dissolving_heat_j(parts(("sugar_granulated", sugar, t_c), ("water_tap", water, t_c)))
    other = dissolving_heat_j(parts(("sugar_granulated", sugar + more, t_c), ("water_tap", water, t_c)))
    assert 0 <= one[1] <= one[0] <= one[2]
    assert other[0] >= one[0] - 1e-6
