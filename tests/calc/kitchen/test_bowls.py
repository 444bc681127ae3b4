"""Bowls: cases worked by hand, and properties."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.kitchen.bowls import BowlRange, bowl_range, bowls, split_equally, tools
from hypothesis import given
from hypothesis import strategies as st


def test_range_by_hand() -> None:
    """A 4.8 L bowl, a whisk that needs 5 to 75 %, cream of 1.0 g/mL whipped to 0.5: 240 g to 1800 g."""
    found = bowl_range(4800, 0.05, 0.75, 1.0, 0.5)
    assert (found.smallest_g, found.largest_g) == (pytest.approx(240), pytest.approx(1800))


def test_a_mixture_that_takes_up_no_air_is_limited_by_the_start() -> None:
    assert bowl_range(1000, 0.1, 0.5, 0.9, 1.2) == bowl_range(1000, 0.1, 0.5, 0.9, 0.9)


def test_the_heaviest_and_the_lightest_frosting_are_allowed() -> None:
    """By hand: 1 L from 10 to 50 %, 2 g/mL at the start and 0.1 g/mL at last: 200 g and 50 g."""
    found = bowl_range(1000, 0.1, 0.5, 2, 0.1)
    assert (found.smallest_g, found.largest_g) == (pytest.approx(200), pytest.approx(50))


@pytest.mark.parametrize(
    ("mass_g", "batches", "reached", "nearest"),
    [
        pytest.param(1800, 1, True, (), id="just fits"),
        pytest.param(1801, 2, True, (), id="just not"),
        pytest.param(5400, 3, True, (), id="three full ones"),
        pytest.param(100, 1, False, (240.0,), id="too little for the whisk: make 240 g"),
    ],
)
def test_split(mass_g: float, batches: int, reached: bool, nearest: tuple[float, ...]) -> None:
    found = split_equally(mass_g, BowlRange(240.0, 1800.0))
    assert (found.batches, found.reached, found.nearest_g) == (batches, reached, nearest)


def test_between_one_large_and_two_small_ones_nothing_fits() -> None:
    """From 600 to 1000 g: 1100 g is more than one batch and less than two of 600 g."""
    found = split_equally(1100, BowlRange(600.0, 1000.0))
    assert (found.batches, found.reached, found.nearest_g) == (2, False, (1000.0, 1200.0))
    assert all(split_equally(total, BowlRange(600.0, 1000.0)).reached for total in found.nearest_g)


@given(mass_g=st.floats(1, 1e5), smallest=st.floats(10, 1000), width=st.floats(1, 20))
def test_batches_are_equal_and_stay_in_the_bowl(mass_g: float, smallest: float, width: float) -> None:
    fits = BowlRange(smallest, smallest * width)
    found = split_equally(mass_g, fits)
    assert found.batches * found.each_g == pytest.approx(mass_g)
    assert found.each_g <= fits.largest_g * (1 + 1e-9)
    assert found.batches == 1 or mass_g / (found.batches - 1) > fits.largest_g * (1 - 1e-9)
    for total in found.nearest_g:
        again = split_equally(total, fits)
        assert again.reached
    if width >= 2 and mass_g >= smallest:
        assert found.reached, "a bowl that holds twice its least can take any total in equal batches"


@given(bowl=st.floats(500, 20000), density=st.floats(0.3, 1.2), more=st.floats(1.01, 3))
def test_a_larger_bowl_holds_larger_batches(bowl: float, density: float, more: float) -> None:
    small, large = (bowl_range(each, 0.05, 0.75, 1.0, density) for each in (bowl, bowl * more))
    assert large.smallest_g > small.smallest_g
    assert large.largest_g > small.largest_g


def test_every_tool_works_in_every_bowl() -> None:
    for bowl in bowls().values():
        for tool in tools().values():
            fits = bowl_range(bowl.volume_ml, tool.lowest_share, tool.highest_share, 1.0, 0.5)
            assert split_equally(fits.largest_g, fits).batches == 1
            assert split_equally(2 * fits.largest_g, fits).batches == 2


@pytest.mark.parametrize(
    ("arguments", "path"),
    [
        pytest.param((5, 0.1, 0.7, 1, 1), ("bowl",), id="a bowl of 5 mL"),
        pytest.param((5000, 0.7, 0.1, 1, 1), ("lowest_share",), id="the shares turned round"),
        pytest.param((5000, 0.1, 0.7, 3, 1), ("start",), id="heavier than any frosting"),
        pytest.param((5000, 0.1, 0.7, 1, 0.01), ("lightest",), id="lighter than any foam"),
    ],
)
def test_an_impossible_bowl_is_refused(arguments: tuple[float, ...], path: tuple[str, ...]) -> None:
    with pytest.raises(InputError) as refused:
        bowl_range(*arguments)
    assert refused.value.path == path


def test_a_batch_of_0_g_cannot_be_divided() -> None:
    with pytest.raises(InputError) as refused:
        split_equally(0, BowlRange(1, 2))
    assert refused.value.path == ("mass",)


def test_a_bowl_that_no_batch_fits_is_refused() -> None:
    with pytest.raises(InputError) as refused:
        split_equally(100, BowlRange(500, 400))
    assert refused.value.path == ("bowl",)
    assert "another bowl" in refused.value.remedy
