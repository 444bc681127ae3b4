"""Times as people write them; the sizes of the units are tested in test_units.py."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.written_times import seconds
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    ("written", "time_s"),
    [
        ("3 min", 180), ("1.5 h", 5400), ("1,5 h", 5400), ("1½ h", 5400), ("1 1/2 hours", 5400), ("2 days", 172800),
        ("2 h 30 min", 9000), ("2h30min", 9000), ("2 hours and 30 minutes", 9000), ("2 h, 30 min", 9000),
        ("1 hour 30", 5400), ("1h30", 5400), ("2 min 30", 150), ("1 day 2 h", 93600), ("1 h 0 min 5 s", 3605),
        ("30 m", 1800), ("1 h 30 m", 5400), ("2:30 h", 9000), ("2:30 min", 150), ("1:02:03", 3723), ("٣ min", 180),
        ("1 month 2 weeks", 3801600), ("5 d", 432000), ("1 d 12 h", 129600),
    ],
)  # fmt: skip
def test_a_time_is_the_sum_of_its_parts(written: str, time_s: float) -> None:
    """Definition; a month of 30 days is that of units.txt."""
    assert seconds(written) == time_s


@pytest.mark.parametrize(
    ("written", "problem", "remedy"),
    [
        pytest.param("overnight", "start with a number", "3 min", id="a word for a time"),
        pytest.param("1 min 2 min", "not one number", "3 min", id="two times"),
        pytest.param("30 min 1 h", "not one number", "3 min", id="the smaller unit first"),
        pytest.param("1 h 90", "not one number", "3 min", id="90 of nothing"),
        pytest.param("1 day 30", "not one number", "3 min", id="30 after a day"),
        pytest.param("2:30", "can be hours and minutes or", "`2 h 30 min` or `2 min 30 s`", id="a clock"),
        pytest.param("2:30 days", "is not a time", "2 h 30 min", id="a clock of days"),
        pytest.param("2:75 min", "not one number", "3 min", id="75 seconds on a clock"),
        pytest.param("3", "no unit", "3 min", id="a number alone"),
        pytest.param("3 g", "not a unit of time", "only a time fits here", id="a mass"),
        pytest.param("3 cups", "not a unit of time", "only a time fits here", id="cups"),
        pytest.param("1,000 min", "1000 or 1", "write '1000' or '1'", id="a thousand or one"),
    ],
)
def test_what_is_not_a_time_is_refused(written: str, problem: str, remedy: str) -> None:
    with pytest.raises(InputError) as refused:
        seconds(written)
    assert problem in refused.value.problem
    assert remedy in refused.value.remedy


@pytest.mark.parametrize(
    ("written", "unit", "time_s"), [("90", "min", 5400), ("2:30", "min", 150), ("2:30", "h", 9000)]
)
def test_a_form_says_what_a_number_alone_and_a_clock_are(written: str, unit: str, time_s: float) -> None:
    assert seconds(written, bare=unit, clock=unit) == time_s


@given(
    hours=st.integers(1, 999), minutes=st.integers(0, 59), seconds_=st.integers(0, 59),
    between=st.sampled_from([" ", "", ", ", " and "]),
)  # fmt: skip
def test_every_way_to_write_a_time_is_the_same_time(hours: int, minutes: int, seconds_: int, between: str) -> None:
    time_s = 3600 * hours + 60 * minutes + seconds_
    assert seconds(f"{hours} h{between}{minutes} min{between}{seconds_} s") == time_s
    assert seconds(f"{hours}:{minutes:02}:{seconds_:02}") == time_s
    assert seconds(f"{hours} hours {minutes}") == seconds(f"{hours}:{minutes:02} h") == time_s - seconds_


@given(junk=st.text(max_size=30) | st.from_regex(r"[0-9 .,/½:hms]{1,12}(min| hours)?", fullmatch=True))
def test_any_text_is_read_or_refused(junk: str) -> None:
    try:
        found = seconds(junk)
    except InputError as error:
        found = 0.0 if error.problem and error.remedy else -1.0
    assert found >= 0
