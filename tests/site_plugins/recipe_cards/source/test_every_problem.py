"""Every problem of a recipe file at once: each alone is found as by the reader, and several are found together."""

import itertools
import re
from pathlib import Path

import pytest
from crumbcoat_site.recipe_cards.source.every_problem import MOST, every_problem, read_file
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.source_errors import SourceError

ROOT = Path(__file__).parents[4]
GOLDEN = ROOT / "tests" / "golden"
WRONG = sorted(GOLDEN.glob("wrong-*"))
GOOD = (ROOT / "recipes" / "milk-emulsions" / "everyday-milk-frosting.yaml").read_text(encoding="utf-8")

SLIPS = {
    "a kind": ("kind: cornstarch", "kind: cornstrach", "cornstrach"),
    "a unit": ("amount: 30 g", "amount: 30 gx", "gx"),
    "a field of an ingredient": ("role: sweetness", "rolle: sweetness", "rolle"),
    "a temperature": ("heat_to: 90 °C", "heat_to: 900 °C", "900"),
    "a field of a step": ("look_for: No lumps", "lok_for: No lumps", "lok_for"),
    "a time": ("time: 5 to 6 min", "time: 6 to 5 min", "6 to 5"),
    "a word of a list": ("speed: medium-high", "speed: warp", "warp"),
    "a place": ("where: in the refrigerator", "where: in the cellar", "cellar"),
    "a field of the recipe": ("measured:", "mesured:", "mesured"),
    "a density": ("density: 0.76 g/mL", "density: 0.76", "0.76"),
}
"""What to write in place of what, and a word of the problem. Invented, as a writer's slips are."""


@pytest.mark.parametrize("case", WRONG, ids=lambda case: case.name)
def test_a_file_with_one_mistake_gives_that_of_the_reader_first(case: Path) -> None:
    with pytest.raises(SourceError) as caught:
        load_recipe(case / "recipe.yaml", "recipe.yaml")
    problems = read_file(case / "recipe.yaml", "recipe.yaml").problems
    assert str(caught.value) in [str(problem) for problem in problems]
    assert len(problems) <= 2


@pytest.mark.parametrize("names", list(itertools.combinations(SLIPS, 2)), ids=" and ".join)
def test_two_slips_are_two_problems(names: tuple[str, str], tmp_path: Path) -> None:
    assert found_of(names, tmp_path) == list(names)


def test_all_slips_at_once_are_all_found_and_nothing_else(tmp_path: Path) -> None:
    assert found_of(tuple(SLIPS), tmp_path) == list(SLIPS)


def found_of(names: tuple[str, ...], folder: Path) -> list[str]:
    """The slips that the problems of a file are about, in the order of `names`; anything else fails."""
    text = GOOD
    for name in names:
        right, wrong, _ = SLIPS[name]
        assert right in text
        text = text.replace(right, wrong, 1)
    (folder / "recipe.yaml").write_text(text, encoding="utf-8")
    problems = read_file(folder / "recipe.yaml", "recipe.yaml").problems
    assert [problem.line for problem in problems] == sorted(problem.line for problem in problems)
    found = []
    for problem in problems:
        about = [name for name in names if SLIPS[name][2] in problem.problem]
        assert len(about) == 1, problem
        found += about
    return [name for name in names if found.count(name) == 1]


def test_uses_that_do_not_fit_are_found_together(tmp_path: Path) -> None:
    text = GOOD.replace("add: [milk/slurry,", "add: [milk/pan,", 1).replace(
        "add: [butter/base]", "add: [butter/creaming]", 1
    )
    (tmp_path / "recipe.yaml").write_text(text, encoding="utf-8")
    problems = [problem.problem for problem in read_file(tmp_path / "recipe.yaml", "recipe.yaml").problems]
    assert [re.findall("'(.+?)'", problem)[0] for problem in problems] == [
        "milk/slurry", "butter/base", "milk/pan", "butter/creaming",
    ]  # fmt: skip


BROKEN = """title: T
summary: S.
author: A
family: other
yield: {portions: 12, of: buns}
ingredients:
  sugar: {kind: sugar_granulated, amount: 200 g, portions: {first: 100 g, second: 50 g}}
  cakes: {kind: nothing such, amount: 100 g}
  milk: {kind: milk_whole, amount: 100 g}
  cream: {kind: cream_double, amount: 100 g}
stages:
  - title: Mix
    steps:
      - do: Beat.
        add: [sugar/first, suger, milk]
      - do: Beat on.
        add: [sugar/third, "Milk!"]
      - do: Beat more.
        add: [milk]
"""


def test_what_steps_add_is_checked_beside_other_problems(tmp_path: Path) -> None:
    """What is put aside excuses what follows from it: the portions of sugar, and that no step adds the cream."""
    (tmp_path / "recipe.yaml").write_text(BROKEN, encoding="utf-8")
    problems = read_file(tmp_path / "recipe.yaml", "recipe.yaml").problems
    assert [(problem.line, problem.problem) for problem in problems] == [
        (7, "the portions add up to 150 g, 50 g less than the amount '200 g' (200 g)"),
        (8, "the ingredient table has no kind 'nothing such'"),
        (15, "'suger' is not in the list of ingredients"),
        (17, "'Milk!' is not a valid short name"),
        (19, "'milk' was already added in stage 1, step 1"),
    ]


def test_a_file_full_of_mistakes_ends(tmp_path: Path) -> None:
    ingredients = {f"thing_{number}": {"kind": "nothing such", "amount": "1 g"} for number in range(3 * MOST)}
    recipe, problems = every_problem({"ingredients": ingredients})
    assert recipe is None
    assert len(problems) == MOST
    recipe, problems = every_problem("no fields at all")
    assert (recipe, len(problems)) == (None, 1)


def test_a_map_must_be_of_ingredients(tmp_path: Path) -> None:
    text = (ROOT / "recipes" / "milk-emulsions" / "silk-milk-frosting.yaml").read_text(encoding="utf-8")
    (tmp_path / "recipe.yaml").write_text(re.sub("  map: .*", "  map: [milk, buter]", text), encoding="utf-8")
    (problem,) = read_file(tmp_path / "recipe.yaml", "recipe.yaml").problems
    assert problem.problem == "the recipe has no ingredient 'buter'"


def test_a_good_file_has_no_problem_and_is_read() -> None:
    for path in sorted((ROOT / "recipes").glob("*/*.yaml")):
        read = read_file(path, path.name)
        assert (read.problems, read.recipe) == ((), load_recipe(path, path.name)[0])
