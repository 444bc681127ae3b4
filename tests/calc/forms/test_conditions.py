"""What a reader enters about the kitchen: read, refused, and kept with one spelling."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.conditions import condition_fields, conditions_from, state_from_conditions
from crumbcoat_calc.recipe.reading import recipe_from

RECIPE = recipe_from(
    {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": "other",
        "yield": {"portions": "12", "of": "cupcakes"}, "measured": {"ph": "6.2"},
        "ingredients": {"milk": {"kind": "milk_skim", "amount": "300 g", "temperature": "10 °C"}},
        "stages": [
            {"title": "Cook", "makes": "base", "steps": [{"do": "Heat.", "add": ["milk"]}]},
            {"title": "Mix", "steps": [{"do": "Mix.", "add": ["base"]}]},
        ],
    }
)  # fmt: skip


@pytest.mark.parametrize(
    ("state", "kept"),
    [
        ({}, {}),
        ({"bowl_temperature": "20 °C"}, {}),
        ({"bowl_temperature": "77 °F"}, {"bowl_temperature": "25"}),
        ({"temperature.milk": "10"}, {}),
        ({"temperature.milk": "4"}, {"temperature.milk": "4"}),
        ({"ph": "6.2"}, {}),
        ({"ph": ""}, {}),
        ({"ph": "4.4"}, {"ph": "4.4"}),
        ({"mixer_watts": "60 W", "mixer_minutes": "10 min"}, {"mixer_watts": "60", "mixer_minutes": "10"}),
        ({"tempered": "milk", "looked_at": "0"}, {"tempered": "milk", "looked_at": "0"}),
    ],
)
def test_only_differences_are_kept(state: dict[str, str], kept: dict[str, str]) -> None:
    assert state_from_conditions(conditions_from(RECIPE, state), RECIPE) == kept
    assert state_from_conditions(conditions_from(RECIPE, kept), RECIPE) == kept


@pytest.mark.parametrize(
    ("name", "value", "remedy"),
    [
        ("bowl_temperature", "warm", "20 °C"),
        ("bowl_temperature", "20 g", "20 °C"),
        ("temperature.mlik", "4", "milk"),
        ("temperature.milk", "400", ""),
        ("tempered", "butter", ""),
        ("looked_at", "1", "choose one of its stages"),
        ("ph", "15", ""),
        ("mixer_watts", "60 g", "watts"),
        ("chilled_minutes", "20 g", "3 min"),
    ],
)
def test_an_unusable_value_is_refused_at_its_field(name: str, value: str, remedy: str) -> None:
    with pytest.raises(InputError) as error:
        conditions_from(RECIPE, {name: value})
    assert error.value.path == tuple(name.split("."))
    assert error.value.remedy
    assert remedy in error.value.remedy


def test_a_temperature_in_fahrenheit_is_shown_with_one_decimal_and_kept_exactly() -> None:
    typed = conditions_from(RECIPE, {"bowl_temperature": "70 F", "temperature.milk": "41 F"})
    assert condition_fields(typed)["bowl_temperature"] == "21.1"
    kept = state_from_conditions(typed, RECIPE)
    assert kept == {"bowl_temperature": "21.111111", "temperature.milk": "5"}
    shown_again = conditions_from(RECIPE, {**kept, "bowl_temperature": "21.1"})
    assert shown_again.bowl_c == pytest.approx(typed.bowl_c, abs=0.05)
    assert condition_fields(shown_again) == condition_fields(typed)
