"""Checks: scipy's root finder and integrals, IAPWS water mixed by enthalpy, hand arithmetic."""

import pytest
from CoolProp.CoolProp import PropsSI
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.choi_okos import specific_heat_j_per_g_k
from crumbcoat_calc.science.constituents import constituents_of
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.heat import (
    friction_from_measurement_c,
    heat_content,
    ingredient_temperature_c,
    liquid_temperature_by_rule_c,
    mixer_work_j,
    mixing_temperature_c,
    specific_heat_of_mixture_j_per_g_k,
)
from crumbcoat_calc.science.milk_fat import melting_heat_j_per_g, solid_percents
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq


def portions(*parts):
    return [(heat_content(food(key), mass), t_c) for key, mass, t_c in parts]


def test_two_waters_mix_as_steam_tables_say():
    """IAPWS enthalpies: 300 g at 90 °C and 500 g at 10 °C."""
    hot, cold = (PropsSI("H", "T", t + 273.15, "P", 101325, "Water") for t in (90, 10))
    mixed = PropsSI("T", "H", (300 * hot + 500 * cold) / 800, "P", 101325, "Water") - 273.15
    answer = mixing_temperature_c(portions(("water_tap", 300, 90), ("water_tap", 500, 10)))
    assert answer.value == pytest.approx(mixed, abs=0.1)


def test_mixing_solves_the_balance_that_scipy_integrates_and_solves():
    parts = [("butter_unsalted", 250, 18.0), ("milk_whole", 150, 5.0), ("sugar_powdered", 400, 21.0)]
    melting = melting_heat_j_per_g()[0]

    def enthalpy(key, mass, t_c):
        made = constituents_of([(food(key), mass)])
        sugars = made.sucrose_g + made.lactose_g + made.glucose_g + made.fructose_g + made.maltose_g + made.sugars_low_g
        masses = {
            "water": made.water_g + made.ethanol_g,
            "protein": made.dissolved_protein_g + made.suspended_protein_g,
            "fat": made.fat_g,
            "carbohydrate": sugars + made.other_carbohydrate_g,
            "ash": made.minerals_g,
        }
        sensible = quad(lambda t: sum(m * specific_heat_j_per_g_k(name, t) for name, m in masses.items()), 0, t_c)[0]
        return sensible - made.milk_fat_g * melting * solid_percents(t_c)[0] / 100

    there = sum(enthalpy(*part) for part in parts) + 3000
    expected = brentq(lambda t: sum(enthalpy(key, mass, t) for key, mass, _ in parts) - there, 0, 100)
    assert mixing_temperature_c(portions(*parts), work_j=3000).value == pytest.approx(expected, abs=1e-4)


def test_specific_heat_by_mass_shares():
    """20 °C: fat 2.0117 and water 4.1293, half and half of an oil and water."""
    made = constituents_of([(food("oil_canola"), 100), (food("water_bottled"), 100)])
    assert specific_heat_of_mixture_j_per_g_k(made, 20).value == pytest.approx((2.0117 + 4.1293) / 2, abs=0.002)
    assert isinstance(specific_heat_of_mixture_j_per_g_k(made, 130), Withheld)


def test_the_band_of_a_syrups_specific_heat_covers_the_sugar_technologists():
    """Sugar Technologists Manual eq. 341/3, pure sucrose: 4.1868 - 0.0251 S + 7.5e-5 S t, kJ/(kg K)."""
    for percent in (20, 40, 60):
        made = constituents_of([(food("sugar_granulated"), percent), (food("water_bottled"), 100 - percent)])
        manual = 4.1868 - 0.0251 * percent + 7.5e-5 * percent * 20
        answer = specific_heat_of_mixture_j_per_g_k(made, 20)
        assert answer.low <= manual <= answer.high


def test_melting_butter_cools_the_bowl():
    melting = mixing_temperature_c(portions(("butter_unsalted", 200, 10), ("milk_whole", 200, 50)))
    liquid = mixing_temperature_c(portions(("oil_canola", 162, 10), ("water_tap", 38, 10), ("milk_skim", 200, 50)))
    assert melting.high < liquid.value - 2
    assert melting.low < melting.value < melting.high


