"""Checks against handbook tables in tests/reference and IAPWS water by a general-purpose library."""

import csv
from itertools import pairwise
from pathlib import Path

import pytest
from CoolProp.CoolProp import PropsSI
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.sugar_solution import (
    dextrose_solubility_g_per_100g_water,
    grams_per_gram_water,
    lactose_solubility_g_per_100g_water,
    saturated_percent,
    sucrose_saturation_percent,
    syrup_density_g_per_ml,
    syrup_viscosity_mpa_s,
    water_density_g_per_ml,
)
from hypothesis import given
from hypothesis import strategies as st

REFERENCE = Path(__file__).parents[2] / "reference"


def rows(name):
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize(
    ("t_c", "percent"),
    [(0, 64.447), (10, 65.429), (20, 66.718), (25, 67.471), (40, 70.105), (50, 72.116), (100, 82.650)],
)
def test_saturation_reproduces_the_published_equation_and_no_miscopied_one(t_c, percent):
    """Values of Vavrinecz' equation; the miscopied coefficients in circulation give 0.3 or more away from them."""
    assert saturated_percent(t_c) == pytest.approx(percent, abs=0.0006)


@pytest.mark.parametrize("row", rows("sucrose_handbooks.csv"), ids=lambda row: f"{row['t_c']}-degrees")
def test_saturation_agrees_with_other_tables_within_its_band(row):
    answer = sucrose_saturation_percent(float(row["t_c"]))
    for percent in (row["sokolovsky_percent"], row["russian_handbook_percent"]):
        if percent:
            assert answer.low <= float(percent) <= answer.high
    water_based = float(row["antokolskaya_g_per_100g_water"])
    assert answer.low - 0.001 <= 100 * water_based / (100 + water_based) <= answer.high + 0.001


def test_saturation_has_no_kink_as_misprinted_tables_have():
    """A widely copied table's 66.53 at 15 °C and 75.88 at 65 °C break smoothness by more than 0.3."""
    curve = [saturated_percent(t) for t in range(101)]
    seconds = [curve[t - 1] - 2 * curve[t] + curve[t + 1] for t in range(1, 100)]
    assert max(abs(other - one) for one, other in pairwise(seconds)) < 0.001
    assert abs(curve[15] - 66.53) > 0.3
    assert abs(curve[65] - 75.88) > 0.3


@pytest.mark.parametrize(("t_c", "grams"), [(5, 184.9), (20, 200.5), (25, 207.4)])
def test_grams_that_100_g_of_water_takes(t_c, grams):
    """Arithmetic from the equation."""
    assert 100 * grams_per_gram_water(saturated_percent(t_c)) == pytest.approx(grams, abs=0.05)


@pytest.mark.parametrize("row", [row for row in rows("sucrose_syrup.csv") if row["density_kg_m3"]], ids=str)
def test_density_agrees_with_the_handbook(row):
    answer = syrup_density_g_per_ml(float(row["sucrose_percent"]), float(row["t_c"]))
    assert answer.value * 1000 == pytest.approx(float(row["density_kg_m3"]), abs=0.82)


@pytest.mark.parametrize(("percent", "t_c", "density"), [(67, 20, 1328.81), (67, 5, 1336.16), (50, 40, 1219.93)])
def test_density_at_other_temperatures(percent, t_c, density):
    """Evaluated apart from this code with a general-purpose library from the published equation."""
    assert syrup_density_g_per_ml(percent, t_c).value * 1000 == pytest.approx(density, abs=0.006)


def test_the_density_of_saturated_syrup_is_smooth_where_a_printed_table_jumps():
    """Antokolskaya's 1342.7 at 25 °C is 10.0 above 20 °C and 3.0 below 30 °C; its neighbours imply about 1337.8."""
    density = [1000 * syrup_density_g_per_ml(saturated_percent(t), t).value for t in (20, 25, 30)]
    steps = [other - one for one, other in pairwise(density)]
    assert abs(steps[1] - steps[0]) < 1
    printed = (1332.7, 1342.7, 1345.7)
    assert abs((printed[2] - printed[1]) - (printed[1] - printed[0])) > 5
    # That table's densities lie above those of the CRC family, which the formula follows.
    assert density[0] == pytest.approx(printed[0], rel=0.006)
    assert density[2] == pytest.approx(printed[2], rel=0.012)


