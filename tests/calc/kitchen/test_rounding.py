"""Rounding: cases worked by hand, and properties that hold for every amount."""

from fractions import Fraction

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.kitchen.rounding import exact_fraction, fraction_text, round_to_fraction, scales, step_counts
from crumbcoat_calc.values.units import number
from hypothesis import given
from hypothesis import strategies as st

steps = st.sampled_from([float(scale.step_g) for scale in scales().values()])
masses = st.decimals(0, 5000, places=3).map(Fraction)
weighed = st.integers(0, 50_000).map(lambda tenths: tenths / 10)


def in_exact_fractions(parts: list[float], step: float) -> list[int]:
    """The method of the largest remainder (Hamilton's), without float noise; the total rounds half up."""
    exact = [exact_fraction(part) / exact_fraction(step) for part in parts]
    counts = [number.__floor__() for number in exact]
    missing = (sum(exact, Fraction(0)) + Fraction(1, 2)).__floor__() - sum(counts)
    lost = sorted(range(len(exact)), key=lambda place: (counts[place] - exact[place], place))
    return [count + (place in lost[:missing]) for place, count in enumerate(counts)]


@pytest.mark.parametrize(
    ("value", "step", "expected"),
    [
        pytest.param(0.5, 1, 1, id="a half goes up"),
        pytest.param(1.5, 1, 2, id="not to even"),
        pytest.param(2.5, 1, 3, id="not to even either"),
        pytest.param(47.5, 5, 10, id="47.5 to 5: the example in the rule, half rounds up (21 CFR 101.9(c)(1))"),
        pytest.param(113.398, 0.1, 1134, id="a 4 oz stick of butter on a fine scale"),
        pytest.param(0.1 + 0.2 + 0.2, 1, 1, id="a half that float arithmetic turned into 0.5000…"),
        pytest.param(47.49999999999999, 5, 10, id="a half that it made slightly smaller"),
        pytest.param(0, 5, 0, id="zero stays zero"),
    ],
)
def test_one_amount(value: float, step: float, expected: int) -> None:
    assert step_counts([value], step) == [expected]


@given(parts=st.lists(weighed, min_size=1, max_size=12), step=steps)
def test_parts_in_floats_round_as_in_exact_fractions(parts: list[float], step: float) -> None:
    assert step_counts(parts, step) == in_exact_fractions(parts, step)


@given(parts=st.lists(st.floats(0, 5000, allow_subnormal=False), max_size=12), step=steps)
def test_parts_always_add_up_to_the_rounded_total(parts: list[float], step: float) -> None:
    counts = step_counts(parts, step)
    assert abs(sum(counts) * step - sum(parts)) <= step / 2 * (1 + 1e-6)
    for part, count in zip(parts, counts, strict=True):
        assert count >= 0
        assert abs(count * step - part) < step * (1 + 1e-6)


@given(parts=st.lists(weighed, min_size=2, max_size=8), step=steps)
def test_the_larger_of_two_parts_never_ends_up_smaller(parts: list[float], step: float) -> None:
    """The method of the largest remainder keeps the order of the parts."""
    rounded = step_counts(parts, step)
    for a, ra in zip(parts, rounded, strict=True):
        for b, rb in zip(parts, rounded, strict=True):
            if a > b:
                assert ra >= rb


@pytest.mark.parametrize(
    ("parts", "step", "expected"),
    [
        pytest.param([33.3, 33.3, 33.3], 1, [34, 33, 33], id="the first among equals"),
        pytest.param([0.4, 0.4, 0.2], 1, [1, 0, 0], id="small parts still make one"),
        pytest.param([10, 20, 30], 5, [2, 4, 6], id="nothing to do"),
        pytest.param(
            [21.878, 9.713, 4.167, 3.252, 0.99], 1, [22, 10, 4, 3, 1],
            id="seats for shares: Hamilton's method, worked by hand",
        ),
        pytest.param([], 1, [], id="no parts"),
    ],
)  # fmt: skip
def test_parts(parts: list[float], step: float, expected: list[int]) -> None:
    assert step_counts(parts, step) == expected


@pytest.mark.parametrize(
    ("value", "parts", "expected"),
    [
        pytest.param(0.3, (2, 3, 4), "1/3", id="a third is nearest"),
        pytest.param(0.125, (2, 3, 4), "1/4", id="half-way goes up"),
        pytest.param(1.7, (2, 3, 4), "5/3", id="one and two thirds"),
        pytest.param(0.9, (2, 3, 4), "1", id="up to a whole number"),
        pytest.param(0.4, (2, 4, 8), "3/8", id="eighths"),
        pytest.param(2.0, (2, 3, 4), "2", id="a whole number stays"),
    ],
)
def test_to_fraction(value: float, parts: tuple[int, ...], expected: str) -> None:
    assert round_to_fraction(value, parts) == Fraction(expected)


@given(value=masses, parts=st.sampled_from([((2, 3, 4), Fraction(1, 8)), ((2, 4, 8), Fraction(1, 16))]))
def test_the_error_of_a_kitchen_fraction_stays_within_its_bound(
    value: Fraction, parts: tuple[tuple[int, ...], Fraction]
) -> None:
    rounded = round_to_fraction(value, parts[0])
    assert abs(rounded - value) <= parts[1]
    assert round_to_fraction(rounded, parts[0]) == rounded


@given(eighths=st.integers(0, 80), thirds=st.integers(0, 30))
def test_a_displayed_fraction_is_read_back(eighths: int, thirds: int) -> None:
    for value in (Fraction(eighths, 8), Fraction(thirds, 3)):
        assert number(fraction_text(value)) == value


def test_a_fraction_without_its_own_character_is_written_out() -> None:
    assert fraction_text(Fraction(7, 5)) == "1 2/5"
    assert fraction_text(Fraction(2, 5)) == "2/5"


def test_a_negative_amount_is_refused() -> None:
    with pytest.raises(InputError) as refused:
        round_to_fraction(-1, (2, 4))
    assert refused.value.path == ()
    assert "zero or more" in refused.value.remedy
