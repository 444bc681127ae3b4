"""Checks of solubility against handbook tables in tests/reference."""

import csv
import math
from itertools import pairwise
from pathlib import Path

import pytest
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.science.solubility import (
    grams_per_gram_water,
    saturated_percent,
    solubility_g_per_g_water,
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


def grams(sugar, t_c):
    return [100 * end for end in solubility_g_per_g_water(sugar, t_c)]


@pytest.mark.parametrize(
    ("sugar", "t_c", "value"),
    [
        ("lactose", 0, 11.9),
        ("lactose", 25, 21.6),
        ("lactose", 39, 31.5),
        ("lactose", 64, 65.8),
        ("lactose", 89, 139.2),
        ("glucose", 25, 104.9),
        ("glucose", 63, 280.2),
        ("maltose", 21, 78.9),
    ],
)
def test_other_sugars_at_their_table_points(sugar, t_c, value):
    """Hudson, Gillis, and Combs and Bele in Lowe; an encyclopaedia's equilibrium value for dextrose."""
    assert grams(sugar, t_c)[0] == pytest.approx(value, abs=0.001)


@pytest.mark.parametrize(("t_c", "printed"), [(29.6, 92.3), (49.4, 139.8), (54.2, 151.4), (74.2, 261.5)])
def test_maltose_between_its_points_agrees_with_the_rest_of_the_published_table(t_c, printed):
    """Gillis in Lowe, rows that are not in our table (29.6 degrees by its own 48.0 wt%)."""
    value, low, high = grams("maltose", t_c)
    assert value == pytest.approx(printed, rel=0.05)
    assert low < printed < high


def test_lactose_between_its_points_agrees_with_another_table():
    """A web table: 37.21 g in 100 g of solution at 60 °C and 25.15 g at 40 °C."""
    for t_c, percent in ((60, 37.21), (40, 25.15)):
        assert 100 * grams("lactose", t_c)[0] / (100 + grams("lactose", t_c)[0]) == pytest.approx(percent, abs=0.9)
    assert 100 * grams("lactose", 60)[0] / (100 + grams("lactose", 60)[0]) == pytest.approx(37.2, abs=0.35)


def test_the_band_of_lactose_covers_the_tables_that_differ():
    """18.2 g per 100 g of water at 20 °C (Fox & McSweeney restated), 18.9 wt% at 25 °C (a web table)."""
    assert grams("lactose", 20)[1] <= 18.2 <= grams("lactose", 20)[0] <= 19.3
    assert grams("lactose", 25)[2] >= 100 * 18.9 / 81.1


def test_dextrose_does_not_follow_the_inconsistent_table_row():
    """A printed row at 20 °C gives 49.7 wt% and 83.1 g per 100 g of water: the first is 98.8."""
    assert abs(grams("glucose", 20)[0] - 83.1) > 8


@pytest.mark.parametrize("t_c", [-1, 100.1])
def test_outside_its_range_saturation_is_withheld_with_the_reason(t_c):
    answer = sucrose_saturation_percent(t_c)
    assert isinstance(answer, Withheld)
    assert "outside the model" in answer.reason


@pytest.mark.parametrize(("sugar", "last"), [("glucose", 63), ("lactose", 89), ("fructose", 30)])
def test_beyond_its_table_a_sugar_dissolves_at_least_as_much_as_at_its_end(sugar, last):
    end, beyond = grams(sugar, last), grams(sugar, last + 1)
    assert beyond[:2] == end[:2]
    assert beyond[2] == math.inf


@given(st.sampled_from(["lactose", "glucose", "maltose", "fructose"]), st.floats(0, 99), st.floats(0.01, 1))
def test_every_sugar_dissolves_better_in_warmer_water(sugar, t_c, step):
    assert all(warm >= cold for warm, cold in zip(grams(sugar, t_c + step), grams(sugar, t_c), strict=True))


@given(st.floats(0, 99), st.floats(0.01, 1))
def test_saturation_rises_with_temperature(t_c, step):
    assert saturated_percent(t_c + step) > saturated_percent(t_c)
