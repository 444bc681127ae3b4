"""Short forms of a recipe file, written out: what they become, and that problems keep the lines of the file."""

from pathlib import Path

import pytest
from crumbcoat_site.recipe_cards.source.every_problem import read_file
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.short_forms import written_out
from crumbcoat_site.recipe_cards.source.yaml_text import read_document

GOLDEN = Path(__file__).parents[4] / "tests" / "golden" / "good-short-forms" / "recipe.yaml"


def fields(text: str, region: str | None = None) -> object:
    return written_out(read_document(text), region).data


def test_every_short_form_is_written_out() -> None:
    recipe, data = load_recipe(GOLDEN, "recipe.yaml")
    assert data["yield"] == {"portions": "12", "of": "cupcakes"}
    assert data["keywords"] == ["plain", "quick"]
    assert (data["notes"], data["may_contain"]) == (["Pipe it at once."], ["hazelnut"])
    assert list(data["ingredients"]) == ["whole_milk", "starch", "best_butter"]
    assert list(data["ingredients"]["whole_milk"]["portions"]) == ["to_cook", "reserved"]
    steps = [step for stage in data["stages"] for step in stage["steps"]]
    assert [step["add"] for step in steps] == [
        ["whole_milk/to_cook", "starch"],
        "best_butter",
        ["milk_base/first_part", "milk_base/rest", "whole_milk/reserved"],
    ]
    assert steps[2]["checkpoint"]["passes"] == ["It is smooth, and pale."]
    assert recipe.stages[0].makes == "milk_base"


def test_what_has_no_short_form_stays_as_it_is() -> None:
    text = "title: 12 Cakes, big\nyield: {portions: 3, of: Big Cakes}\ningredients: {milk: {amount: 1 cup}}\n"
    assert fields(text) == read_document(text).data


def test_names_that_would_be_the_same_are_left_to_the_reader() -> None:
    text = "ingredients: {egg whites: {}, Egg Whites: {}}\n"
    assert fields(text) == read_document(text).data


def test_a_problem_keeps_its_line(tmp_path: Path) -> None:
    lines = GOLDEN.read_text(encoding="utf-8").replace("kind: butter_unsalted", "kind: buter_unsalted").splitlines()
    (tmp_path / "recipe.yaml").write_text("\n".join(lines), encoding="utf-8")
    (problem,) = read_file(tmp_path / "recipe.yaml", "recipe.yaml").problems
    assert "buter" in lines[problem.line - 1]


@pytest.mark.parametrize(
    ("written", "region", "amount"),
    [
        ("2 tbsp", None, "2 tbsp"),
        ("2 tbsp", "US", "2 US tbsp"),
        ("2 tablespoons", "UK", "2 metric tablespoons"),
        ("½ tbsp, sifted", "EU", "½ metric tbsp, sifted"),
        ("1 cup", "US", "1 US cup"),
        ("1 cup", "UK", "1 metric cup"),
        ("1 1/4 cups", "EU", "1 1/4 metric cups"),
        ("1 tsp", "UK", "1 metric tsp"),
        ("1 tsp", None, "1 tsp"),
        ("1 US cup", "EU", "1 US cup"),
        ("1 AU tbsp", "US", "1 AU tbsp"),
        ("250 g", "US", "250 g"),
        ("1 cup + 2 tbsp", "US", "1 US cup + 2 US tbsp"),
        ("1 pint", "US", "1 US pint"),
        ("½ pint", "UK", "½ imperial pint"),
        ("8 fl oz", "US", "8 US fl oz"),
        ("8 fl. oz", "EU", "8 fl. oz"),
        ("1 quart", "US", "1 US quart"),
    ],
)
def test_a_plain_spoon_or_cup_is_that_of_the_region(written: str, region: str | None, amount: str) -> None:
    # US tablespoon 14.8 mL: NIST Handbook 44; metric 15 mL and Australian 20 mL: common practice, no source.
    data = fields(f"ingredients: {{milk: {{amount: '{written}', portions: {{one: '{written}'}}}}}}\n", region)
    assert data == {"ingredients": {"milk": {"amount": amount, "portions": {"one": amount}}}}


def test_the_cup_that_a_trial_weighs_is_that_of_the_region() -> None:
    text = "readings: [{cup: 1 cup, cup_weighs: 230 g}]\nchanged: {ingredients: {milk: 1 pint}}\n"
    data = {"readings": [{"cup": "1 US cup", "cup_weighs": "230 g"}], "changed": {"ingredients": {"milk": "1 US pint"}}}
    assert fields(text, "US") == data
    assert fields(text, "EU")["readings"] == [{"cup": "1 metric cup", "cup_weighs": "230 g"}]
    assert fields(text) == read_document(text).data


def test_a_kind_that_is_written_as_people_call_it_is_called_so_on_the_page(tmp_path: Path) -> None:
    text = GOLDEN.read_text(encoding="utf-8").replace("kind: cornstarch", "kind: Corn  starch")
    (tmp_path / "recipe.yaml").write_text(text, encoding="utf-8")
    recipe, data = load_recipe(tmp_path / "recipe.yaml", "recipe.yaml")
    assert [ingredient.name for ingredient in recipe.ingredients][1:] == ["Corn starch", "butter, unsalted"]
    assert data["ingredients"]["starch"]["kind"] == "cornstarch"
