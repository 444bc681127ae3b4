"""`crumbcoat bring-in` and `take-out`: a site comes from saved pages, and goes out again."""

import csv
import json
import shutil
import sys
from pathlib import Path

import pytest
from crumbcoat_site.bring_in.saved_pages import read_page
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from mkdocs.commands.build import build
from mkdocs.config import load_config

from tests.site_plugins.command.conftest import new_site, run

ROOT = Path(__file__).parents[3]
PAGES = ROOT / "tests" / "site_plugins" / "bring_in" / "pages"


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(PAGES, tmp_path / "saved")
    return new_site(tmp_path, monkeypatch, "UK")


def test_pages_become_drafts_with_their_pictures(site: Path) -> None:
    done = run("bring-in", "../saved/sections.html", "--in", "recipes/old")
    assert done.exit_code == 0, done.output
    folder = site / "docs/recipes/old"
    assert sorted(path.name for path in folder.iterdir()) == [
        "swiss-meringue-buttercream.2-1.png",
        "swiss-meringue-buttercream.png",
        "swiss-meringue-buttercream.yaml",
    ]
    assert (folder / "swiss-meringue-buttercream.png").read_bytes() == (
        PAGES / "sections_files/swiss-cover.png"
    ).read_bytes()
    text = (folder / "swiss-meringue-buttercream.yaml").read_text(encoding="utf-8")
    assert text.startswith(
        "# yaml-language-server: $schema=../../../recipe.schema.json\ntitle: Swiss meringue buttercream\n"
    )
    shown = done.output.splitlines()
    assert shown[0] == "docs/recipes/old/swiss-meringue-buttercream.yaml: Swiss meringue buttercream"
    assert "    from ../saved/sections.html, JSON-LD; cups and spoons are US ones" in shown
    assert "    moved from: 2017/11/swiss-buttercream/" in shown
    assert "    picture not saved with the page: https://cdn.meringue.example/uploads/swiss-2.png" in shown
    assert "    picture left out: sections_files/not-a-picture.jpg (not a JPEG, PNG, WebP or AVIF picture)" in shown
    assert shown[-1] == "1 draft, 0 problems."


def test_a_folder_of_pages_comes_in_and_is_checked(site: Path) -> None:
    done = run("bring-in", "../saved", "--json")
    report = json.loads(done.output)
    assert done.exit_code == 1  # Two pages have a problem, and the others are there.
    assert [problem["place"] for problem in report["problems"]] == ["../saved/broken.html:3", "../saved/several.html"]
    files = [one["file"] for one in report["recipes"]]
    assert len(files) == len(set(files)) == 18
    assert all((site / file).is_file() for file in files)
    assert "docs/recipes/jam-filling-2.yaml" in files
    [plain] = [one for one in report["recipes"] if one["title"] == "Fluffy porch buttercream"]
    assert plain["measures"] == "US"
    assert {"what": "powdered sugar: sugar_powdered", "confidence": 1.0} in plain["sure"]
    assert plain["doubtful"] == [{"what": "family: sugar-and-butter frosting", "why": "by the words of the page"}]
    assert [one["what"].partition(":")[0] for one in plain["text"]] == [
        "prepTime", "totalTime", "nutrition", "aggregateRating",
    ]  # fmt: skip
    checked = json.loads(run("check", "--json", "--no-warnings").output)
    assert {report["file"] for report in checked["files"]} >= set(files)


def test_no_file_is_overwritten(site: Path) -> None:
    assert run("bring-in", "../saved/plain.html").exit_code == 0
    draft = site / "docs/recipes/fluffy-porch-buttercream.yaml"
    draft.write_text("mine\n", encoding="utf-8")
    again = run("bring-in", "../saved/plain.html")
    assert again.exit_code == 1
    assert draft.read_text(encoding="utf-8") == "mine\n"
    assert again.output == (
        "docs/recipes/fluffy-porch-buttercream.yaml: there is such a file already, for 'Fluffy porch buttercream'.\n"
        "    Fix: move that file, or choose another folder with --in.\n\n0 drafts, 1 problem.\n"
    )


