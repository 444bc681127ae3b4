"""Scaling: cases worked by hand, and properties."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.kitchen.scaling import (
    checked_factor,
    cooling_times,
    factor_on_hand,
    scaling_notes,
    scaling_notes_for,
)
from hypothesis import given
from hypothesis import strategies as st


def test_what_is_short_sets_the_batch() -> None:
    """By hand: 300 g of butter for 250 allows 1.2; 90 g of milk for 100 allows 0.9 and leaves 75 g of butter."""
    stock = factor_on_hand({"butter": 250, "milk": 100, "sugar": 400}, {"butter": 300, "milk": 90})
    assert (stock.factor, stock.short) == (0.9, "milk")
    assert stock.left_g["butter"] == pytest.approx(75)
    assert stock.left_g["milk"] == 0


@given(
    st.dictionaries(
        st.sampled_from("abcdef"), st.tuples(st.floats(10, 1000), st.floats(10, 1000)), min_size=1, max_size=6
    )
)
def test_never_more_than_is_on_hand(stocks: dict[str, tuple[float, float]]) -> None:
    needed = {name: pair[0] for name, pair in stocks.items()}
    have = {name: pair[1] for name, pair in stocks.items()}
    stock = factor_on_hand(needed, have)
    for name in stocks:
        assert stock.factor * needed[name] <= have[name] * (1 + 1e-9)
    assert stock.factor * needed[stock.short] == pytest.approx(have[stock.short])


@pytest.mark.parametrize(
    ("have", "path"),
    [
        pytest.param({}, ("have",), id="nothing listed"),
        pytest.param({"flour": 100.0}, ("have", "flour"), id="an ingredient that the recipe does not use"),
        pytest.param({"butter": 0.0}, ("have", "butter"), id="none of it on hand"),
    ],
)
def test_an_impossible_stock_is_refused(have: dict[str, float], path: tuple[str, ...]) -> None:
    with pytest.raises(InputError) as refused:
        factor_on_hand({"butter": 250.0}, have)
    assert refused.value.path == path


def test_cooling_times_of_a_batch_eight_times_as_large() -> None:
    """Independent: a cube of twice the edge has half the surface per mass; Fourier's number requires 2² the time."""
    stirred, at_rest = cooling_times(8)
    small, large = (6 * edge**2 / edge**3 for edge in (1, 2))
    assert stirred == pytest.approx(small / large)
    assert at_rest == pytest.approx(2**2)


@given(factor=st.floats(0.01, 1000))
def test_cooling_times_grow_less_than_proportionally(factor: float) -> None:
    stirred, at_rest = cooling_times(factor)
    assert min(1, factor) - 1e-9 <= min(stirred, at_rest)
    assert max(stirred, at_rest) <= max(1, factor) + 1e-9
    assert at_rest == pytest.approx(stirred**2)


def test_notes_for_larger_smaller_and_the_same() -> None:
    assert scaling_notes_for(1) == scaling_notes_for(1.25) == scaling_notes_for(0.8) == ()
    assert {note.applies for note in scaling_notes_for(3)} == {"up", "both"}
    assert {note.applies for note in scaling_notes_for(0.3)} == {"down", "both"}
    assert set(scaling_notes_for(3)) | set(scaling_notes_for(0.3)) == set(scaling_notes())


@pytest.mark.parametrize("factor", [0, -1, 0.005, 1001, float("nan")])
def test_a_factor_out_of_range_is_refused(factor: float) -> None:
    with pytest.raises(InputError) as refused:
        checked_factor(factor)
    assert refused.value.path == ("factor",)
    assert "unit" in refused.value.remedy
