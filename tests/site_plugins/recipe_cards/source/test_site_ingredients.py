"""The list of a site's own ingredients: what recipes get of it, and the place, problem and remedy of every mistake."""

from datetime import date
from pathlib import Path

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.recipe.writing import recipe_text
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.pages.recipe_pages import recipe_pages
from crumbcoat_site.recipe_cards.source.every_problem import read_file
from crumbcoat_site.recipe_cards.source.own_ingredients import SiteIngredients
from crumbcoat_site.recipe_cards.source.read_ingredients import read_ingredients
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe, read_recipe
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.schema import INGREDIENTS_FILE, ingredients_schema, schema_text
from crumbcoat_site.recipe_cards.source.site_ingredients import load_site_ingredients
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.yaml_text import read_document
from jsonschema import Draft202012Validator

LIST = """\
# Ours.
our_paste:
  name: vanilla paste
  pack: {per: 100 g, rules: EU, energy: 252 kcal, fat: 0.5 g, carbohydrate: 61 g, sugars: 55 g, protein: 0.6 g}
  measures: {US tsp: 6 g, jar: 90 g}
  made_of: [sugar, water, vanilla]
  allergens: []
  source: The maker's label
our_mascarpone:
  name: mascarpone
  kind: ciqual 19584
  allergens: [milk]
our_butter:
  name: butter of the farm
  kind: butter_unsalted
  composition: {fat: 84 %}
"""
RECIPE = """\
title: Plain cream
summary: Whipped, for a plain cake.
author: Lantern Street teaching kitchen
family: whipped cream
yield: {portions: 12, of: cupcakes}
ingredients:
  cream: {kind: cream_heavy_whipping, amount: 500 g, replacements: {cheese: {kind: our_mascarpone}}}
  paste: {kind: our_paste, amount: 2 US tsp}
  butter: {kind: our_butter, amount: 50 g, allergens: []}
stages:
  - title: Whip
    steps:
      - {do: Whip., add: [cream, paste, butter]}
"""


def listed(folder: Path, text: str = LIST) -> SiteIngredients:
    path = folder / "ingredients.yaml"
    path.write_text(text, encoding="utf-8")
    return read_ingredients(path, "ingredients.yaml")


def test_a_recipe_carries_what_it_uses_of_the_list(tmp_path: Path) -> None:
    own = listed(tmp_path)
    assert own.problems == ()
    recipe, data = read_recipe(RECIPE, "recipe.yaml", own.kinds)
    cream, paste, butter = recipe.ingredients
    assert (paste.name, paste.mass_g, paste.allergens) == ("vanilla paste", 12.0, ())
    assert [part.name for part in paste.made_of] == ["sugar", "water", "vanilla"]
    assert cream.replacements[0].allergens == ("milk",)
    assert cream.replacements[0].food.content("fat_g") == 37.0  # Ciqual 19584
    assert (butter.food.key, butter.food.content("fat_g"), butter.allergens) == ("butter_unsalted", 84.0, ())
    assert "vanilla paste: The maker's label" in paste.food.note
    again, _ = read_recipe(RECIPE, "recipe.yaml", own.kinds)
    assert again == recipe
    assert read_recipe.__module__ not in str(data)


@pytest.mark.parametrize("written", ["Our-Paste", "our paste", "Vanilla paste", "“Vanilla Paste”", "OUR_PASTE"])
def test_they_are_found_by_key_or_name_without_case_spaces_and_punctuation(tmp_path: Path, written: str) -> None:
    own = listed(tmp_path)
    text = RECIPE.replace("kind: our_paste", f"kind: {written}")
    kinds = own.used_by(text.encode())
    assert "our_paste" in kinds
    assert read_recipe(text, "recipe.yaml", kinds) == read_recipe(RECIPE, "recipe.yaml", own.kinds)


def test_a_key_of_the_ingredient_table_is_never_one_of_them(tmp_path: Path) -> None:
    own = listed(tmp_path, LIST.replace("name: butter of the farm", "name: butter (unsalted)"))
    recipe, _ = read_recipe(RECIPE.replace("our_butter", "butter_unsalted"), "recipe.yaml", own.kinds)
    assert recipe.ingredients[2].food == food("butter_unsalted")
    recipe, _ = read_recipe(RECIPE.replace("our_butter", '"butter, unsalted"'), "recipe.yaml", own.kinds)
    assert recipe.ingredients[2].food.content("fat_g") == 84


