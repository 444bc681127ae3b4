"""Rounding: worked cases, and properties that hold for every amount."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.kitchen.rounding import (
    Effect,
    as_written,
    fraction_text,
    parts_to_step,
    rounding_effect,
    scales,
    to_fraction,
    to_step,
    worst_share,
)
from crumbcoat_calc.values.units import number
from hypothesis import given
from hypothesis import strategies as st

steps = st.sampled_from([scale.step_g for scale in scales().values()])
masses = st.decimals(0, 5000, places=3).map(Fraction)


@pytest.mark.parametrize(
    ("value", "step", "expected"),
    [
        pytest.param(0.5, 1, "1", id="a half goes up"),
        pytest.param(1.5, 1, "2", id="not to even"),
        pytest.param(2.5, 1, "3", id="not to even either"),
        pytest.param(2.675, 0.01, "2.68", id="as written, though it is stored as 2.67499…"),
        pytest.param(1.005, 0.01, "1.01", id="as written, though it is stored as 1.00499…"),
        pytest.param(47.5, 5, "50", id="47.5 to 5: the rule's worked case, half rounds up (21 CFR 101.9(c)(1))"),
        pytest.param(113.398, 0.1, "113.4", id="a stick of butter of 4 oz on a fine scale"),
        pytest.param(0.1 + 0.2 + 0.2, 1, "1", id="a half that float arithmetic made into 0.5000…"),
        pytest.param(47.49999999999999, 5, "50", id="and one that it made a hair less"),
        pytest.param(0, 5, "0", id="nothing stays nothing"),
    ],
)
def test_to_step(value: float, step: float, expected: str) -> None:
    assert to_step(value, step) == Fraction(expected)


@given(value=st.decimals(0, 10_000, places=4), places=st.integers(0, 3))
def test_to_a_decimal_step_is_rounding_half_up(value: Decimal, places: int) -> None:
    """Python's decimal module, ROUND_HALF_UP (General Decimal Arithmetic Specification)."""
    step = Decimal(1).scaleb(-places)
    assert to_step(value, step) == Fraction(value.quantize(step, rounding=ROUND_HALF_UP))


@given(value=masses, step=steps)
def test_rounding_moves_by_half_a_step_at_most(value: Fraction, step: Fraction) -> None:
    rounded = to_step(value, step)
    assert rounded % step == 0
    assert -step / 2 < rounded - value <= step / 2
    assert to_step(rounded, step) == rounded
    if value:
        assert abs(rounded - value) / value <= as_written(worst_share(value, step)) + Fraction(1, 10**9)


@given(parts=st.lists(masses, max_size=12), step=steps)
def test_parts_always_add_up_to_the_rounded_whole(parts: list[Fraction], step: Fraction) -> None:
    rounded = parts_to_step(parts, step)
    assert sum(rounded) == to_step(sum(parts, Fraction(0)), step)
    for part, before in zip(rounded, parts, strict=True):
        assert part % step == 0
        assert abs(part - before) < step
        assert part >= 0


@given(parts=st.lists(st.floats(0, 5000, allow_subnormal=False), min_size=1, max_size=8), step=steps)
def test_parts_in_floats_add_up_too(parts: list[float], step: Fraction) -> None:
    assert sum(parts_to_step(parts, step)) == to_step(sum(as_written(part) for part in parts), step)


@given(parts=st.lists(masses, min_size=2, max_size=8), step=steps)
def test_of_two_parts_the_larger_never_ends_smaller_by_more_than_nothing(parts: list[Fraction], step: Fraction) -> None:
    """The method of the largest remainder keeps the order of the parts."""
    rounded = parts_to_step(parts, step)
    for a, ra in zip(parts, rounded, strict=True):
        for b, rb in zip(parts, rounded, strict=True):
            if a > b:
                assert ra >= rb


@pytest.mark.parametrize(
    ("parts", "step", "expected"),
    [
        pytest.param([33.3, 33.3, 33.3], 1, [34, 33, 33], id="the first among equals"),
        pytest.param([0.4, 0.4, 0.2], 1, [1, 0, 0], id="small parts still make one"),
        pytest.param([10, 20, 30], 5, [10, 20, 30], id="nothing to do"),
        pytest.param(
            [21.878, 9.713, 4.167, 3.252, 0.99], 1, [22, 10, 4, 3, 1],
            id="seats for shares: Hamilton's method, worked by hand",
        ),
        pytest.param([], 1, [], id="no parts"),
    ],
)  # fmt: skip
def test_parts_to_step(parts: list[float], step: float, expected: list[int]) -> None:
    assert list(parts_to_step(parts, step)) == expected


