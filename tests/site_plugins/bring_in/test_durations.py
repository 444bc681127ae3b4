"""Durations of pages, compared with isodate, a reader of ISO 8601 that is not ours."""

import isodate
import pytest
from crumbcoat_site.bring_in.durations import seconds_of
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    "written",
    ["PT15M", "PT1H20M", "P0DT0H45M", "P1DT12H", "PT90S", "PT1.5H", "PT0,5H", "P2W", "PT0S", "P1D", "PT2H0M30S"],
)
def test_a_duration_is_as_isodate_reads_it(written: str) -> None:
    assert seconds_of(written) == isodate.parse_duration(written).total_seconds()


@given(st.integers(0, 90), st.integers(0, 40), st.integers(0, 90), st.integers(0, 90))
def test_any_days_hours_minutes_and_seconds(days: int, hours: int, minutes: int, seconds: int) -> None:
    written = f"P{days}DT{hours}H{minutes}M{seconds}S"
    assert seconds_of(written) == isodate.parse_duration(written).total_seconds()
    assert seconds_of(written.lower()) == seconds_of(written)


@pytest.mark.parametrize(
    ("written", "seconds"), [("25 minutes", 1500.0), ("1 hour 20 minutes", 4800.0), ("2 h", 7200.0)]
)
def test_words_are_read_too(written: str, seconds: float) -> None:
    assert seconds_of(written) == seconds


@pytest.mark.parametrize(
    "written",
    ["", "P", "PT", "20", "soon", "PTM", "PT1.5H30M", "P1M", "P1Y", "T20M", "-PT5M", "PT99999999999H", "PT5M5"],
)
def test_anything_else_is_none(written: str) -> None:
    assert seconds_of(written) is None
