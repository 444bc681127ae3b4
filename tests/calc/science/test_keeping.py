"""Checks: FDA Food Code 1-201.10, table B, cell by cell, as adopted in two states."""

import pytest
from crumbcoat_calc.science.estimate import Estimate, Model, Withheld
from crumbcoat_calc.science.keeping import CAUTIONS, Advice, keeping_advice
from hypothesis import given
from hypothesis import strategies as st

MODEL = Model("m", "v", "definition")


def band(low, high):
    return Estimate(low, low, high, MODEL)


def designation(water_activity, ph):
    """What the table says of one point: a band without width."""
    advice = keeping_advice(band(water_activity, water_activity), ph)
    return {Advice.CLEARLY_OUTSIDE: "non-TCS", Advice.NEEDS_ASSESSMENT: "PA"}[advice]


@pytest.mark.parametrize(
    ("water_activity", "row"),
    [
        pytest.param(0.879, ("non-TCS",) * 6, id="below 0.88"),
        pytest.param(0.88, ("non-TCS",) * 5 + ("PA",), id="0.88 itself is in the next row"),
        pytest.param(0.90, ("non-TCS",) * 5 + ("PA",), id="up to 0.90"),
        pytest.param(0.901, ("non-TCS",) * 3 + ("PA",) * 3, id="above 0.90"),
        pytest.param(0.92, ("non-TCS",) * 3 + ("PA",) * 3, id="up to 0.92"),
        pytest.param(0.921, ("non-TCS",) + ("PA",) * 5, id="above 0.92"),
    ],
)
def test_the_table_by_its_own_signs(water_activity, row):
    """Copies of the food code reuse table A's pH headings for B: 4.6 and 5.6 are A's."""
    assert tuple(designation(water_activity, ph) for ph in (4.19, 4.2, 4.6, 4.61, 5.0, 5.01)) == row


@pytest.mark.parametrize(
    ("water_activity", "ph", "cell"),
    [(0.85, 6.5, "non-TCS"), (0.89, 5.5, "PA"), (0.91, 4.8, "PA"), (0.93, 4.1, "non-TCS"), (0.93, 4.5, "PA")],
)
def test_cells_read_apart_from_this_code(water_activity, ph, cell):
    assert designation(water_activity, ph) == cell


@given(st.floats(0, 1), st.floats(0, 14), st.floats(0, 0.2), st.floats(0, 3))
def test_drier_or_sourer_never_needs_more_assessment(water_activity, ph, drier, sourer):
    if designation(water_activity, ph) == "non-TCS":
        assert designation(max(0, water_activity - drier), max(0, ph - sourer)) == "non-TCS"


def test_a_band_that_reaches_an_assessment_cell_needs_assessment():
    assert keeping_advice(band(0.845, 0.885), 6.0) is Advice.NEEDS_ASSESSMENT
    assert keeping_advice(band(0.845, 0.866), 6.0) is Advice.CLEARLY_OUTSIDE


@given(st.floats(0.5, 1), st.floats(0, 0.2), st.floats(0, 14))
def test_advice_is_that_of_the_worst_point_of_the_band(low, wide, ph):
    high = min(1.0, low + wide)
    points = {designation(low + (high - low) * step / 40, ph) for step in range(41)}
    if "PA" in points:
        assert keeping_advice(band(low, high), ph) is Advice.NEEDS_ASSESSMENT


def test_no_advice_without_a_measured_ph_or_a_water_activity():
    assert "measured pH" in keeping_advice(band(0.7, 0.7), None).reason
    assert isinstance(keeping_advice(Withheld("why"), 6.0), Withheld)
    assert isinstance(keeping_advice(band(0.7, 0.7), 15), Withheld)


def test_the_words_never_clear_a_product_and_defer():
    advice = keeping_advice(band(0.5, 0.5), 4.0)
    words = " ".join([advice.value, *CAUTIONS]).lower()
    assert "no clearance" in words
    assert "never a determination" in words
    assert "us food code" in words
    assert "safe" not in words
