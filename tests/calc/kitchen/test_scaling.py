"""Scaling: worked by hand, and properties."""

import pytest
from crumbcoat_calc.cakes.solids import block_solid, top_mm2, volume_ml
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.kitchen.scaling import (
    beyond_tried,
    checked_factor,
    cooling_times,
    factor_for,
    factor_on_hand,
    notes,
    notes_for,
    surface_per_mass,
)
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    ("published", "wanted", "factor"),
    [
        pytest.param(800, 1200, 1.5, id="half as much again"),
        pytest.param(24, 12, 0.5, id="portions: half"),
        pytest.param(16747.06, 28470 * 16747.06 / 28470, 1.0, id="the same"),
    ],
)
def test_factor_for(published: float, wanted: float, factor: float) -> None:
    assert factor_for(published, wanted) == pytest.approx(factor)


def test_a_dough_for_73_pieces_of_390_g() -> None:
    """Published worksheet on baker's percentages 100, 67, 2, 1: flour 16747 g, water 11220.5 g."""
    factor = factor_for(170, 73 * 390)
    assert 100 * factor == pytest.approx(16747, abs=0.1)
    assert 67 * factor == pytest.approx(11220.5, abs=0.1)


@pytest.mark.parametrize(
    ("published", "wanted", "remedy"),
    [
        pytest.param(800, 0, "more than zero", id="nothing wanted"),
        pytest.param(0, 100, "by mass", id="no published yield"),
        pytest.param(1, 2000, "unit", id="kg for g"),
        pytest.param(1000, 1, "unit", id="g for kg"),
    ],
)
def test_a_factor_that_cannot_be_is_refused(published: float, wanted: float, remedy: str) -> None:
    with pytest.raises(InputError) as refused:
        factor_for(published, wanted, "mass")
    assert refused.value.path == ("mass",)
    assert remedy in refused.value.remedy


def test_what_is_short_sets_the_batch() -> None:
    """By hand: butter 300 of 250 allows 1.2, milk 90 of 100 allows 0.9 and leaves 75 g of butter."""
    stock = factor_on_hand({"butter": 250, "milk": 100, "sugar": 400}, {"butter": 300, "milk": 90})
    assert (stock.factor, stock.short) == (0.9, "milk")
    assert stock.left_g["butter"] == pytest.approx(75)
    assert stock.left_g["milk"] == 0


@given(
    st.dictionaries(
        st.sampled_from("abcdef"), st.tuples(st.floats(10, 1000), st.floats(10, 1000)), min_size=1, max_size=6
    )
)
def test_never_more_than_is_there(stocks: dict[str, tuple[float, float]]) -> None:
    needed = {name: pair[0] for name, pair in stocks.items()}
    have = {name: pair[1] for name, pair in stocks.items()}
    stock = factor_on_hand(needed, have)
    for name in stocks:
        assert stock.factor * needed[name] <= have[name] * (1 + 1e-9)
    assert stock.factor * needed[stock.short] == pytest.approx(have[stock.short])


@pytest.mark.parametrize(
    ("have", "path"),
    [
        pytest.param({}, ("have",), id="nothing named"),
        pytest.param({"flour": 100.0}, ("have", "flour"), id="an ingredient that is not in it"),
        pytest.param({"butter": 0.0}, ("have", "butter"), id="none of it there"),
    ],
)
def test_a_stock_that_cannot_be_is_refused(have: dict[str, float], path: tuple[str, ...]) -> None:
    with pytest.raises(InputError) as refused:
        factor_on_hand({"butter": 250.0}, have)
    assert refused.value.path == path


@given(k=st.floats(0.3, 9))
def test_surface_per_mass_against_a_box(k: float) -> None:
    """Independent: a box with every length times k has k^3 the mass."""
    small, large = block_solid(100, 80, 60), block_solid(100 * k, 80 * k, 60 * k)
    per_mass = [(solid.wall_mm2() + 2 * top_mm2(solid)) / volume_ml(solid) for solid in (small, large)]
    assert surface_per_mass(k**3) == pytest.approx(per_mass[1] / per_mass[0])


@given(factor=st.floats(0.01, 1000))
def test_cooling_times_are_between_none_and_in_proportion(factor: float) -> None:
    stirred, at_rest = cooling_times(factor)
    assert min(1, factor) - 1e-9 <= min(stirred, at_rest)
    assert max(stirred, at_rest) <= max(1, factor) + 1e-9
    assert at_rest == pytest.approx(stirred**2)


def test_notes_for_larger_smaller_and_the_same() -> None:
    assert notes_for(1) == notes_for(1.25) == notes_for(0.8) == ()
    assert {note.applies for note in notes_for(3)} == {"up", "both"}
    assert {note.applies for note in notes_for(0.3)} == {"down", "both"}
    assert set(notes_for(3)) | set(notes_for(0.3)) == set(notes())


@pytest.mark.parametrize(
    ("factor", "said"),
    [(1, None), (2, None), (0.5, None), (2.5, "up to 2 times"), (0.25, "down to 0.5 times")],
)
def test_beyond_tried(factor: float, said: str | None) -> None:
    text = beyond_tried(factor, 0.5, 2)
    assert text is None if said is None else text is not None and said in text


@pytest.mark.parametrize("factor", [0, -1, 1001, float("nan")])
def test_a_factor_out_of_range_is_refused(factor: float) -> None:
    with pytest.raises(InputError) as refused:
        checked_factor(factor)
    assert refused.value.path == ("factor",)