def test_dissolving_sugar_lowers_only_the_low_end():
    """5.4 kJ/mol: 100 g of sucrose take 1578 J."""
    bowl = portions(("water_tap", 100, 20), ("sugar_granulated", 100, 20))
    plain, dissolving = mixing_temperature_c(bowl), mixing_temperature_c(bowl, dissolving_g=100)
    assert plain.value == pytest.approx(20, abs=1e-5)
    assert dissolving.value == dissolving.high == plain.value
    made = constituents_of([(food("water_tap"), 100), (food("sugar_granulated"), 100)])
    heat = 200 * specific_heat_of_mixture_j_per_g_k(made, 19).value
    assert 20 - dissolving.low == pytest.approx(5400 / 342.3 * 100 / heat, rel=0.01)


def test_equal_temperatures_stay():
    answer = mixing_temperature_c(portions(("butter_unsalted", 200, 17.3), ("milk_whole", 90, 17.3)))
    assert (answer.low, answer.value, answer.high) == pytest.approx((17.3, 17.3, 17.3), abs=1e-4)


def test_out_of_range_is_withheld():
    assert "0 to 120" in mixing_temperature_c(portions(("water_tap", 100, -5))).reason
    assert "0 to 120" in mixing_temperature_c(portions(("water_tap", 100, 150))).reason
    assert "above 120" in mixing_temperature_c(portions(("water_tap", 100, 99)), work_j=1e6).reason
    assert isinstance(mixing_temperature_c([]), Withheld)


def test_how_cold_the_milk_must_be_and_when_it_cannot():
    others = portions(("butter_unsalted", 250, 22), ("sugar_powdered", 400, 24))
    cold = ingredient_temperature_c(others, heat_content(food("milk_whole"), 150), 19, work_j=2000)
    assert isinstance(cold, Estimate)
    back = mixing_temperature_c([*others, (heat_content(food("milk_whole"), 150), cold.value)], work_j=2000)
    assert back.value == pytest.approx(19, abs=0.001)
    impossible = ingredient_temperature_c(others, heat_content(food("milk_whole"), 10), 12)
    assert "would have to be below 0 °C" in impossible.reason
    hot = ingredient_temperature_c(others, heat_content(food("milk_whole"), 10), 60)
    assert "above 120 °C" in hot.reason


@given(
    st.lists(
        st.tuples(
            st.sampled_from(
                ["butter_unsalted", "milk_whole", "sugar_powdered", "oil_canola", "egg_yolk_raw", "water_tap"]
            ),
            st.floats(1, 1000),
            st.floats(0, 100),
        ),
        min_size=1,
        max_size=6,
    ),
    st.floats(0.1, 10),
)
def test_the_mixture_lies_between_its_ingredients_and_scaling_changes_nothing(parts, factor):
    answer = mixing_temperature_c(portions(*parts))
    temperatures = [t_c for _, _, t_c in parts]
    assert min(temperatures) - 1e-4 <= answer.low <= answer.value <= answer.high <= max(temperatures) + 1e-4
    scaled = mixing_temperature_c(portions(*[(key, factor * mass, t_c) for key, mass, t_c in parts]))
    assert scaled.value == pytest.approx(answer.value, abs=1e-4)


@given(st.floats(0, 90), st.floats(0.1, 20), st.floats(0, 20000))
def test_a_warmer_ingredient_and_more_work_warm_the_bowl(t_c, warmer, work_j):
    bowl = ("butter_unsalted", 200, 18)
    one = mixing_temperature_c(portions(bowl, ("milk_whole", 100, t_c)))
    other = mixing_temperature_c(portions(bowl, ("milk_whole", 100, t_c + warmer)), work_j=work_j)
    assert other.value > one.value


def test_mixer_work_and_the_bakers_rule():
    """Bakers' rule by hand: 3 x 24 - (22 + 21) - 9 = 20; friction 3 x 26 - (22 + 24 + 20) = 12."""
    assert mixer_work_j(300, 0.5, 120) == 18000
    assert liquid_temperature_by_rule_c(24, [22, 21], 9).value == 20
    assert friction_from_measurement_c(26, [22, 24, 20]) == 12
    assert isinstance(liquid_temperature_by_rule_c(10, [30, 30], 9), Withheld)


def test_the_bakers_rule_agrees_with_the_balance_where_masses_and_heats_are_alike():
    others = portions(("water_tap", 100, 22), ("water_tap", 100, 21))
    answer = ingredient_temperature_c(others, heat_content(food("water_tap"), 100), 24)
    assert answer.value == pytest.approx(liquid_temperature_by_rule_c(24, [22, 21], 0).value, abs=0.05)
