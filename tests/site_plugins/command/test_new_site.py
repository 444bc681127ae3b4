"""`crumbcoat new-site` and `new-recipe`: what they write builds as it is, and holds nothing of ours."""

import re
from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.recipe.model import FAMILIES
from crumbcoat_site.command.choices import COLOURS, FAMILY_WORDS
from crumbcoat_site.command.new_recipe import file_name
from crumbcoat_site.recipe_cards.contrast.check import contrast_problems, theme_sheets
from crumbcoat_site.recipe_cards.contrast.variables import palettes_of
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from mkdocs.config import load_config

from tests.site_plugins.command.conftest import run

DEMO_WORDS = re.compile("lantern|everyday milk|custard buttercream|from memory|crumbcoat/mark", re.IGNORECASE)


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_the_questions_have_usual_answers(here: Path) -> None:
    done = run("new-site", "blue-door_bakes", answers="\n\nUS\nclass\nmint\n")
    assert done.exit_code == 0
    settings = yaml.safe_load((here / "blue-door_bakes" / "mkdocs.yml").read_text(encoding="utf-8"))
    assert settings["site_name"] == settings["site_author"] == "Blue door bakes"
    cards = next(entry["recipe_cards"] for entry in settings["plugins"] if isinstance(entry, dict))
    assert cards == {"region": "US", "handouts": True, "show_cost": False}
    assert (here / "blue-door_bakes" / "docs" / "calculators" / "handout.md").is_file()
    assert COLOURS["mint"][0] in (here / "blue-door_bakes" / "docs" / "assets" / "colours.css").read_text()


@pytest.mark.parametrize("way", ["asked", "given"])
def test_the_name_of_the_author_is_on_the_about_page_and_in_each_new_recipe(
    here: Path, monkeypatch: pytest.MonkeyPatch, way: str
) -> None:
    if way == "asked":
        done = run("new-site", "site", answers='Blue door\nAna "A." Example\nUK\nhome\nmint\n')
    else:
        done = run("new-site", "site", "--title", "Blue door", "--author", 'Ana "A." Example', "--yes")
    assert done.exit_code == 0
    assert ("a name (Enter: that of the site)" in done.output) == (way == "asked")
    monkeypatch.chdir(here / "site")
    assert yaml.safe_load(Path("mkdocs.yml").read_text(encoding="utf-8"))["site_author"] == 'Ana "A." Example'
    assert 'Recipes and words: Ana "A." Example.' in Path("docs/about/index.md").read_text(encoding="utf-8")
    assert run("new-recipe", "Cream").exit_code == 0
    recipe = load_recipe(Path("docs/recipes/cream.yaml"), "cream.yaml")[0]
    assert (recipe.author.name, recipe.author.is_person) == ('Ana "A." Example', True)


def test_without_questions_a_home_has_no_word_of_classes_and_nothing_of_the_demo(here: Path) -> None:
    assert run("new-site", "home", "--title", 'A "quoted": title # 1', "--yes").exit_code == 0
    files = {path: path.read_text(encoding="utf-8") for path in (here / "home").rglob("*") if path.is_file()}
    assert yaml.safe_load(files[here / "home" / "mkdocs.yml"])["site_name"] == 'A "quoted": title # 1'
    for path, text in files.items():
        if not path.name.endswith(".schema.json"):
            assert not DEMO_WORDS.search(text), path
        if path.suffix == ".md":
            assert not re.search(r"\bclass\b|handout", text), path


def test_a_folder_that_is_not_empty_is_left_alone(here: Path) -> None:
    (here / "full").mkdir()
    (here / "full" / "letter.txt").write_text("dear")
    done = run("new-site", "full", "--yes")
    assert done.exit_code == 1
    assert "full: this folder is not empty.\n    Fix: name a new folder" in done.output
    assert [path.name for path in (here / "full").iterdir()] == ["letter.txt"]
    assert "this is a file" in run("new-site", "full/letter.txt", "--yes").output


@pytest.mark.parametrize("name", COLOURS)
def test_the_six_colours_can_be_read_light_and_dark(here: Path, name: str) -> None:
    run("new-site", "site", "--colours", name, "--yes")
    config = load_config("site/mkdocs.yml")
    sheets = [*theme_sheets(config.theme.dirs), Path("site/docs/assets/colours.css").read_text(encoding="utf-8")]
    assert list(contrast_problems(palettes_of(config.theme["palette"]), sheets)) == []


def test_every_family_can_be_begun() -> None:
    assert set(FAMILY_WORDS) == set(FAMILIES)


