"""How hot each ingredient gets, on small recipes that can be followed by hand."""

import pytest
from crumbcoat_calc.recipe.heating import highest_temperatures
from crumbcoat_calc.recipe.reading import recipe_from


def _recipe(ingredients, stages):
    return recipe_from(
        {
            "title": "Test", "summary": "For a test.", "author": "the tests", "family": "other",
            "yield": {"portions": "1", "of": "bowl"}, "ingredients": ingredients, "stages": stages,
        }
    )  # fmt: skip


EGG = {"kind": "egg_white_raw", "amount": "100 g"}
SUGAR = {"kind": "sugar_granulated", "amount": "200 g"}
HALVES = {"first": "50 g", "second": "50 g"}


@pytest.mark.parametrize(
    ("ingredients", "stages", "reached"),
    [
        pytest.param(
            {"egg": EGG}, [{"title": "Whip", "steps": [{"do": "Whip.", "add": ["egg"]}]}],
            {"egg": None}, id="never heated",
        ),
        pytest.param(
            {"egg": EGG, "sugar": SUGAR},
            [{"title": "Heat", "steps": [{"do": "Mix.", "add": ["egg"]}, {"do": "Heat.", "heat_to": "71 °C"},
                                         {"do": "Add.", "add": ["sugar"]}, {"do": "Keep.", "heat_to": "60 °C"}]}],
            {"egg": 71.0, "sugar": 60.0}, id="the hottest step after it went in",
        ),
        pytest.param(
            {"egg": EGG, "sugar": SUGAR},
            [{"title": "Boil", "makes": "syrup", "steps": [{"do": "Boil.", "add": ["sugar"], "heat_to": "118 °C"}]},
             {"title": "Pour", "steps": [{"do": "Whip.", "add": ["egg"]}, {"do": "Pour.", "add": ["syrup"]}]}],
            {"egg": None, "sugar": 118.0}, id="hot syrup poured onto the egg does not heat it",
        ),
        pytest.param(
            {"egg": {**EGG, "portions": HALVES}},
            [{"title": "Heat", "steps": [{"do": "Heat.", "add": ["egg/first"], "heat_to": "80 °C"},
                                         {"do": "Fold.", "add": ["egg/second"]}]}],
            {"egg": None}, id="one portion stays raw",
        ),
        pytest.param(
            {"egg": EGG},
            [{"title": "Heat", "steps": [{"do": "Heat.", "add": ["egg"], "heat_to": "80 °C", "optional": "yes"}]}],
            {"egg": None}, id="an optional step does not count",
        ),
        pytest.param(
            {"egg": EGG, "sugar": SUGAR},
            [{"title": "Warm", "makes": "base", "shares": {"one": "50 %", "other": "50 %"},
              "steps": [{"do": "Warm.", "add": ["egg"], "heat_to": "60 °C"}]},
             {"title": "Heat", "makes": "hot", "steps": [{"do": "Heat.", "add": ["base/one"], "heat_to": "85 °C"}]},
             {"title": "Join", "steps": [{"do": "Join.", "add": ["hot", "base/other", "sugar"]}]}],
            {"egg": 60.0, "sugar": None}, id="shares are heated separately, and the lowest counts",
        ),
        pytest.param(
            {"egg": EGG, "sugar": SUGAR},
            [{"title": "Warm", "makes": "base", "steps": [{"do": "Warm.", "add": ["egg"]}]},
             {"title": "Heat", "steps": [{"do": "Heat.", "add": ["base", "sugar"], "heat_to": "82 °C"}]}],
            {"egg": 82.0, "sugar": 82.0}, id="what was set aside is heated where it goes in",
        ),
    ],
)  # fmt: skip
def test_highest_temperatures(ingredients, stages, reached):
    assert highest_temperatures(_recipe(ingredients, stages)) == reached
