"""Checks: scipy's root finder and integrals, IAPWS water mixed by enthalpy, hand arithmetic."""

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.choi_okos import component_properties
from crumbcoat_calc.science.constituents import constituents_of
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.heat import HeatPart, heat_content
from crumbcoat_calc.science.mixing import ingredient_temperature_c, mixing_temperature_c
from crumbcoat_calc.science.solid_fat import melting_heat_j_per_g, solid_percents
from hypothesis import given
from hypothesis import strategies as st


def specific_heat_j_per_g_k(component, t_c):
    a, b, c = component_properties()[component].specific_heat
    return a + b * t_c + c * t_c**2


def portions(*parts):
    return [HeatPart(heat_content(food(key), mass), t_c) for key, mass, t_c in parts]


def test_two_waters_mix_as_steam_tables_say():
    """IAPWS enthalpies: 300 g at 90 °C and 500 g at 10 °C."""
    from CoolProp.CoolProp import PropsSI

    hot, cold = (PropsSI("H", "T", t + 273.15, "P", 101325, "Water") for t in (90, 10))
    mixed = PropsSI("T", "H", (300 * hot + 500 * cold) / 800, "P", 101325, "Water") - 273.15
    answer = mixing_temperature_c(portions(("water_tap", 300, 90), ("water_tap", 500, 10)))
    assert answer.value == pytest.approx(mixed, abs=0.1)


def enthalpy_j(key, mass, t_c, curve, melting):
    """By scipy's integral of the specific heat, less what the solid milk fat has not taken up yet."""
    from scipy.integrate import quad

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
    return sensible - made.milk_fat_g * melting * solid_percents("milk", t_c)[curve] / 100


def solved_by_scipy(balance_j):
    """Value, low and high of the root of balance_j(t, curve, melting) over curves of solid fat and heats of melting."""
    from scipy.optimize import brentq

    typical, *ends = melting_heat_j_per_g("milk")
    corners = [(0, typical), *((curve, melting) for curve in (1, 2) for melting in ends)]
    found = [brentq(balance_j, 0, 100, corner) for corner in corners]
    return pytest.approx((found[0], min(found), max(found)), abs=1e-4)


PARTS = [("butter_unsalted", 250, 18.0), ("milk_whole", 150, 5.0), ("sugar_powdered", 400, 21.0)]


def test_mixing_solves_the_balance_that_scipy_integrates_and_solves():
    def balance_j(t, *corner):
        return sum(enthalpy_j(key, mass, t, *corner) - enthalpy_j(key, mass, t_c, *corner) for key, mass, t_c in PARTS)

    answer = mixing_temperature_c(portions(*PARTS), work_j=3000)
    assert (answer.value, answer.low, answer.high) == solved_by_scipy(lambda t, *corner: balance_j(t, *corner) - 3000)


def test_the_temperature_of_an_ingredient_solves_the_same_balance():
    def balance_j(t, *corner):
        at_target = sum(enthalpy_j(key, mass, 14, *corner) for key, mass in (*[part[:2] for part in PARTS], cream))
        return sum(enthalpy_j(*part, *corner) for part in (*PARTS, (*cream, t))) - at_target

    cream = ("cream_light", 200)
    answer = ingredient_temperature_c(portions(*PARTS), heat_content(food(cream[0]), cream[1]), 14)
    assert (answer.value, answer.low, answer.high) == solved_by_scipy(balance_j)


def test_melting_butter_cools_the_bowl():
    melting = mixing_temperature_c(portions(("butter_unsalted", 200, 10), ("milk_whole", 200, 50)))
    liquid = mixing_temperature_c(portions(("oil_canola", 162, 10), ("water_tap", 38, 10), ("milk_skim", 200, 50)))
    assert melting.high < liquid.value - 2
    assert melting.low < melting.value < melting.high


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
    back = mixing_temperature_c([*others, HeatPart(heat_content(food("milk_whole"), 150), cold.value)], work_j=2000)
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


def test_the_balance_agrees_with_the_bakers_rule_where_masses_and_heats_are_alike():
    """Bakers' rule by hand, without friction: 3 x 24 - (22 + 21) = 29."""
    others = portions(("water_tap", 100, 22), ("water_tap", 100, 21))
    assert ingredient_temperature_c(others, heat_content(food("water_tap"), 100), 24).value == pytest.approx(
        29, abs=0.05
    )


def test_what_the_thermometer_leaves_open():
    """By hand: all thermometers 0.5 K low, the mixture too; 100 g of 400 g of water must make up for 300 g: 1.5 K."""
    waters = portions(("water_tap", 300, 30), ("water_tap", 100, 10))
    mixed = mixing_temperature_c(waters, reading_k=0.5)
    assert (mixed.value - mixed.low, mixed.high - mixed.value) == pytest.approx((0.5, 0.5))
    needed = ingredient_temperature_c(waters[:1], heat_content(food("water_tap"), 100), 25, reading_k=0.5)
    assert needed.high - needed.value == pytest.approx(1.5, abs=0.02)
