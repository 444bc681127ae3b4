"""Checks: the University of Guelph's published worked examples for overrun."""

import pytest
from crumbcoat_calc.science.estimate import Estimate, Model, Withheld
from crumbcoat_calc.science.foam import air_percent, overrun_percent
from hypothesis import given
from hypothesis import strategies as st

MODEL = Model("m", "v", "definition")


def mix(density):
    return Estimate(density, density, density, MODEL)


@pytest.mark.parametrize(
    ("mix_density", "finished_density", "overrun"),
    [
        pytest.param(1.0, 1 / 1.5, 50, id="1 L of mix becomes 1.5 L"),
        pytest.param(1.05, 0.750, 40, id="a mix of 1.05 g/mL whipped to 0.75"),
        pytest.param(110 / 134.8 * 1.0, 104.8 / 134.8, 4.96, id="a cup of 110 g of mix weighs 104.8 g"),
        pytest.param(1.1, 1.0, 10, id="a cup of 110 g of mix weighs 100 g"),
        pytest.param(1.1, 0.44, 150, id="a cup of 110 g of mix weighs 44 g"),
        # Spencer, Scanlon and Page, egg foam rheology: the lightest foam 235 kg/m3; egg white 1040 from memory.
        pytest.param(1.04, 0.235, 342.6, id="an egg foam of 235 kg/m3"),
    ],
)
def test_published_examples(mix_density, finished_density, overrun):
    """Cups of 30 g that hold 110 g of mix weigh 134.8, 130 and 74 g in all at 5, 10 and 150 %."""
    assert overrun_percent(mix(mix_density), finished_density).value == pytest.approx(overrun, abs=0.05)


def test_a_foam_with_pieces():
    """Guelph: 9 kg of candy, 0.748 kg/L, in 91 kg of ice cream, 100 % overrun on a mix of 1.1 kg/L: 564 g/L.

    Our figure counts candy as mix. By hand: 91 / 1.1 = 82.73 L of mix and 9 / 0.748 = 12.03 L of candy without air;
    82.73 L of air in 94.76 L are 87.3 %, and in the 82.73 L of mix alone 100 %.
    Source: guelph-dairy, "Figuring target package weights, with particulates".
    """
    foam_l, candy_l = 91 / (1.1 / (100 / 100 + 1)), 9 / 0.748
    assert 100 / (foam_l + candy_l) == pytest.approx(0.564, abs=0.001)
    mix_l = 91 / 1.1
    whole = overrun_percent(mix(100 / (mix_l + candy_l)), 0.564).value
    assert whole == pytest.approx(87.3, abs=0.2)
    assert whole * (mix_l + candy_l) / mix_l == pytest.approx(100, abs=0.3)  # 0.564 is a rounded figure


def test_a_foam_with_pieces_by_volume():
    """40 L of mix and 28 L of pecans give 110 L, of which 82 L are foam: 105 %. Source: that book, restated."""
    whole = overrun_percent(mix(1.0), (40 + 28) / 110).value
    assert whole * (40 + 28) / 40 == pytest.approx(105, abs=0.01)


def test_the_band_is_that_of_the_predicted_density():
    predicted = Estimate(1.2, 1.19, 1.21, MODEL)
    answer = overrun_percent(predicted, 200 / 236.588)
    assert answer.low < answer.value < answer.high
    assert answer.value == pytest.approx(100 * (1.2 * 236.588 / 200 - 1))


def test_without_a_predicted_density_there_is_no_overrun():
    assert overrun_percent(Withheld("why"), 0.8) == Withheld("why")


def test_a_batch_denser_than_its_mix_is_withheld():
    answer = overrun_percent(Estimate(1.2, 1.19, 1.21, MODEL), 1.25)
    assert isinstance(answer, Withheld)
    assert "1.250 g/mL" in answer.reason


@given(st.floats(0.3, 1.5), st.floats(0, 400))
def test_overrun_and_air_are_two_words_for_one_volume(density, overrun):
    finished = density / (1 + overrun / 100)
    assert overrun_percent(mix(density), finished).value == pytest.approx(overrun, abs=1e-6)
    assert air_percent(overrun) == pytest.approx(100 * (1 - finished / density))
