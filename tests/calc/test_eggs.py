"""Eggs: against USDA's weights, the weight classes of shell eggs, and properties."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.eggs import KINDS, LEAST_SPARE_G, each_g, eggs_for, factors_for_whole_eggs, sizes
from calc.errors import InputError
from calc.units import factor

parts = st.sampled_from(sorted(KINDS))


@pytest.mark.parametrize(
    ("mass_g", "part", "eggs", "measure"),
    [
        pytest.param(100, "whole", "2 large eggs", None, id="two eggs of 50 g (USDA) are 100 g"),
        pytest.param(33, "white", "1 large egg white", None, id="one white is 33 g (USDA)"),
        pytest.param(51, "yolk", "3 large egg yolks", None, id="three yolks of 17 g (USDA)"),
        pytest.param(
            120, "white", "4 large egg whites", "beat, then measure 120 g; about 12 g are left", id="some is left"
        ),
        pytest.param(100.4, "whole", "2 large eggs", None, id="less than half a gram short is right"),
        pytest.param(
            101, "whole", "3 large eggs", "beat, then measure 101 g; about 49 g are left", id="more than that is not"
        ),
        pytest.param(0, "whole", "0 large eggs", None, id="no egg for nothing"),
        pytest.param(
            8.5, "yolk", "1 large egg yolk", "beat, then measure 8.5 g; about 8.5 g are left", id="half a yolk"
        ),
    ],
)
def test_eggs_for(mass_g: float, part: str, eggs: str, measure: str | None) -> None:
    found = eggs_for(mass_g, part)
    assert (found.eggs_text, found.measure_text) == (eggs, measure)


@given(mass_g=st.floats(0.01, 5000), part=parts)
def test_the_fewest_eggs_that_do(mass_g: float, part: str) -> None:
    found = eggs_for(mass_g, part)
    assert found.given_g >= mass_g - LEAST_SPARE_G - 1e-9
    assert found.count == 1 or (found.count - 1) * found.each_g < mass_g - LEAST_SPARE_G + 1e-9
    assert found.measured == (found.given_g - mass_g >= LEAST_SPARE_G)


@given(count=st.integers(1, 60), part=parts)
def test_whole_eggs_stay_whole(count: int, part: str) -> None:
    found = eggs_for(count * each_g(part), part)
    assert (found.count, found.measure_text) == (count, None)
    assert factors_for_whole_eggs(count * each_g(part), part) == (1.0,)


@given(mass_g=st.floats(60, 5000), part=parts)
def test_the_factors_lead_to_whole_eggs(mass_g: float, part: str) -> None:
    for by in factors_for_whole_eggs(mass_g, part):
        assert (by * mass_g / each_g(part)) == pytest.approx(round(by * mass_g / each_g(part)), abs=1e-9)


def test_white_and_yolk_make_an_egg() -> None:
    assert each_g("white") + each_g("yolk") == pytest.approx(each_g("whole"))


@pytest.mark.parametrize(
    ("size", "dozen_oz"), [("jumbo", 30), ("extra_large", 27), ("large", 24), ("medium", 21), ("small", 18)]
)
def test_an_egg_without_its_shell_is_nine_tenths_of_its_weight_class(size: str, dozen_oz: float) -> None:
    """US weight classes for consumer grades of shell eggs, least net ounces a dozen (from memory).

    The shell is about a tenth of an egg, also from memory.
    """
    assert each_g("whole", size) / (dozen_oz / 12 * factor("ounce", "gram")) == pytest.approx(0.89, abs=0.02)


def test_sizes_are_from_light_to_heavy() -> None:
    weights = [each_g("whole", size) for size in sizes("whole")]
    assert weights == sorted(weights)
    assert len(weights) == 5


@pytest.mark.parametrize(
    ("mass_g", "part", "size", "path", "remedy"),
    [
        pytest.param(50, "yolks", "large", ("part",), "did you mean 'yolk'?", id="a part that is not there"),
        pytest.param(50, "yolk", "medium", ("size",), "large", id="a size without a weight for yolks"),
        pytest.param(-1, "whole", "large", ("mass",), "zero or more", id="a negative mass"),
    ],
)
def test_what_cannot_be_is_refused(mass_g: float, part: str, size: str, path: tuple[str, ...], remedy: str) -> None:
    with pytest.raises(InputError) as refused:
        eggs_for(mass_g, part, size)
    assert refused.value.path == path
    assert remedy in refused.value.remedy


def test_a_batch_without_egg_cannot_be_scaled_by_eggs() -> None:
    with pytest.raises(InputError) as refused:
        factors_for_whole_eggs(0)
    assert refused.value.path == ("mass",)
