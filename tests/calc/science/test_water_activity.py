"""Checks against CRC freezing points, converted here by thermodynamics, and other published models."""

import csv
import math
from dataclasses import replace
from pathlib import Path

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.constituents import constituents_of
from crumbcoat_calc.science.dissolving import syrup_of
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.keeping import Advice, keeping_advice
from crumbcoat_calc.science.mixed_sugars import solutes
from crumbcoat_calc.science.water_activity import norrish_and_money_born, salt_water_activity, water_activities
from hypothesis import given
from hypothesis import strategies as st

REFERENCE = Path(__file__).parents[2] / "reference"


def norrish(water_g, dissolved):
    return norrish_and_money_born(water_g, dissolved)[0]


def money_born(water_g, dissolved):
    return norrish_and_money_born(water_g, dissolved)[1]


def activity_of_ice(t_k):
    """Water activity of a solution that freezes at t: ideal, with a constant difference of specific heats.

    Heat of fusion 6009.5 J/mol, difference of specific heats 38.1 J/(mol K), at 273.15 K.
    """
    heat, difference, gas, freezing = 6009.5, 38.1, 8.314462618, 273.15
    return math.exp(
        (heat - difference * freezing) / gas * (1 / freezing - 1 / t_k) + difference / gas * math.log(t_k / freezing)
    )