@pytest.mark.parametrize(
    ("value", "parts", "expected"),
    [
        pytest.param(0.3, (2, 3, 4), "1/3", id="nearest is a third"),
        pytest.param(0.125, (2, 3, 4), "1/4", id="half-way goes up"),
        pytest.param(1.7, (2, 3, 4), "5/3", id="one and two thirds"),
        pytest.param(0.9, (2, 3, 4), "1", id="up to the whole"),
        pytest.param(0.4, (2, 4, 8), "3/8", id="eighths"),
        pytest.param(2.0, (2, 3, 4), "2", id="a whole stays"),
    ],
)
def test_to_fraction(value: float, parts: tuple[int, ...], expected: str) -> None:
    assert to_fraction(value, parts).value == Fraction(expected)


@given(value=masses, parts=st.sampled_from([((2, 3, 4), Fraction(1, 8)), ((2, 4, 8), Fraction(1, 16))]))
def test_a_kitchen_fraction_errs_within_its_bound(value: Fraction, parts: tuple[tuple[int, ...], Fraction]) -> None:
    rounded = to_fraction(value, parts[0])
    assert rounded.value - value == rounded.error
    assert abs(rounded.error) <= parts[1]
    assert to_fraction(rounded.value, parts[0]).value == rounded.value


@given(eighths=st.integers(0, 80), thirds=st.integers(0, 30))
def test_a_fraction_shown_is_read_back_alike(eighths: int, thirds: int) -> None:
    for value in (Fraction(eighths, 8), Fraction(thirds, 3)):
        assert number(fraction_text(value)) == value


def test_a_fraction_without_a_letter_of_its_own_is_written_out() -> None:
    assert fraction_text(Fraction(7, 5)) == "1 2/5"
    assert fraction_text(Fraction(2, 5)) == "2/5"


def test_rounding_effect_by_hand() -> None:
    """90 g butter at 80 % fat and 110 g sugar: 36 %; 90 to 95 g: 7600 / 205 = 37.07 %."""
    effect = rounding_effect([90, 110], [95, 110], [80.0, 0.0])
    assert effect is not None
    assert effect.before == pytest.approx(36.0)
    assert effect.after == pytest.approx(7600 / 205)
    assert effect.points == pytest.approx(1.0732, abs=1e-4)
    assert effect.matters()


@pytest.mark.parametrize(
    ("before", "after", "contents"),
    [
        pytest.param([90, 10], [90, 10], [80.0, None], id="a content is not known"),
        pytest.param([0.4, 0.4], [0, 0], [80.0, 0.0], id="nothing is left"),
    ],
)
def test_an_effect_that_is_not_known_is_withheld(
    before: list[float], after: list[float], contents: list[float | None]
) -> None:
    assert rounding_effect(before, after, contents) is None


@given(
    masses=st.lists(st.tuples(st.floats(1, 1000), st.floats(0, 100)), min_size=1, max_size=8),
    k=st.floats(0.1, 10),
)
def test_scaling_alone_changes_no_share(masses: list[tuple[float, float]], k: float) -> None:
    grams, contents = zip(*masses, strict=True)
    effect = rounding_effect(grams, [k * mass for mass in grams], contents)
    assert effect is not None
    assert effect.points == pytest.approx(0, abs=1e-9)


def test_matters_from_the_points_given() -> None:
    assert Effect(30.0, 30.1).matters()
    assert not Effect(30.0, 30.05).matters()
    assert not Effect(30.0, 30.1).matters(from_points=0.5)


@pytest.mark.parametrize(
    ("value", "step", "path", "remedy"),
    [
        pytest.param(-1, 1, (), "zero or more", id="below zero"),
        pytest.param(1, 0, ("step",), "more than zero", id="no step"),
    ],
)
def test_what_cannot_be_rounded_is_refused(value: float, step: float, path: tuple[str, ...], remedy: str) -> None:
    for call in (to_step, worst_share, lambda v, s: parts_to_step([v], s)):
        with pytest.raises(InputError) as refused:
            call(value, step)
        assert refused.value.path == path
        assert remedy in refused.value.remedy
