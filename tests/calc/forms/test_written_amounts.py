"""Amounts as readers type them: a name that several measures share is answered with the choice."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.forms.written_amounts import amount_in_form
from crumbcoat_calc.values.display import mass_text

BUTTER = food("butter_unsalted")


@pytest.mark.parametrize(
    ("written", "remedy"),
    [
        ("½ cup", "write `½ US cup` (114 g) or `½ metric cup` (120 g)"),
        ("2 tbsp", "write `2 US tbsp` (28 g), `2 metric tbsp` (29 g) or `2 AU tbsp` (38 g)"),
        ("1 US cup + 1 tbsp", "write `1 US tbsp` (14 g), `1 metric tbsp` (14 g) or `1 AU tbsp` (19 g)"),
    ],
)
def test_a_measure_that_is_not_the_same_everywhere_is_a_choice(written: str, remedy: str) -> None:
    """227 g a US cup and 14.2 g a US tbsp, usda-sr28; the others by the ratio of the volumes."""
    with pytest.raises(InputError) as error:
        amount_in_form(BUTTER, written)
    assert error.value.remedy == remedy
    assert "not the same measure everywhere" in error.value.problem
    for measure, mass in error.value.choices:
        assert mass_text(amount_in_form(BUTTER, measure)) == mass
        assert f"`{measure}` ({mass})" in remedy
    assert bool(error.value.choices) is ("+" not in written)


def test_what_is_offered_is_read() -> None:
    assert amount_in_form(BUTTER, "½ US cup") == 113.5
    assert amount_in_form(BUTTER, "½ metric cup") == pytest.approx(113.5 * 250 / 236.5882365)


def test_a_teaspoon_is_much_the_same_everywhere() -> None:
    assert amount_in_form(BUTTER, "2 tsp") == amount_in_form(BUTTER, "2 US tsp")


def test_a_number_with_an_exponent_is_refused_as_a_whole() -> None:
    with pytest.raises(InputError) as error:
        amount_in_form(BUTTER, "1e9 g")
    assert str(error.value).startswith("'1e9 g' is not one number with a unit")