def freezing_points():
    with (REFERENCE / "freezing_points.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def activities(parts, t_c=20.0):
    made = constituents_of([(food(key), mass) for key, mass in parts])
    return water_activities(made, syrup_of(made, t_c), t_c)


@pytest.mark.parametrize("row", freezing_points(), ids=lambda row: f"{row['solute']}-{row['percent']}%")
def test_norrish_agrees_with_freezing_points(row):
    percent = float(row["percent"])
    measured = activity_of_ice(273.15 - float(row["freezing_point_depression_k"]))
    assert norrish(100 - percent, {row["solute"]: percent}) == pytest.approx(measured, abs=0.0015)


@pytest.mark.parametrize(
    ("solute", "percent", "activity"),
    [
        ("sucrose", 10, 0.9940),
        ("sucrose", 30, 0.9749),
        ("sucrose", 50, 0.9348),
        ("sucrose", 60, 0.8953),
        ("sucrose", 67, 0.8506),
        ("glucose", 50, 0.8923),
        ("fructose", 50, 0.8923),
        ("lactose", 10, 0.9938),
    ],
)
def test_norrish_reproduces_values_evaluated_apart(solute, percent, activity):
    """Evaluated with a general-purpose library from the published form with natural logarithms."""
    assert norrish(100 - percent, {solute: percent}) == pytest.approx(activity, abs=0.00006)


@pytest.mark.parametrize(("percent", "activity"), [(50, 0.9269), (60, 0.8942), (67, 0.8620)])
def test_money_and_born_reproduces_values_evaluated_apart(percent, activity):
    assert money_born(100 - percent, {"sucrose": percent}) == pytest.approx(activity, abs=0.00006)


@pytest.mark.parametrize("percent", [50, 55, 60])
def test_a_third_model_lies_within_a_hundredth_where_it_holds(percent):
    """Grover 1947 (from memory): aw = 1.04 - 0.10 E + 0.0045 E^2, g of sucrose per g of water, above 1."""
    ratio = percent / (100 - percent)
    grover = 1.04 - 0.10 * ratio + 0.0045 * ratio**2
    assert norrish(100 - percent, {"sucrose": percent}) == pytest.approx(grover, abs=0.0105)


@pytest.mark.parametrize(
    ("molality", "activity"), [(0.1, 0.9966), (0.5, 0.9835), (1, 0.9669), (3, 0.8932), (5, 0.8063)]
)
def test_salt_at_its_table_points(molality, activity):
    assert salt_water_activity(molality) == pytest.approx(activity, abs=1e-9)


@pytest.mark.parametrize("share", [0.02, 0.05, 0.08, 0.10])
def test_salt_agrees_with_the_freezing_points_of_brine(share):
    """Freezing points of sodium chloride brine from a general-purpose library's data (Melinder)."""
    from CoolProp.CoolProp import PropsSI

    t_k = PropsSI("T_freeze", "T", 273.15, "P", 101325, f"INCOMP::MNA[{share}]")
    molality = 1000 * share / (1 - share) / 58.44
    assert salt_water_activity(molality) == pytest.approx(activity_of_ice(t_k), abs=0.004)


def test_ethanol_within_its_limit_is_nearly_ideal():
    """Freezing point of 4.76 % ethanol (5 g per 100 g of water), same library, against the ideal mole fraction."""
    from CoolProp.CoolProp import PropsSI

    t_k = PropsSI("T_freeze", "T", 273.15, "P", 101325, "INCOMP::MEA[0.0476]")
    ideal = (100 / 18.015) / (100 / 18.015 + 5 / 46.07)
    assert activity_of_ice(t_k) == pytest.approx(ideal, abs=0.002)


def test_norrish_constants_are_for_natural_logarithms():
    """Norrish 1966 is also printed with constants for log10, smaller by 2.303: those would miss by over 0.05."""
    measured = activity_of_ice(273.15 - 4.45)
    x = (40 / 342.3) / (40 / 342.3 + 60 / 18.015)
    wrong = (1 - x) * math.exp(-(solutes()["sucrose"].root_k ** 2) / 2.303 * x * x)
    assert abs(norrish(60, {"sucrose": 40}) - measured) < abs(wrong - measured)


def test_the_other_constant_in_use_for_fructose_changes_little():
    """2.15 instead of 2.25: less than 0.002 below 50 %."""
    x = (50 / 180.16) / (50 / 180.16 + 50 / 18.015)
    assert norrish(50, {"fructose": 50}) == pytest.approx((1 - x) * math.exp(-2.15 * x * x), abs=0.002)


def test_several_sugars_by_norrishs_rule_and_by_ross():
    """Ross 1975 (each alone in all the water, product) reads about 0.01 higher in a sucrose-rich mix."""
    mixed = norrish(33, {"sucrose": 57, "glucose": 10})
    ross = norrish(33, {"sucrose": 57}) * norrish(33, {"glucose": 10})
    assert 0.002 < ross - mixed < 0.02


def test_one_sugar_in_two_spoons_is_one_sugar():
    assert norrish(50, {"glucose": 20, "fructose": 20}) == pytest.approx(norrish(50, {"glucose": 40}), abs=1e-12)


def test_undissolved_sucrose_pins_the_water_activity():
    """More powdered sugar cannot lower it further: 0.850 to 0.854 at 20 °C by the solubility tables."""
    some = activities([("butter_salted", 227), ("sugar_granulated", 340)])
    more = activities([("butter_salted", 227), ("sugar_granulated", 680)])
    for one, other in zip(some, more, strict=True):
        assert other.value == pytest.approx(one.value, abs=1e-4)
    saturated = activities([("water_tap", 100), ("sugar_granulated", 400)])
    assert 0.850 <= saturated[0].value <= 0.854


def test_both_models_and_their_spread():
    one, other, both, sure = activities([("water_tap", 100), ("sugar_granulated", 400)])
    assert other.value - one.value == pytest.approx(0.0115, abs=0.001)
    assert both.value == one.value
    assert sure == both
    assert both.low <= one.value < other.value <= both.high


def test_alcohol_widens_the_band_and_never_raises_it():
    dry = activities([("water_tap", 100), ("sugar_granulated", 100)])
    vanilla = activities([("water_tap", 100), ("sugar_granulated", 100), ("vanilla_extract", 5)])
    assert vanilla.norrish.low < dry.norrish.low - 0.004
    rum = activities([("water_tap", 50), ("rum_80_proof", 30), ("sugar_granulated", 60)])
    assert rum.both.low < 0.9 < rum.both.high
    spirit = activities([("alcohol_pure", 100), ("sugar_granulated", 60)])
    assert all(isinstance(answer, Withheld) and "alcohol" in answer.reason for answer in spirit)


def test_chocolate_with_cream_is_near_a_saturated_syrup_and_never_clears():
    """A saturated syrup has 0.850 to 0.854; 0.79 would be all the sugar of the chocolate in solution.

    Where the sugars that are not listed were lactose, hardly any would dissolve: that end counts for keeping.
    """
    answer = activities([("chocolate_semisweet_chips", 200), ("cream_heavy_whipping", 60)])
    assert answer.both.value == pytest.approx(0.85, abs=0.005)
    assert answer.both.low < 0.79 < answer.both.high < 0.87
    assert answer.sure.high > 0.95
    assert keeping_advice(answer.sure, 6.0) is Advice.NEEDS_ASSESSMENT


def test_honey_is_as_dry_as_it_is_known_to_be():
    """White and others 1962, as restated, by hand: Norrish for 38.38 fructose, 31.31 glucose, 8.62 others, 17.2 water.

    With all of it in solution: X of water 0.6986, sum of sqrt(K) X 0.4638; 0.6986 exp(-0.2151) = 0.563.
    """
    by_hand = norrish(17.2, {"fructose": 38.38, "glucose": 31.31, "maltose": 8.62})
    assert by_hand == pytest.approx(0.563, abs=0.001)
    answer = activities([("honey", 100)])
    assert answer.both.low - 0.02 < by_hand < answer.both.high


def test_high_fructose_syrup_and_invert_syrup_agree_between_the_models():
    """HFCS 42 is 42 fructose, 53 glucose, 5 higher of its solids (Flood and Puagsa 2000); full invert 47.5, 47.5, 5.

    At 71 and 72 % solids Money and Born, which needs no constants, is within 0.005 of Norrish.
    """
    for water, sugars in (
        (29, {"fructose": 42, "glucose": 53, "maltose": 5}),
        (28, {"fructose": 47.5, "glucose": 47.5, "sucrose": 5}),
    ):
        syrup = {name: part * (100 - water) / 100 for name, part in sugars.items()}
        one, other = norrish_and_money_born(water, syrup)
        assert one == pytest.approx(other, abs=0.005)


def test_beyond_the_salt_table_and_the_temperatures_it_is_withheld():
    assert isinstance(activities([("water_tap", 100), ("salt_table", 36)])[2], Withheld)
    assert isinstance(activities([("water_tap", 100), ("sugar_granulated", 100)], 60)[2], Withheld)


@given(st.floats(0, 200), st.floats(0.5, 20))
def test_more_dissolved_sugar_lowers_it(sugar_g, more_g):
    assert norrish(100, {"sucrose": sugar_g + more_g}) < norrish(100, {"sucrose": sugar_g})
    assert money_born(100, {"sucrose": sugar_g + more_g}) < money_born(100, {"sucrose": sugar_g})


@given(st.floats(0.1, 50), st.floats(1, 300), st.floats(1, 100), st.floats(0, 10))
def test_scaling_the_batch_leaves_it_alone(factor, sugar, water, salt):
    parts = [("water_tap", water), ("sugar_granulated", sugar), ("salt_table", salt)]
    one = activities(parts)[2]
    other = activities([(key, mass * factor) for key, mass in parts])[2]
    assert type(one) is type(other)
    if isinstance(one, Estimate):
        assert other.value == pytest.approx(one.value, rel=1e-9)
        assert 0 < one.low <= one.value <= one.high <= 1


@pytest.mark.parametrize("kind", ["milk_whole", "milk_skim"])
def test_milk_has_the_water_activity_at_which_it_freezes(kind):
    """It freezes at -0.54 °C, -0.52 to -0.56: milk-freezing; 0.9948 ± 0.0002, evaluated apart from this equation."""
    low, typical, high = (activity_of_ice(273.15 - fpd_k) for fpd_k in (0.56, 0.54, 0.52))
    assert typical == pytest.approx(0.9948, abs=0.00005)
    norrish, _, both, sure = activities([(kind, 100)])
    assert norrish.value == pytest.approx(typical, abs=0.0002)
    assert both.low < low
    assert high < both.high < sure.high


def test_salts_of_milk_lower_it_as_ideal_solutes_do_and_never_for_advice():
    """By hand: 100 g of skimmed-milk powder in 300 g of water has 96 g of solids, so 86 mmol (67 to 106)."""
    made = constituents_of([(food("milk_powder_skim"), 100), (food("water_tap"), 300)])
    syrup = syrup_of(made, 20.0)
    bare = water_activities(replace(made, milk_solids_not_fat_g=0.0), syrup, 20.0)
    full = water_activities(made, syrup, 20.0)
    water, spread = syrup.water_g / 18.015, {"value": 0.0, "low": -0.0015, "high": 0.0015}
    for name, mmol in (("value", 0.9), ("low", 1.1), ("high", 0.7)):
        lower = water / (water + made.milk_solids_not_fat_g * mmol / 1000)
        before, after = (getattr(one.norrish, name) - spread[name] for one in (bare, full))
        assert after == pytest.approx(before * lower)
    assert full.sure.high == bare.sure.high
