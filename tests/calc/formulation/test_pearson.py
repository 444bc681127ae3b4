"""Checks: published worked examples of dairy handbooks."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.formulation.pearson import leaner_to_add_g, pearson_masses_g, pearson_square
from hypothesis import given
from hypothesis import strategies as st


def test_cream_diluted_with_skim():
    """University of Guelph dairy e-book, standardization, example 1: 160 kg of 40 % cream to 32 %: 40 kg of skim."""
    assert leaner_to_add_g(40, 0, 32, 160) == pytest.approx(40, abs=0.01)


def test_cream_made_of_cream_and_milk():
    """Wing, Milk and Its Products, p. 354: 170 lb of 30 % from 39 % and 6 %; printed 125 + 45, exactly 123.6 + 46.4."""
    rich, lean = pearson_masses_g(39, 6, 30, 170)
    assert rich / lean == pytest.approx(24 / 9)
    assert rich + lean == pytest.approx(170)
    assert rich == pytest.approx(125, abs=1.5)


def test_milk_enriched_with_cream():
    """Erf, Dairy Fundamentals: 30 % cream to 500 lb of 3 % milk for 5 %: ratio 2 : 25, so 40 lb."""
    rich, lean = pearson_square(30, 3, 5)
    assert 500 * rich / lean == pytest.approx(40, abs=0.01)


def test_cream_thinned_with_milk():
    """The Story of Milk, p. 75: 30 % cream to 10 % with 4 % milk: 3 1/3 of milk per cream."""
    assert leaner_to_add_g(30, 4, 10, 1) == pytest.approx(3.3333, abs=0.001)


@pytest.mark.parametrize("target", [5.9, 39.1])
def test_a_target_outside_is_refused(target):
    with pytest.raises(InputError) as caught:
        pearson_square(39, 6, target)
    assert caught.value.path == ("target",)
    assert caught.value.remedy == "ask for 6 to 39"


def test_swapped_contents_and_the_leaner_one_itself_are_refused():
    with pytest.raises(InputError) as caught:
        pearson_square(6, 39, 20)
    assert caught.value.path == ("high",)
    with pytest.raises(InputError):
        leaner_to_add_g(40, 0, 0, 160)


@given(st.floats(0, 100), st.floats(0, 100), st.floats(0, 1))
def test_the_mixture_has_the_target(one, other, between):
    high, low = max(one, other), min(one, other)
    target = min(high, low + between * (high - low))
    rich, lean = pearson_square(high, low, target)
    assert rich + lean == pytest.approx(1)
    assert rich * high + lean * low == pytest.approx(target, abs=1e-9)
    assert 0 <= rich <= 1
