"""Checks of solubility against handbook tables in tests/reference."""

import csv
from itertools import pairwise
from pathlib import Path

import pytest
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.science.solubility import (
    dextrose_solubility_g_per_100g_water,
    grams_per_gram_water,
    lactose_solubility_g_per_100g_water,
    saturated_percent,
    sucrose_saturation_percent,
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
    ],
)
def test_outside_its_range_an_answer_is_withheld_with_the_reason(answer):
    assert isinstance(answer, Withheld)
    assert "outside the model" in answer.reason


@given(st.floats(0, 99), st.floats(0.01, 1))
def test_saturation_rises_with_temperature(t_c, step):
    assert saturated_percent(t_c + step) > saturated_percent(t_c)