def test_the_name_of_a_page_is_shown_without_signs_for_a_terminal(site: Path) -> None:
    """ECMA-48: a terminal takes what follows ESC as an order."""
    page = site.parent / "saved" / "a\x1b]0;x\x07.html"
    page.write_text("<p>Nothing.</p>", encoding="utf-8")
    done = run("bring-in", str(page))
    assert done.output.startswith("../saved/a?]0;x?.html: the page has no recipe")


def test_a_dry_run_writes_nothing(site: Path) -> None:
    before = sorted((site / "docs").rglob("*"))
    done = run("bring-in", "../saved/plain.html", "--dry-run", "--measures", "UK")
    assert "cups and spoons are UK ones" in done.output
    assert sorted((site / "docs").rglob("*")) == before


def test_drafts_stay_in_the_site(site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    outside = run("bring-in", "../saved/plain.html", "--in", "../..")
    assert outside.exit_code == 1
    assert outside.output.endswith("this is outside docs.\n    Fix: name a folder in it.\n")
    run("bring-in", "../saved/hostile.html")
    assert [path.name for path in (site / "docs/recipes").iterdir() if "passwd" in path.name] == [
        "etc-passwd-draft-no.yaml"
    ]
    monkeypatch.chdir(tmp_path)
    nowhere = run("bring-in", "saved/plain.html")
    assert nowhere.exit_code == 1
    assert "there is no mkdocs.yml here" in nowhere.output


def test_the_site_s_own_ingredients_are_kinds(site: Path) -> None:
    (site / "docs/ingredients.yaml").write_text(
        "our_paste:\n  name: vanilla bean paste\n"
        "  composition: {sugars: 60 %, water: 35 %}\n  measures: {US tbsp: 20 g}\n",
        encoding="utf-8",
    )
    run("bring-in", "../saved/sections.html")
    text = (site / "docs/recipes/swiss-meringue-buttercream.yaml").read_text(encoding="utf-8")
    assert "    kind: our_paste\n    name: vanilla bean paste\n    amount: 1 US tbsp\n" in text


def test_a_draft_that_is_published_is_found_at_its_old_address(site: Path) -> None:
    run("bring-in", "../saved/rdfa.html", "../saved/plain.html")
    draft = site / "docs/recipes/coffee-whipped-cream.yaml"
    draft.write_text(draft.read_text(encoding="utf-8").replace("draft: yes\n", ""), encoding="utf-8")
    assert run("check").exit_code == 0
    build(load_config("mkdocs.yml", plugins=[{"recipe_cards": {"handouts": False}}]))
    old = (site / "site/coffee-cream.html").read_text(encoding="utf-8")
    assert 'href="recipes/coffee-whipped-cream/"' in old
    assert not (site / "site/fluffy-porch-buttercream").exists()
    [again] = read_page(site / "site/recipes/coffee-whipped-cream/index.html", "index.html").recipes
    assert again.title == "Coffee whipped cream"
    assert [author.name for author in again.authors] == ["Tilda Bean"]
    assert [section.title for section in again.sections] == ["Method"]


def test_check_finds_old_addresses_that_are_taken(site: Path) -> None:
    run("bring-in", "../saved/plain.html")
    run("bring-in", "../saved/plain.html", "--in", "more")
    (site / "docs/coffee-cream.html").write_text("mine", encoding="utf-8")
    run("bring-in", "../saved/rdfa.html")
    checked = run("check", "--no-warnings").output
    problem = "'fluffy-porch-buttercream/' in `moved_from` is where the old address of Fluffy porch buttercream is now."
    assert f"docs/recipes/fluffy-porch-buttercream.yaml:16: {problem}" in checked
    assert "'coffee-cream.html' in `moved_from` is where a page or file of the site is now." in checked


def test_the_demo_goes_out_and_comes_in_with_the_same_masses(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    sources = sorted((ROOT / "recipes").glob("*/*.yaml"))
    done = run("take-out", "../out", *map(str, sources))
    assert done.exit_code == 0, done.output
    out = tmp_path / "out"
    rows = list(csv.DictReader((out / "ingredients.csv").read_text(encoding="utf-8").splitlines()))
    for source in sources:
        recipe, _ = load_recipe(source, source.name)
        name = source.relative_to(ROOT / "recipes").as_posix().removesuffix(".yaml")
        listed = {row["ingredient"]: row for row in rows if row["recipe"] == name}
        assert list(listed) == [one.key for one in recipe.ingredients]
        assert [float(row["grams"]) for row in listed.values()] == [
            pytest.approx(one.mass_g, abs=0.001) for one in recipe.ingredients
        ]
        [found] = read_page(out / f"{name}.json", name).recipes
        assert found.title == recipe.title
        assert [section.title for section in found.sections] == [stage.title for stage in recipe.stages]
        text = (out / f"{name}.txt").read_text(encoding="utf-8")
        assert text.startswith(f"{recipe.title}\n===")
        assert max(map(len, text.splitlines())) <= 78
        words = " ".join(text.split())
        assert [one.name for one in recipe.ingredients if one.name not in words] == []


def test_a_recipe_goes_out_and_comes_in_as_it_was(site: Path) -> None:
    source = ROOT / "recipes/milk-emulsions/silk-milk-frosting.yaml"
    assert run("take-out", "out", str(source)).exit_code == 0
    assert run("bring-in", "out/milk-emulsions/silk-milk-frosting.json").exit_code == 0
    before, _ = load_recipe(source, source.name)
    back = site / "docs/recipes/silk-milk-frosting.yaml"
    after, _ = load_recipe(back, back.name, region="UK")
    assert [(one.food.key, round(one.mass_g, 6)) for one in after.ingredients] == [
        (one.food.key, round(one.mass_g, 6)) for one in before.ingredients
    ]


def test_drafts_go_out_only_by_name_and_no_cell_is_a_formula(site: Path, tmp_path: Path) -> None:
    page = tmp_path / "saved/formula.jsonld"
    recipe = {
        "@type": "Recipe",
        "name": "=1+1",
        "recipeIngredient": ["100 g sugar, @home"],
        "recipeInstructions": "Stir.",
    }
    page.write_text(json.dumps(recipe), encoding="utf-8")
    run("bring-in", "../saved/formula.jsonld")
    draft = "docs/recipes/1-1.yaml"
    assert run("take-out", "out").output.endswith("every recipe is a draft.\n    Fix: name the files.\n")
    assert run("take-out", "named", draft).exit_code == 0
    [row] = csv.DictReader(Path("named/ingredients.csv").read_text(encoding="utf-8").splitlines())
    assert (row["title"], row["preparation"], row["grams"]) == ("'=1+1", "'@home", "100")


def test_without_the_library_it_says_how_to_get_it(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "lxml", None)
    done = run("bring-in", "../saved/plain.html")
    assert done.exit_code == 1
    assert done.output.endswith("is not installed.\n    Fix: pip install 'crumbcoat[bring-in]'.\n")
    assert run("bring-in", "../saved/file.jsonld").exit_code == 0


def test_take_out_leaves_a_folder_with_files_alone(site: Path) -> None:
    assert run("take-out", "../saved").output.endswith(
        "there are files here already.\n    Fix: name a new folder, or an empty one.\n"
    )
    Path("docs/recipes").mkdir(exist_ok=True)
    Path("docs/recipes/bad.yaml").write_text("title: x\n", encoding="utf-8")
    broken = run("take-out", "out", "docs/recipes/bad.yaml")
    assert broken.exit_code == 1
    assert "docs/recipes/bad.yaml:1: " in broken.output
    assert "Nothing was written." in broken.output
    assert not Path("out").exists()
