"""Eggs, checked against USDA's weights, the weight classes of shell eggs, and properties."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.kitchen.eggs import (
    EGG_KINDS,
    LEAST_SPARE_G,
    egg_mass_g,
    egg_sizes,
    eggs_for,
    factors_for_whole_eggs,
)
from crumbcoat_calc.values.units import factor
from hypothesis import given
from hypothesis import strategies as st

parts = st.sampled_from(sorted(EGG_KINDS))
every_size = st.sampled_from(sorted(egg_sizes()))


@pytest.mark.parametrize(
    ("mass_g", "part", "eggs", "measure"),
    [
        pytest.param(100, "whole", "2 large eggs", None, id="two eggs of 50 g (USDA) are 100 g"),
        pytest.param(33, "white", "1 large egg white", None, id="one white is 33 g (USDA)"),
        pytest.param(51, "yolk", "3 large egg yolks", None, id="three yolks of 17 g (USDA)"),
        pytest.param(
            120, "white", "4 large egg whites", "beat, then measure 120 g; about 12 g is left", id="some is left"
        ),
        pytest.param(100.4, "whole", "2 large eggs", None, id="less than half a gram short is close enough"),
        pytest.param(
            101, "whole", "3 large eggs", "beat, then measure 101 g; about 49 g is left", id="one gram short is not"
        ),
        pytest.param(0, "whole", "0 large eggs", None, id="no egg for 0 g"),
        pytest.param(
            8.5, "yolk", "1 large egg yolk", "beat, then measure 8.5 g; about 8.5 g is left", id="half a yolk"
        ),
    ],
)
def test_eggs_for(mass_g: float, part: str, eggs: str, measure: str | None) -> None:
    found = eggs_for(mass_g, part)
    assert (found.eggs_text, found.measure_text) == (eggs, measure)


@given(mass_g=st.floats(0.01, 5000), part=parts, size=every_size)
def test_the_fewest_eggs_that_suffice(mass_g: float, part: str, size: str) -> None:
    found = eggs_for(mass_g, part, size)
    assert found.total_g >= mass_g - LEAST_SPARE_G - 1e-9
    assert found.count == 1 or (found.count - 1) * found.each_g < mass_g - LEAST_SPARE_G + 1e-9
    assert found.measured == (found.total_g - mass_g >= LEAST_SPARE_G)


def test_just_the_least_that_is_weighed_out() -> None:
    """By hand: two whole eggs of 50 g (USDA) leave half a gram of 99.5 g, and less of 99.6 g."""
    assert [eggs_for(mass_g, "whole").measured for mass_g in (99.5, 99.6)] == [True, False]


@given(count=st.integers(1, 60), part=parts, size=every_size)
def test_whole_eggs_stay_whole(count: int, part: str, size: str) -> None:
    mass_g = count * egg_mass_g(part, size)
    found = eggs_for(mass_g, part, size)
    assert (found.count, found.measure_text) == (count, None)
    assert factors_for_whole_eggs(mass_g, part, size) == (1.0,)


@given(mass_g=st.floats(80, 5000), part=parts, size=every_size)
def test_the_factors_lead_to_whole_eggs(mass_g: float, part: str, size: str) -> None:
    for factor_for_eggs in factors_for_whole_eggs(mass_g, part, size):
        eggs = factor_for_eggs * mass_g / egg_mass_g(part, size)
        assert eggs == pytest.approx(round(eggs), abs=1e-9)


@pytest.mark.parametrize("size", egg_sizes())
def test_white_and_yolk_make_an_egg(size: str) -> None:
    """All masses are rounded to 0.1 g."""
    assert egg_mass_g("white", size) + egg_mass_g("yolk", size) == pytest.approx(egg_mass_g("whole", size), abs=0.1)


# Weight classes for consumer grades of shell eggs, minimum net ounces per dozen: US Department of Agriculture, AMS 56,
# restated in 7 Pa. Code 87.42. The edible part of an egg is 88 %: USDA Standard Reference 28, NDB 01123, refuse 12 %.
@pytest.mark.parametrize(
    ("size", "dozen_oz"), [("jumbo", 30), ("extra_large", 27), ("large", 24), ("medium", 21), ("small", 18)]
)
def test_a_us_egg_weighs_its_weight_class_without_the_shell(size: str, dozen_oz: float) -> None:
    in_shell_g = dozen_oz / 12 * factor("ounce", "gram")
    assert egg_mass_g("whole", size) == pytest.approx(0.88 * in_shell_g, abs=0.8)
    assert egg_sizes()[size].in_shell == f"from {in_shell_g:.0f} g"


# Weight grades of class A eggs: Delegated Regulation (EU) 2023/2465 (before: Regulation (EC) 589/2008, article 4).
@pytest.mark.parametrize(
    ("size", "from_g", "to_g", "in_shell"),
    [
        ("size_s", 0, 53, "below 53 g"),
        ("size_m", 53, 63, "53 to 63 g"),
        ("size_l", 63, 73, "63 to 73 g"),
        ("size_xl", 73, 100, "from 73 g"),
    ],
)
def test_an_eu_egg_is_within_its_weight_class(size: str, from_g: float, to_g: float, in_shell: str) -> None:
    assert 0.88 * from_g < egg_mass_g("whole", size) < 0.88 * to_g
    assert egg_sizes()[size].in_shell == in_shell


def test_sizes_are_from_light_to_heavy_in_each_market() -> None:
    for market, count in (("EU", 4), ("US", 5)):
        weights = [egg_mass_g("whole", size.size) for size in egg_sizes().values() if size.market == market]
        assert weights == sorted(set(weights))
        assert len(weights) == count


@pytest.mark.parametrize(
    ("mass_g", "part", "size", "eggs"),
    [
        pytest.param(100, "whole", "medium", "3 medium eggs", id="44 g each (USDA): two are only 88 g"),
        pytest.param(100, "whole", "size_l", "2 size L eggs", id="60 g each: 88 % of 68 g"),
        pytest.param(63, "whole", "jumbo", "1 jumbo egg", id="63 g each (USDA)"),
        pytest.param(155, "white", "large", "5 large egg whites", id="33 g each (USDA)"),
        pytest.param(155, "white", "size_xl", "4 size XL egg whites", id="66 % of 69 g is 45.5 g"),
        pytest.param(119, "yolk", "medium", "8 medium egg yolks", id="34 % of 44 g is 15 g"),
    ],
)
def test_eggs_of_another_size(mass_g: float, part: str, size: str, eggs: str) -> None:
    assert eggs_for(mass_g, part, size).eggs_text == eggs


@pytest.mark.parametrize(
    ("mass_g", "part", "size", "path", "remedy"),
    [
        pytest.param(50, "yolks", "large", ("part",), "did you mean 'yolk'?", id="an unknown part"),
        pytest.param(50, "yolk", "mediun", ("size",), "medium", id="an unknown size"),
        pytest.param(-1, "whole", "large", ("mass",), "zero or more", id="a negative mass"),
    ],
)
def test_impossible_eggs_are_refused(mass_g: float, part: str, size: str, path: tuple[str, ...], remedy: str) -> None:
    with pytest.raises(InputError) as refused:
        eggs_for(mass_g, part, size)
    assert refused.value.path == path
    assert remedy in refused.value.remedy


def test_a_batch_without_egg_cannot_be_scaled_by_eggs() -> None:
    with pytest.raises(InputError) as refused:
        factors_for_whole_eggs(0)
    assert refused.value.path == ("mass",)