def test_a_name_that_two_of_them_have_is_refused(tmp_path: Path) -> None:
    own = listed(tmp_path, LIST.replace("name: mascarpone", "name: Vanilla paste"))
    with pytest.raises(SourceError) as caught:
        read_recipe(RECIPE.replace("kind: our_paste", "kind: vanilla paste"), "recipe.yaml", own.kinds)
    assert (caught.value.line, caught.value.remedy) == (8, "write `our_paste` or `our_mascarpone`")


@pytest.mark.parametrize(
    ("written", "remedy"),
    [
        ("vanila paste", "did you mean the site's own `our_paste` (vanilla paste)? If not, "),
        ("oar paste", "did you mean the site's own `our_paste` (vanilla paste)? If not, "),
        ("butter", "did you mean the site's own `our_butter` (butter of the farm)? If not, write one of: `butter_"),
        ("suggar", "did you mean `sugar_granulated` (sugar, granulated)?"),
    ],
)  # fmt: skip
def test_near_misses_list_them_first(tmp_path: Path, written: str, remedy: str) -> None:
    path = tmp_path / "recipe.yaml"
    path.write_text(RECIPE.replace("kind: our_paste, amount: 2 US tsp", f"kind: {written}, amount: 5 g"))
    (problem,) = read_file(path, "recipe.yaml", listed(tmp_path).kinds).problems
    assert problem.line == 8
    assert problem.remedy.startswith(remedy)


def test_a_build_compares_a_misspelled_name_with_all_of_them(tmp_path: Path) -> None:
    """Also with those that the recipe cannot mean by what is in it, on which its page does not depend."""
    own, path = listed(tmp_path), tmp_path / "recipe.yaml"
    path.write_text(RECIPE.replace("kind: our_paste, amount: 2 US tsp", "kind: vanila paste, amount: 5 g"))
    kinds = own.used_by(path.read_bytes())
    assert "our_paste" not in kinds
    file = RecipeFile(path=path, name="recipe", photos={}, kinds=kinds, all_kinds=own.kinds)
    options, cache = CardOptions(None, False), PageCache(tmp_path / "cache")
    pages = recipe_pages([file], tmp_path / "none.csv", options, None, cache, date(2026, 1, 2), with_drafts=False)
    (problem,) = pages.problems["recipe"]
    assert problem.remedy.startswith("did you mean the site's own `our_paste` (vanilla paste)?")


def test_a_recipe_that_is_written_out_names_them_as_it_did(tmp_path: Path) -> None:
    own = listed(tmp_path)
    _, data = read_recipe(RECIPE, "recipe.yaml", own.kinds)
    text = recipe_text(data)
    assert "kind: our_paste\n" in text
    assert "kind: our_mascarpone\n" in text
    assert "contents" not in text


WATER = "\n  name: x\n  kind: water_tap\n"
WRONG = {
    "no name": ("p:\n  pack: {per: 100 g, rules: EU, fat: 1 g}\n", 1, "the field 'name' is missing", "add `name: …`"),
    "an amount": (f"p:{WATER}  amount: 3 g\n", 4, "unknown field 'amount'", "use one of"),
    "nothing": ("p:\n  name: x\n", 1, "neither `kind` nor `composition` nor `pack`", "add `kind: …`"),
    "a kind": (f"water_tap:{WATER}", 1, "has a kind 'water_tap' already", "`our_water_tap`"),
    "a number": ("p:\n  name: x\n  kind: ciqual 19548\n", 3, "has no food with the number 19548", "look it up with"),
    "another": (f"a:{WATER}b:\n  name: y\n  kind: a\n", 6, "has no kind 'a'", "look for another"),
    "a pack": ("p:\n  name: x\n  pack:\n    per: 100 g\n    rules: EU\n    fat: 1\n", 6, "'1' has no unit", "write"),
    "capitals": (f"Paste:{WATER}", 1, "'Paste' is not a valid short name", "use lower-case"),
    "an allergen": (f"p:{WATER}  allergens: [dust]\n", 4, "'dust'", "use one of"),
    "a list": ("- paste\n", 1, "expected fields, but found a list", "write `our_paste:` and its fields below it"),
    "a sentence": ("paste is good\n", 1, "expected fields", "write `our_paste:`"),
    "a measure": (f"p:{WATER}  measures: {{2 cups: 3 g}}\n", 4, "not the name of one", "write one"),
}