@pytest.mark.parametrize("t_c", [1, 5, 20, 40, 60, 80, 99])
def test_water_density_is_that_of_iapws(t_c):
    iapws = PropsSI("D", "T", t_c + 273.15, "P", 101325, "Water")
    assert water_density_g_per_ml(t_c) * 1000 == pytest.approx(iapws, abs=0.02)


@pytest.mark.parametrize("row", rows("sucrose_syrup.csv"), ids=lambda row: f"{row['sucrose_percent']}%-{row['t_c']}C")
def test_viscosity_agrees_with_the_handbook_within_its_stated_tolerance(row):
    answer = syrup_viscosity_mpa_s(float(row["sucrose_percent"]), float(row["t_c"]))
    assert answer.low <= float(row["viscosity_mpa_s"]) <= answer.high


@pytest.mark.parametrize(
    ("percent", "t_c", "viscosity"),
    [(20, 20, 1.967), (40, 20, 6.352), (60, 20, 59.74), (70, 20, 485.2), (60, 40, 20.90)],
)
def test_viscosity_reproduces_the_published_equation(percent, t_c, viscosity):
    assert syrup_viscosity_mpa_s(percent, t_c).value == pytest.approx(viscosity, rel=0.0005)


def test_viscosity_at_32_percent_is_not_the_misprint_of_a_copied_table():
    """Relative to water the misprint is 3.754 at 20 °C; a smooth table has about 3.55."""
    ratio = syrup_viscosity_mpa_s(32, 20).value / 1.002
    assert ratio == pytest.approx(3.55, rel=0.06)
    assert ratio < 3.754 * 0.99


@pytest.mark.parametrize(
    ("answer", "value"),
    [
        (lactose_solubility_g_per_100g_water(25), 21.6),
        (lactose_solubility_g_per_100g_water(39), 31.5),
        (dextrose_solubility_g_per_100g_water(25), 104.9),
    ],
)
def test_other_sugars_at_their_table_points(answer, value):
    """Hudson in Lowe; an encyclopaedia's equilibrium value for dextrose."""
    assert answer.value == value


def test_the_band_of_lactose_covers_the_tables_that_differ():
    """18.2 g per 100 g of water at 20 °C (Fox & McSweeney restated), 18.9 wt% at 25 °C (a web table)."""
    assert lactose_solubility_g_per_100g_water(20).low <= 18.2
    assert lactose_solubility_g_per_100g_water(25).high >= 100 * 18.9 / 81.1


def test_dextrose_does_not_follow_the_inconsistent_table_row():
    """A printed row at 20 °C gives 49.7 wt% and 83.1 g per 100 g of water: the first is 98.8."""
    assert abs(dextrose_solubility_g_per_100g_water(20).value - 83.1) > 9


@pytest.mark.parametrize(
    "answer",
    [
        sucrose_saturation_percent(-1),
        sucrose_saturation_percent(100.1),
        lactose_solubility_g_per_100g_water(90),
        dextrose_solubility_g_per_100g_water(30),
        syrup_density_g_per_ml(85, 20),
        syrup_density_g_per_ml(50, 101),
        syrup_viscosity_mpa_s(71, 20),
        syrup_viscosity_mpa_s(50, 41),
        syrup_viscosity_mpa_s(50, float("nan")),
    ],
)
def test_outside_its_range_an_answer_is_withheld_with_the_reason(answer):
    assert isinstance(answer, Withheld)
    assert "outside the model" in answer.reason


@given(st.floats(0, 99), st.floats(0.01, 1))
def test_saturation_rises_with_temperature(t_c, step):
    assert saturated_percent(t_c + step) > saturated_percent(t_c)


@given(st.floats(0, 83), st.floats(0, 100), st.floats(0.01, 1))
def test_density_rises_with_sugar(percent, t_c, step):
    one, other = syrup_density_g_per_ml(percent, t_c), syrup_density_g_per_ml(percent + step, t_c)
    assert isinstance(one, Estimate)
    assert other.value > one.value


@given(st.floats(1, 69), st.floats(0, 39), st.floats(0.05, 1))
def test_viscosity_rises_with_sugar_and_falls_with_temperature(percent, t_c, step):
    viscosity = syrup_viscosity_mpa_s(percent, t_c).value
    assert syrup_viscosity_mpa_s(percent + step, t_c).value > viscosity
    assert syrup_viscosity_mpa_s(percent, t_c + step).value < viscosity