def test_a_recipe_needs_a_site() -> None:
    assert "there is no mkdocs.yml here" in run("new-recipe", "Lost").output


@pytest.fixture
def site(here: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    run("new-site", "site", "--yes")
    monkeypatch.chdir(here / "site")
    return here / "site"


def test_every_skeleton_is_a_recipe_with_usual_figures_roles_and_a_checkpoint(site: Path) -> None:
    for family in FAMILY_WORDS:
        assert run("new-recipe", f"My {family}", "--family", family).exit_code == 0
    done = run("check")
    assert f"{len(FAMILY_WORDS) + 2} files, no problems" in done.output
    assert "usually has" not in done.output
    for word in ("role", "checkpoint"):
        assert re.findall(rf"^(.*\.yaml).*{word}", done.output, re.MULTILINE) in ([], ["docs/recipes/my-other.yaml"])


def test_a_skeleton_for_the_us_has_its_words_and_measures_and_the_same_masses(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    masses = {}
    for region in ("UK", "US"):
        run("new-site", region, "--region", region, "--yes")
        monkeypatch.chdir(here / region)
        for family in FAMILY_WORDS:
            assert run("new-recipe", f"My {family}", "--family", family).exit_code == 0
        done = run("check")
        assert f"{len(FAMILY_WORDS) + 2} files, no problems" in done.output
        assert "usually has" not in done.output
        files = sorted(Path("docs/recipes").glob("*.yaml"))
        recipes = [load_recipe(file, file.name, None, region)[0] for file in files]
        masses[region] = [one.mass_g for recipe in recipes for one in recipe.ingredients]
        texts = "".join(file.read_text(encoding="utf-8") for file in files)
        monkeypatch.chdir(here)
    assert masses["US"] == pytest.approx(masses["UK"], rel=0.03)
    for word in ("icing sugar", "icing_sugar", "plain flour", "cornflour", "sieved", "°C"):
        assert word not in texts
    for word in ("2 sticks,", "3 large,", "2⅔ cups,", "heat_to: 212 °F", "add: [powdered_sugar, water]"):
        assert word in texts


def test_ingredients_can_be_named_with_plain_cups_in_the_us(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run("new-site", "site", "--region", "US", "--yes")
    monkeypatch.chdir(here / "site")
    assert run("new-recipe", "Plain", "--with", "heavy cream 1 cup", "--with", "powdered sugar 2 tbsp").exit_code == 0
    assert "amount: 1 cup" in Path("docs/recipes/plain.yaml").read_text(encoding="utf-8")
    assert run("check", "--no-warnings").exit_code == 0


def test_ingredients_can_be_named_with_their_amounts(site: Path) -> None:
    done = run("new-recipe", "Plain cream", "--with", "heavy cream 500 g", "--with", "icing sugar: 1/2 US cup, sifted")
    assert done.exit_code == 0
    fields = yaml.safe_load((site / "docs" / "recipes" / "plain-cream.yaml").read_text(encoding="utf-8"))
    assert [ingredient["amount"] for ingredient in fields["ingredients"].values()] == ["500 g", "1/2 US cup, sifted"]
    assert fields["author"] == "Site"
    assert run("check", "--no-warnings").exit_code == 0
    assert "there is such a file already" in run("new-recipe", "Plain: cream!").output


@pytest.mark.parametrize(
    ("words", "problem"),
    [
        ("butter", "there is no amount"),
        ("nothing such 3 g", "nothing such"),
        ("icing sugar 3 apples", "apples"),
    ],
)
def test_an_ingredient_that_cannot_be_used_writes_nothing(site: Path, words: str, problem: str) -> None:
    done = run("new-recipe", "New", "--with", words)
    assert done.exit_code == 1
    assert problem in done.output
    assert "Fix: " in done.output
    assert not list((site / "docs" / "recipes").glob("*.yaml"))


def test_the_smallest_recipe_has_no_problem_and_stays_inside_the_site(site: Path) -> None:
    assert run("new-recipe", "Пирог").exit_code == 0
    assert run("check", "--no-warnings").exit_code == 0
    assert "outside docs" in run("new-recipe", "Away", "--in", "../..").output
    assert "only one of them" in run("new-recipe", "Both", "--family", "ganache", "--with", "butter 3 g").output


@pytest.mark.parametrize(
    ("title", "name"),
    [("Crème & lemon", "creme-lemon"), ("..//", "recipe"), ("A" * 200, "a" * 60), ("CON: 1", "con-1")],
)
def test_a_title_becomes_a_name_that_any_system_can_store(title: str, name: str) -> None:
    assert file_name(title) == name