@pytest.mark.parametrize("case", WRONG)
def test_a_mistake_has_its_place_problem_and_remedy(case: str, tmp_path: Path) -> None:
    text, line, problem, remedy = WRONG[case]
    (found,) = listed(tmp_path, text).problems
    assert (found.file, found.line) == ("ingredients.yaml", line)
    assert problem in found.problem
    assert remedy in found.remedy


def test_every_entry_with_a_mistake_is_reported_and_the_others_can_be_used(tmp_path: Path) -> None:
    own = listed(tmp_path, LIST.replace("butter_unsalted", "buttr").replace("milk", "mlk"))
    assert [problem.line for problem in own.problems] == [12, 15]
    assert own.kinds["our_butter"] is None
    with pytest.raises(SourceError) as caught:
        read_recipe(RECIPE, "recipe.yaml", own.kinds)
    assert (caught.value.line, caught.value.remedy) == (7, "put it right in their list")


def test_all_problems_of_a_recipe_are_found_beside_those_of_its_kinds(tmp_path: Path) -> None:
    path = tmp_path / "recipe.yaml"
    text = RECIPE.replace("our_paste", "ciqual 99999").replace("portions: 12", "portions: none")
    path.write_text(text, encoding="utf-8")
    lines = [problem.line for problem in read_file(path, "recipe.yaml", listed(tmp_path).kinds).problems]
    assert lines == [5, 8]


def test_an_empty_list_and_no_list_are_fine(tmp_path: Path) -> None:
    cache = PageCache(tmp_path / "cache")
    assert load_site_ingredients(tmp_path / "none.yaml", "none.yaml", cache) == SiteIngredients({}, ())
    assert listed(tmp_path, "# nothing yet\n\n") == SiteIngredients({}, ())


def test_the_list_is_kept_until_it_changes(tmp_path: Path) -> None:
    cache, path = PageCache(tmp_path / "cache"), tmp_path / "ingredients.yaml"
    path.write_text(LIST, encoding="utf-8")
    first = load_site_ingredients(path, "ingredients.yaml", cache)
    assert load_site_ingredients(path, "ingredients.yaml", cache) == first
    path.write_text(LIST.replace("84 %", "82 %"), encoding="utf-8")
    assert load_site_ingredients(path, "ingredients.yaml", cache).kinds["our_butter"] != first.kinds["our_butter"]


def test_a_recipe_depends_on_what_it_may_use_and_on_nothing_else(tmp_path: Path) -> None:
    own = listed(tmp_path)
    assert set(own.used_by(b"kind: our_paste")) == {"our_paste"}
    assert set(own.used_by(b"kind: butter_unsalted")) == set()
    assert set(own.used_by(b'kind: "our_\\x70aste"')) == set(own.kinds)


def test_a_recipe_without_the_list_does_not_know_its_names(tmp_path: Path) -> None:
    path = tmp_path / "recipe.yaml"
    path.write_text(RECIPE, encoding="utf-8")
    with pytest.raises(SourceError, match="has no kind 'our_mascarpone'"):
        load_recipe(path, "recipe.yaml")


def test_the_schema_takes_what_the_reader_takes(tmp_path: Path) -> None:
    validator = Draft202012Validator(ingredients_schema())
    Draft202012Validator.check_schema(ingredients_schema())
    assert validator.is_valid(read_document(LIST).data)
    assert not validator.is_valid(read_document(WRONG["an amount"][0]).data)
    assert INGREDIENTS_FILE.read_text(encoding="utf-8") == schema_text(INGREDIENTS_FILE)
