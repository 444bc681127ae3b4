"""Checks: FDA Food Code 1-201.10, tables A and B, cell by cell, as adopted in two states."""

import pytest
from crumbcoat_calc.science.estimate import Estimate, Model, Withheld
from crumbcoat_calc.science.keeping import Advice, Packaging, designation, keeping_advice
from hypothesis import given
from hypothesis import strategies as st

A, B = Packaging.HEATED_THEN_PACKAGED, Packaging.ALL_OTHERS
MODEL = Model("m", "v", "definition")


@pytest.mark.parametrize(
    ("table", "water_activity", "row"),
    [
        pytest.param(A, 0.92, ("non-TCS",) * 4, id="A: up to 0.92"),
        pytest.param(A, 0.921, ("non-TCS", "non-TCS", "non-TCS", "PA"), id="A: above 0.92"),
        pytest.param(A, 0.95, ("non-TCS", "non-TCS", "non-TCS", "PA"), id="A: up to 0.95"),
        pytest.param(A, 0.951, ("non-TCS", "PA", "PA", "PA"), id="A: above 0.95"),
    ],
)
def test_table_a_by_its_own_ph_headings(table, water_activity, row):
    """Copies of the tables reuse A's pH headings for B: 4.6 and 5.6 are A's."""
    assert tuple(designation(table, water_activity, ph) for ph in (4.6, 4.61, 5.6, 5.61)) == row


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
def test_table_b_by_its_own_signs(water_activity, row):
    assert tuple(designation(B, water_activity, ph) for ph in (4.19, 4.2, 4.6, 4.61, 5.0, 5.01)) == row


@pytest.mark.parametrize(
    ("table", "water_activity", "ph", "cell"),
    [
        (B, 0.85, 6.5, "non-TCS"), (B, 0.89, 5.5, "PA"), (B, 0.91, 4.8, "PA"), (B, 0.93, 4.1, "non-TCS"),
        (B, 0.93, 4.5, "PA"), (A, 0.90, 7, "non-TCS"), (A, 0.94, 6, "PA"), (A, 0.97, 5, "PA"),
    ],
)  # fmt: skip
def test_cells_read_apart_from_this_code(table, water_activity, ph, cell):
    assert designation(table, water_activity, ph) == cell


@given(st.sampled_from([A, B]), st.floats(0, 1), st.floats(0, 14))
def test_every_point_is_in_exactly_one_cell(table, water_activity, ph):
    assert designation(table, water_activity, ph) in ("non-TCS", "PA")


@given(st.sampled_from([A, B]), st.floats(0, 1), st.floats(0, 14), st.floats(0, 0.2), st.floats(0, 3))
def test_drier_or_sourer_never_needs_more_assessment(table, water_activity, ph, drier, sourer):
    if designation(table, water_activity, ph) == "non-TCS":
        assert designation(table, max(0, water_activity - drier), max(0, ph - sourer)) == "non-TCS"


def test_a_band_that_reaches_an_assessment_cell_needs_assessment():
    near = keeping_advice(B, Estimate(0.853, 0.845, 0.885, MODEL), 6.0)
    assert near.advice is Advice.NEEDS_ASSESSMENT
    assert near.designations == ("PA", "non-TCS")
    clear = keeping_advice(B, Estimate(0.853, 0.845, 0.866, MODEL), 6.0)
    assert clear.advice is Advice.CLEARLY_OUTSIDE


@given(st.floats(0.5, 1), st.floats(0, 0.1), st.floats(0, 0.1), st.floats(0, 14), st.sampled_from([A, B]))
def test_advice_is_that_of_the_worst_point_of_the_band(value, below, above, ph, table):
    low, high = value - below, min(1.0, value + above)
    advice = keeping_advice(table, Estimate(value, low, high, MODEL), ph)
    points = {designation(table, low + (high - low) * step / 40, ph) for step in range(41)}
    if "PA" in points:
        assert advice.advice is Advice.NEEDS_ASSESSMENT
    assert set(advice.designations) >= points


def test_no_advice_without_a_measured_ph_or_a_water_activity():
    assert "measured pH" in keeping_advice(B, Estimate(0.7, 0.7, 0.7, MODEL), None).reason
    assert isinstance(keeping_advice(B, Withheld("why"), 6.0), Withheld)
    assert isinstance(keeping_advice(B, Estimate(0.7, 0.7, 0.7, MODEL), 15), Withheld)


def test_the_words_never_clear_a_product_and_defer():
    advice = keeping_advice(B, Estimate(0.5, 0.5, 0.5, MODEL), 4.0)
    words = " ".join([advice.advice.value, *advice.cautions]).lower()
    assert "no clearance" in words
    assert "never a determination" in words
    assert "local codes" in words
    assert "safe" not in words
