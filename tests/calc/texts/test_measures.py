"""Amounts in ounces, against the exact definitions of pound and ounce."""

import pytest
from crumbcoat_calc.texts.measures import ounces_text
from crumbcoat_calc.values.units import grams
from hypothesis import given
from hypothesis import strategies as st


@pytest.mark.parametrize(
    ("mass_g", "text"),
    [
        pytest.param(453.59237, "1 lb", id="a pound, exact"),
        pytest.param(28.349523125, "1 oz", id="an ounce, exact"),
        pytest.param(113.398, "4 oz", id="a stick of butter"),
        pytest.param(510.29, "1 lb 2 oz", id="pounds and ounces"),
        pytest.param(10, "0.35 oz", id="a small amount"),
        pytest.param(1.5, "1.5 g", id="less than a tenth of an ounce"),
    ],
)
def test_ounces(mass_g: float, text: str) -> None:
    """nist-hb44: 1 lb = 453.59237 g = 16 oz, exact."""
    assert ounces_text(mass_g) == text


@given(mass_g=st.floats(3, 9_000))
def test_ounces_are_read_back_within_half_a_step(mass_g: float) -> None:
    ounce = 28.349523125
    pounds, _, rest = ounces_text(mass_g).rpartition("lb ")
    shown_g = (grams(f"{pounds} lb") if pounds else 0.0) + grams(rest)
    step_g = (0.05 if mass_g >= ounce else 0.01) * ounce
    assert abs(shown_g - mass_g) <= step_g / 2 + 1e-6
