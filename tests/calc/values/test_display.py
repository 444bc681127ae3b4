"""Texts for people: rounding against Python decimals with halves up, times against ISO 8601, °F by definition."""

import re
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from crumbcoat_calc.recipe.stages import time_range
from crumbcoat_calc.values.display import (
    celsius_text,
    duration_text,
    iso_duration,
    list_text,
    mass_text,
    number_text,
    percent_text,
    plain_number_text,
    rounded,
    volume_text,
)
from crumbcoat_calc.values.units import grams, number
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    ("value", "digits", "shown"),
    [
        (0.285, 2, "0.29"), (2.675, 2, "2.68"), (1.005, 2, "1.01"), (0.5, 0, "1"), (1.5, 0, "2"), (2.5, 0, "3"),
        (-0.5, 0, "-1"), (-0.04, 1, "0.0"), (0.0, 1, "0.0"), (99.95, 1, "100.0"), (1e-9, 2, "0.00"),
    ],
)  # fmt: skip
def test_halves_go_up_by_the_decimal_form_of_the_number(value: float, digits: int, shown: str) -> None:
    """Decimal arithmetic by hand; 0.285 and 2.675 are well-known numbers that are slightly smaller as binary floats."""
    assert str(rounded(value, digits)) == shown


@given(st.decimals(0, 10**6, places=3), st.integers(0, 3))
def test_rounding_is_that_of_decimal_arithmetic(value: Decimal, digits: int) -> None:
    assert rounded(float(value), digits) == value.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)


@pytest.mark.parametrize(
    ("mass_g", "shown"),
    [
        (0, "0 g"), (0.004, "0 g"), (0.25, "0.25 g"), (0.994, "0.99 g"), (0.996, "1 g"), (1.04, "1 g"), (7.25, "7.3 g"),
        (9.94, "9.9 g"), (9.95, "10 g"), (10.4, "10 g"), (227.5, "228 g"), (9999.4, "9999 g"), (9999.5, "10 kg"),
        (12345, "12.35 kg"), (1e9, "1000000 kg"),
    ],
)  # fmt: skip
def test_masses(mass_g: float, shown: str) -> None:
    assert mass_text(mass_g) == shown


@given(st.floats(0.01, 1e7))
def test_a_mass_that_is_shown_can_be_typed_again(mass_g: float) -> None:
    again = grams(mass_text(mass_g))
    assert mass_text(again) == mass_text(mass_g)
    assert again == pytest.approx(mass_g, rel=0.06, abs=0.005)  # Less than 0.1 g is shown in hundredths.


@given(st.floats(0, 1e6))
def test_a_plain_number_can_be_typed_again(value: float) -> None:
    shown = plain_number_text(value)
    assert float(number(shown)) == pytest.approx(value, abs=0.00051)
    assert not shown.endswith(".")


def test_a_thin_space_separates_thousands() -> None:
    """ISO 80000-1, 7.3.1: groups of three digits separated by a small space, never by a comma or a point."""
    assert number_text(1234567.25, 1) == "1\u202f234\u202f567.3"


@pytest.mark.parametrize(
    ("t_c", "shown"),
    [
        (0, "0 °C (32 °F)"), (100, "100 °C (212 °F)"), (-40, "-40 °C (-40 °F)"), (37.5, "37.5 °C (100 °F)"),
        (-18, "-18 °C (0 °F)"), (4.44, "4.4 °C (40 °F)"),
    ],
)  # fmt: skip
def test_temperatures(t_c: float, shown: str) -> None:
    assert celsius_text(t_c) == shown


@pytest.mark.parametrize(
    ("time_s", "shown", "iso"),
    [
        (0, "0 s", "PT0S"), (45, "45 s", "PT45S"), (60, "1 min", "PT1M"), (90, "1 min 30 s", "PT1M30S"),
        (3600, "1 h", "PT1H"), (5400, "1 h 30 min", "PT1H30M"), (86400, "1 day", "P1D"), (90000, "25 h", "P1DT1H"),
        (259200, "3 days", "P3D"), (604800, "7 days", "P7D"),
    ],
)  # fmt: skip
def test_times(time_s: float, shown: str, iso: str) -> None:
    """ISO 8601-1:2019, 5.5.2: P, days, T, hours, minutes, seconds."""
    assert duration_text(time_s) == shown
    assert iso_duration(time_s) == iso


@given(st.integers(0, 10**7))
def test_an_iso_duration_says_the_same_time(time_s: int) -> None:
    match = re.fullmatch(r"P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?", iso_duration(time_s))
    assert match is not None
    days, hours, minutes, seconds = (int(part or 0) for part in match.groups())
    assert ((days * 24 + hours) * 60 + minutes) * 60 + seconds == time_s
    assert not iso_duration(time_s).endswith(("P", "T"))


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("3 min", "3 min"), ("3 to 4 min", "3 to 4 min"), ("30 s to 90 s", "30 s to 1 min 30 s"),
        ("1 to 2 days", "1 to 2 days"), ("45 min to 1 h", "45 min to 1 h"), ("4 to 4 min", "4 min"),
        ("1 to 1.5 h", "1 h to 1 h 30 min"),
    ],
)  # fmt: skip
def test_ranges_of_times(written: str, shown: str) -> None:
    time = time_range(written)
    assert duration_text(time.shortest_s, time.longest_s) == shown


def test_shares_names_and_volumes() -> None:
    assert percent_text(0) == "0.0 %"
    assert percent_text(None) == "not known"
    assert list_text([]) == ""
    assert list_text(("a", "b"), "or") == "a or b"
    assert volume_text(9.94) == "9.9 mL"
    assert volume_text(9.96) == "10 mL"
    assert volume_text(float(Fraction(1, 3)) * 30000) == "10 L"
